"""Evenhung: survey, weigh, hang and cord box-framed sliding sash windows."""
