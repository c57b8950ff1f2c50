"""How a sash ran once the work was done: what moved it, and whether it stayed where it was left."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.survey.decision import a_date
from evenhung.survey.fields import Record, a_choice, a_note, a_text, part, plain
from evenhung.survey.readings import (
    HOLDING,
    LOWERING,
    PULLS,
    RAISING,
    RESTRAINING,
    asked_and_given,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.quantities import Force
    from evenhung.survey.fields import Refusal

BEHAVIOURS = ("stays", "drops", "rises")
"""What a sash does once the hand is off it."""

PLACES = ("shut", "quarter", "half", "three_quarters", "open")
"""Where it is let go, from shut to as far as it goes."""


def _let_go(where: str) -> Any:
    return plain(a_choice(*BEHAVIOURS), f"what it does, let go {where}", "not tried")


class LetGo(Record):
    """What a sash does where it is let go, without a push."""

    shut: str | None = _let_go("shut")
    quarter: str | None = _let_go("a quarter open")
    half: str | None = _let_go("half open")
    three_quarters: str | None = _let_go("three quarters open")
    open: str | None = _let_go("open as far as it goes")

    def seen(self) -> dict[str, str]:
        """Give what it did, by the place it was let go at; only where it was tried."""
        tried = {place: getattr(self, place) for place in PLACES}
        return {place: did for place, did in tried.items() if did is not None}


class Completion(Record):
    """How a sash ran once the work was done."""

    on: str | None = plain(a_date(), "the day it was tried, year first", "not recorded")
    by: str | None = plain(a_text(), "who tried it", "not recorded")
    let_go: LetGo = part(LetGo, "what it does where it is let go")
    raising: tuple[Force, ...] | None = plain(PULLS, RAISING, "not read")
    lowering: tuple[Force, ...] | None = plain(PULLS, LOWERING, "not read")
    holding: tuple[Force, ...] | None = plain(
        PULLS,
        HOLDING,
        "it does not come down by itself",
    )
    restraining: tuple[Force, ...] | None = plain(
        PULLS,
        RESTRAINING,
        "it does not rise by itself",
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")

    @property
    def says(self) -> str:
        """What is stated of it, by the names of the fields."""
        return ", ".join(vars(self)) or "(empty)"

    def contradictions(self) -> Iterable[Refusal]:
        """Give a sash that both wants a pull and moves by itself."""
        return asked_and_given(self)


def impossible_completion(tried: Iterable[tuple[str, Completion | None]]) -> Iterator[Refusal]:
    """Give sashes that went on beyond an end of their travel.

    Parameters
    ----------
    tried
        Those of one window by their places, ``upper`` or ``lower``; None where it was not tried.
    """
    for place, completion in tried:
        if completion is None:
            continue
        lowest, highest = ("open", "shut") if place == "upper" else ("shut", "open")
        for end, beyond, other in ((lowest, "drops", "rises"), (highest, "rises", "drops")):
            if getattr(completion.let_go, end) == beyond:
                path = f"{place}.completion.let_go.{end}"
                way = "low" if beyond == "drops" else "high"
                yield path, beyond, f"stays or {other}: {end}, it is as {way} as it goes"
