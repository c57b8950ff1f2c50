"""The section through a box: one side of a sash, its cord and its weight, through its travel."""

from evenhung.sheets.section.side import section_of

__all__ = ["section_of"]
