"""What a command refuses of its own options: where, what was given, what would do."""

from __future__ import annotations

from datetime import date

from evenhung.errors import InvalidSurvey, SurveyFault


def refused(where: str, given: str, allowed: str) -> InvalidSurvey:
    """Give the refusal of what was given for an option, a file or a folder."""
    return InvalidSurvey((SurveyFault(where, repr(given), allowed),))


def day_of(option: str, text: str) -> date:
    """Read the day that an option was given.

    Raises
    ------
    InvalidSurvey
        If it is none, or not in the calendar.
    """
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise refused(option, text, 'a day, year first, such as "2026-03-09"') from None
