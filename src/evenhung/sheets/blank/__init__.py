"""Blank survey forms: a workbook that is read back into a survey, and sheets to fill in by hand."""
