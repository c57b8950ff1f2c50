"""Blank survey forms on paper, to be copied and filled in: one for the house, one for a window."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from evenhung.sheets.blank.columns import form_of, is_given, is_seldom
from evenhung.sheets.pack.cautions import DEFERENCE, ON_THE_HANG, rules
from evenhung.sheets.pack.typesetting import typeset

if TYPE_CHECKING:
    from evenhung.sheets.blank.columns import Column
    from evenhung.sheets.pack.house import Edition

HOUSE = ("name", "shown_in", "scale_step", "currency", "note")
WEIGHT = ("weighed", "marked", "length", "diameter", "section", "metal", "hung", "state")
LEFT_TO_SCREEN = ("policy.", "cord.", "readings.", "left.", "right.")
"""What the window's page has in places of its own, or what is better stated on the screen."""

MOST_CHOICES = 4
"""More are not written out."""

_NEEDLESS = re.compile(r"^(box|left|readings|cord)\.")
"""What the place on the page says already."""

READINGS = ("raising", "lowering", "holding", "restraining")


def blank_forms(edition: Edition) -> bytes:
    """Give the blank forms as PDF.

    Parameters
    ----------
    edition
        Its paper; a blank form has no survey yet.
    """
    house, windows, sashes = (form_of(name) for name in ("House", "Windows", "Sashes"))
    loose = form_of("Loose weights")
    data = {
        "house_fields": [_field(one) for one in house.columns if one.path in HOUSE],
        "cord_fields": [_field(one) for one in house.columns if one.path.startswith("cord.")],
        "window_fields": [
            _field(one) for one in windows.columns if not is_seldom(one) and not is_given(one)
        ],
        "sash_fields": [
            _field(one)
            for one in sashes.columns[2:]
            if not is_seldom(one) and not one.path.startswith(LEFT_TO_SCREEN)
        ],
        "weight_fields": [
            _field(one) for one in sashes.columns if one.path in {f"left.{n}" for n in WEIGHT}
        ],
        "readings": [_field(one) for one in sashes.columns if one.path in _paths("readings")],
        "loose_fields": [_field(one) for one in loose.columns if not is_given(one)],
        "rules": rules(ON_THE_HANG),
        "deference": DEFERENCE,
    }
    return typeset("forms", data, house="Evenhung", edition=edition)


def _paths(record: str) -> set[str]:
    return {f"{record}.{name}" for name in READINGS}


def _field(column: Column) -> dict[str, object]:
    says = column.says.partition("; if absent:")[0].partition("; required")[0]
    return {
        "name": _NEEDLESS.sub("", column.path).replace("_", " ").replace(".", " "),
        "says": says,
        "choices": list(column.choices) if len(column.choices) <= MOST_CHOICES else [],
        "is_required": column.is_required,
    }
