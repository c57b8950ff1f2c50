"""Templates and data to PDF, by Typst: data goes in as JSON and is never code.

Fonts are our own, whatever the machine has; a page is the same byte for byte for the same data.
"""

from __future__ import annotations

import json
from datetime import UTC, datetime, time
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

import typst

from evenhung.sheets.pack.figures import shortened

if TYPE_CHECKING:
    from collections.abc import Mapping

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
        sys_inputs={"data": json.dumps(given, ensure_ascii=False, allow_nan=False)},
        pdf_standards=[STANDARD],
        timestamp=int(midnight.timestamp()),
    )
    if not isinstance(made, bytes):
        raise TypeError(f"{template}: one document, not {type(made).__name__}")
    return made


def edition_data(edition: Edition) -> dict[str, object]:
    """Give what stands on every page as plain data."""
    return {
        "revision": edition.revision,
        "on": day_in_words(edition),
        "date": [edition.on.year, edition.on.month, edition.on.day],
        "paper": {"a4": "a4", "letter": "us-letter"}[edition.paper],
    }


def day_in_words(edition: Edition) -> str:
    """Give the day of an edition as it is written: ``9 March 2026``."""
    return f"{edition.on.day} {edition.on:%B %Y}"
