"""Details at a large scale: the box cut level, and the meeting rails cut upright."""

from evenhung.sheets.details.jamb import jamb_of, sides_of
from evenhung.sheets.details.meeting import meeting_of

__all__ = ["jamb_of", "meeting_of", "sides_of"]
