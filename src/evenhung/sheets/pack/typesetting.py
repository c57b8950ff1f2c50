"""Templates and data to PDF, by Typst: data goes in as JSON and is never code.

Fonts are our own, whatever the machine has; a page is the same byte for byte for the same data.
"""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime, time
from typing import TYPE_CHECKING, Any

from evenhung.sheets.pack.figures import shortened
from evenhung.sheets.pack.press import Job, done

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from evenhung.sheets.pack.house import Edition


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
    return done(_job(template, data, house=house, edition=edition))


def asked(
    template: str, label: str, data: Mapping[str, object], *, house: str, edition: Edition
) -> list[Any]:
    """Lay a document out and read from it what a label stands on.

    Parameters
    ----------
    template
        Name of its template.
    label
        What to look for.
    data
        What the template asks for, as plain data.
    house
        What the house is called.
    edition
        What stands on every page.

    Returns
    -------
    list
        The value of each piece of metadata with that label, in the order of the document.
    """
    job = _job(template, data, house=house, edition=edition)
    found: list[Any] = json.loads(done(job._replace(asked=label)))
    return found


def _job(template: str, data: Mapping[str, object], *, house: str, edition: Edition) -> Job:
    given = {**data, "house": shortened(house), "edition": edition_data(edition)}
    text = _with_signs(json.dumps(given, ensure_ascii=False, allow_nan=False))
    return Job(template, text, int(datetime.combine(edition.on, time(), UTC).timestamp()))


_FRACTION = re.compile(r"(?<![\d/.])(\d{1,2})/(2|4|8|16|32)(?![\d/])")
_BY = re.compile(r"(?<=\d) x (?=\d)")
_UNIT = re.compile(r"(?<=\d) (?=(?:%|mm\b|kg\b|N\b|lbf?\b|oz\b|in\b|ft\b))")


def _with_signs(text: str) -> str:
    r"""Put the signs that print has and a keyboard has not.

    The slash of a fraction (U+2044) sets its figures small; a number keeps its unit on its line.

    Examples
    --------
    >>> _with_signs("3 3/8 in, 9/3/2026, 20 x 16 mm").replace("\N{NO-BREAK SPACE}", "_")
    '3 3⁄8_in, 9/3/2026, 20 × 16_mm'
    """
    text = _FRACTION.sub("\\1\N{FRACTION SLASH}\\2", text)
    return _UNIT.sub("\N{NO-BREAK SPACE}", _BY.sub(" \N{MULTIPLICATION SIGN} ", text))


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
