"""Templates and data to PDF, by Typst: data goes in as JSON and is never code.

Fonts are our own, whatever the machine has; a page is the same byte for byte for the same data.
"""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime, time
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

import typst

from evenhung.sheets.pack.figures import shortened

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from evenhung.sheets.pack.house import Edition

HERE = Path(__file__).parent
TEMPLATES, FONTS = HERE / "templates", HERE / "fonts"
STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tagged, titled, every picture told in words."""


@cache
def _compiler() -> typst.Compiler:
    return typst.Compiler(
        root=TEMPLATES, font_paths=[FONTS], ignore_system_fonts=True, sys_inputs={}
    )


def typeset(template: str, data: Mapping[str, object], *, house: str, edition: Edition) -> bytes:
    """Set a document.

    Parameters
    ----------
    template
        Name of its template.
    data
        What the template asks for, as plain data.
    house
        What the house is called.
    edition
        What stands on every page.

    Returns
    -------
    bytes
        A PDF, fonts embedded.
    """
    given = {**data, "house": shortened(house), "edition": edition_data(edition)}
    midnight = datetime.combine(edition.on, time(), UTC)
    made = _compiler().compile(
        input=TEMPLATES / f"{template}.typ",
        format="pdf",
        sys_inputs={
            "data": _with_fractions(json.dumps(given, ensure_ascii=False, allow_nan=False))
        },
        pdf_standards=[STANDARD],
        timestamp=int(midnight.timestamp()),
    )
    if not isinstance(made, bytes):
        raise TypeError(f"{template}: one document, not {type(made).__name__}")
    return made


_FRACTION = re.compile(r"(?<![\d/.])(\d{1,2})/(2|4|8|16|32)(?![\d/])")


def _with_fractions(text: str) -> str:
    """Put the slash of a fraction (U+2044) where one is meant: its figures are then set small.

    Examples
    --------
    >>> _with_fractions("3 3/8 in, 9/3/2026")
    '3 3⁄8 in, 9/3/2026'
    """
    return _FRACTION.sub("\\1\N{FRACTION SLASH}\\2", text)


def edition_data(edition: Edition) -> dict[str, object]:
    """Give what stands on every page as plain data."""
    return {
        "revision": edition.revision,
        "on": written_day(edition.on),
        "date": [edition.on.year, edition.on.month, edition.on.day],
        "paper": {"a4": "a4", "letter": "us-letter"}[edition.paper],
    }


MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def written_day(day: date) -> str:
    """Give a day as it is written.

    Examples
    --------
    >>> from datetime import date
    >>> written_day(date(2026, 3, 9))
    '9 March 2026'
    """
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"
