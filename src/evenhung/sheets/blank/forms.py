"""Blank survey forms on paper, to be copied and filled in: one for the house, one for a window."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from evenhung.sheets.blank.columns import form_of, is_given, is_seldom
from evenhung.sheets.pack.cautions import DEFERENCE, ON_THE_HANG, rules
from evenhung.sheets.pack.typesetting import typeset
from evenhung.survey.finding import SYMPTOMS
from evenhung.survey.members import PARTS, SEEN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.sheets.blank.columns import Column, TableName
    from evenhung.sheets.pack.house import Edition

HOUSE = ("name", "shown_in", "scale_step", "currency", "note", "built", "protected", "glass_rules")
WINDOW = ("tag", "room", "shared_with", "note")
WEIGHT = ("weighed", "marked", "length", "diameter", "section", "metal", "hung", "state")
READINGS = ("raising", "lowering", "holding", "restraining")
FOUND = (
    "part",
    "seen",
    "measured_from",
    "begins",
    "length",
    "depth",
    "moisture_pct",
    "grade",
)
LEFT_TO_SCREEN = (
    *("policy.", "cord.", "readings.", "completion."),
    *("left.", "right.", "slide_friction."),
)
"""What the window's page has in places of its own, or what is better stated on the screen."""

MOST_CHOICES = 4
"""More are not written out."""

_NEEDLESS = re.compile(r"^(box|pulley|place|left|readings|cord)\.")
"""What the place on the page says already."""


def blank_forms(edition: Edition) -> bytes:
    """Give the blank forms as PDF.

    Parameters
    ----------
    edition
        Its paper; a blank form has no survey yet.
    """
    data = {
        "house_fields": _fields("House", *HOUSE),
        "cord_fields": _within("House", "cord."),
        "loose_fields": [
            _field(one) for one in form_of("Loose weights").columns if not is_given(one)
        ],
        "window_fields": _fields("Windows", *WINDOW),
        "box_fields": _within("Windows", "box."),
        "pulley_fields": _within("Windows", "pulley."),
        "place_fields": _within("Windows", "place."),
        "sash_fields": [
            _field(one)
            for one in form_of("Sashes").columns[2:]
            if not is_seldom(one) and not one.path.startswith(LEFT_TO_SCREEN)
        ],
        "weight_fields": _fields("Sashes", *(f"left.{name}" for name in WEIGHT)),
        "readings": _fields("Sashes", *(f"readings.{name}" for name in READINGS)),
        "found_fields": _fields("Findings", *FOUND),
        "symptoms": list(SYMPTOMS),
        "symptom_says": _says("Symptoms", "what"),
        "parts": list(_parts()),
        "seen": list(_seen()),
        "grade": _fields("Findings", "grade")[0],
        "grade_says": _says("Findings", "grade"),
        "rules": rules(ON_THE_HANG),
        "deference": DEFERENCE,
    }
    return typeset("forms", data, house="Evenhung", edition=edition)


def _fields(name: TableName, *paths: str) -> list[dict[str, object]]:
    """Give fields by their paths, in the order given."""
    by_path = {column.path: column for column in form_of(name).columns}
    return [_field(by_path[path]) for path in paths]


def _within(name: TableName, record: str) -> list[dict[str, object]]:
    """Give the fields of a record within a table, but what is only for one side of it."""
    columns = form_of(name).columns
    return [_field(one) for one in columns if one.path.startswith(record) and not is_seldom(one)]


def _says(name: TableName, path: str) -> str:
    """Give what a field means, without what its absence means."""
    column = form_of(name).column(path)
    return column.says.partition("; if absent:")[0].partition("; required")[0] if column else ""


def _field(column: Column) -> dict[str, object]:
    name = _NEEDLESS.sub("", column.path).replace("_pct", " %").replace("_", " ")
    return {
        "name": name.replace(".", " "),
        "says": column.says.partition("; if absent:")[0].partition("; required")[0],
        "choices": list(column.choices) if len(column.choices) <= MOST_CHOICES else [],
        "is_required": column.is_required,
    }


def _parts() -> Iterator[dict[str, str]]:
    """Give the names of the parts, those that come in pairs once."""
    sash: dict[str, list[str]] = {}
    frame: dict[str, None] = {}
    for name, member in PARTS.items():
        alike = re.sub(r"\b(left|right)\b", "left or right", name)
        if member.place:
            bare = alike.removeprefix(f"{member.place} ")
            sash.setdefault(bare, []).append(member.place)
        else:
            frame.setdefault(alike, None)
    said = [bare if len(set(of)) > 1 else f"{bare} ({of[0]})" for bare, of in sash.items()]
    yield {"of": "upper or lower", "names": ", ".join(said)}
    yield {"of": "frame", "names": ", ".join(frame)}


def _seen() -> Iterator[dict[str, str]]:
    """Give the words for what can be seen, with the kinds of part that share them."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for kind, words in SEEN.items():
        alike.setdefault(words, []).append(kind)
    for words, kinds in alike.items():
        yield {"of": ", ".join(kinds), "words": ", ".join(words)}
