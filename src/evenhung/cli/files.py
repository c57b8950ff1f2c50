"""Survey files: read from a path or from standard input."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.survey import read_survey
from evenhung.survey.reading import MOST_BYTES

if TYPE_CHECKING:
    from evenhung.survey import Survey

STANDARD_INPUT = "-"


def survey_in(path: str) -> Survey:
    """Read a survey: JSON where the name ends in ``.json``, else TOML; ``-`` is standard input.

    Raises
    ------
    InvalidSurvey
        Where it cannot be read, or is not a survey.
    """
    try:
        data = _bytes_in(path)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        name = path if path.isprintable() else ascii(path)
        raise InvalidSurvey(
            (SurveyFault("file", name, f"a survey that can be read: {reason}"),)
        ) from None
    return read_survey(data, "json" if path.lower().endswith(".json") else "toml")


def _bytes_in(path: str) -> bytes:
    """Read no more than a survey can be, and one byte to tell that there is more."""
    if path == STANDARD_INPUT:
        if sys.stdin is None:
            raise ValueError("standard input is closed")
        return sys.stdin.buffer.read(MOST_BYTES + 1)
    with Path(path).open("rb") as file:
        return file.read(MOST_BYTES + 1)
