"""What holds wherever windows are taken apart, each with where the rule comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.assumed import source_of
from evenhung.plan.catalogue import note
from evenhung.reference import look_up

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note


def on_the_house() -> Iterator[Note]:
    """What holds wherever windows are taken apart, each with where the rule comes from."""
    for hazard in _HAZARDS:
        yield note("hazard", source_of_rule(hazard), rule=rule(hazard))


_HAZARDS = (
    "falling sash",
    "falling weight",
    "glass",
    "lead paint",
    "lead weights",
    "asbestos putty",
    "manual handling",
    "height",
    "open at night",
)


def rule(hazard: str) -> str:
    """Give the rule on a hazard."""
    return look_up("hazards", hazard, "rule").value


def source_of_rule(hazard: str) -> str:
    """Give where the rule on a hazard comes from, and what comes before it."""
    return f"{source_of(f'hazards/{hazard}/rule')}; local codes and licensed practice come first"
