"""Least, likely and most of something, of which the likely one may stand alone.

The survey holds a single value then; a form has three fields and leaves two of them empty.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.survey.schema import holds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.survey.fields import Entry

ALONE = "likely"
"""The field that may stand alone."""


def may_stand_alone(entry: Entry) -> bool:
    """Tell whether a single value may stand in for a table of three."""
    return entry.part is not None and ALONE in entry.part.entries and "anyOf" in holds(entry)


def spread_out(item: Mapping[str, Any], entries: Mapping[str, Entry]) -> dict[str, Any]:
    """Give an item with every value that stands alone in its table, for a form."""
    return {
        name: {ALONE: value}
        if may_stand_alone(entries[name]) and not isinstance(value, dict)
        else value
        for name, value in item.items()
    }


def drawn_in(item: Mapping[str, Any], entries: Mapping[str, Entry]) -> dict[str, Any]:
    """Give an item with every table that holds nothing else as the value that stands alone."""
    return {
        name: value[ALONE]
        if may_stand_alone(entries[name]) and isinstance(value, dict) and set(value) == {ALONE}
        else value
        for name, value in item.items()
    }
