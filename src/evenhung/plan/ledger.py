"""Taking what a survey states, else what the reference has, with a note of every stand-in."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed, stands_for
from evenhung.plan.catalogue import note

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan.assumed import Assumed
    from evenhung.plan.words import Words
    from evenhung.survey.fields import Record


class Ledger(NamedTuple):
    """The notes on one sash, or on the house, as they gather."""

    words: Words
    notes: list[Note]

    def length_mm(self, record: Record, field: str, called: str = "") -> float:
        """Take a length as stated, else from the reference [mm]."""
        stated = getattr(record, field)
        if stated is not None:
            return float(stated.mm)
        return self.length_for(stands_for(type(record), field), called or _spoken(field)).value

    def mass_kg(self, record: Record, field: str) -> float:
        """Take a mass as stated, else from the reference [kg]."""
        stated = getattr(record, field)
        if stated is not None:
            return float(stated.kg)
        return self.mass_for(stands_for(type(record), field), _spoken(field)).value

    def number(self, record: Record, field: str) -> float:
        """Take a plain number as stated, else from the reference."""
        stated = getattr(record, field)
        if stated is not None:
            return float(stated)
        return self.number_for(stands_for(type(record), field), _spoken(field)).value

    def length_for(self, row: str, called: str) -> Assumed:
        """Let a reference row stand for a length that is not stated."""
        found = assumed(row)
        self.assume(called, self.words.length(found.value), found.source)
        return found

    def mass_for(self, row: str, called: str) -> Assumed:
        """Let a reference row stand for a mass that is not stated."""
        found = assumed(row)
        self.assume(called, self.words.mass(found.value), found.source)
        return found

    def number_for(self, row: str, called: str) -> Assumed:
        """Let a reference row stand for a number that is not stated; it is noted as printed."""
        found = assumed(row)
        self.assume(called, found.printed, found.source)
        return found

    def assume(self, called: str, value: str, source: str) -> None:
        """Note something taken for granted."""
        self.notes.append(note("assumed", source, what=called, value=value))


def _spoken(field: str) -> str:
    return field.removesuffix("_pct").replace("_", " ")
