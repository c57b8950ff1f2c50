"""The weights that can be hung: those found, those that lie loose, those the stock counts."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.proposal import bar_length_mm

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.frame import Side
    from evenhung.plan.house import HousePlan, SashPlan
    from evenhung.survey.stock import ReadyMade, Stock
    from evenhung.survey.weight import BareWeight


class Home(NamedTuple):
    """The side of a sash where a weight was found."""

    sash: SashPlan
    side: Side


class Candidate(NamedTuple):
    """A weight that is there, and can be hung."""

    name: str
    """Where it was found, its tag, or what it is sold as."""
    kg: Fraction
    length_mm: float
    """Overall, as it hangs; nan where not known."""
    across_mm: float
    """Diameter if round, side if square; nan where not known."""
    metal: str | None
    is_square: bool
    home: Home | None
    record: BareWeight | None
    """None where it is bought or was hung new."""
    bought: ReadyMade | None = None
    is_hung: bool = False
    """Whether it hangs there already: nothing is added to it or taken off."""
    is_displaced: bool = False
    """Whether it lies loose because another hangs in its place by now."""

    @property
    def room(self) -> str | None:
        """The room where it was found; None where it has no home or the room is not recorded."""
        return room_of(self.home.sash) if self.home else None


class LeftOut(NamedTuple):
    """A weight that cannot be allotted, and why."""

    name: str
    reason: str


def room_of(plan: SashPlan) -> str | None:
    """Give the room of a sash: what stands before the first comma."""
    room = plan.window.room
    return room.partition(",")[0].strip().casefold() if room else None


def place_name(plan: SashPlan, side: Side | None = None) -> str:
    """Name a sash, or a side of it, as people do."""
    return " ".join(filter(None, (plan.window.tag, plan.place, side)))


def candidates_in(
    plan: HousePlan, stock: Stock, sides: int
) -> tuple[list[Candidate], list[LeftOut]]:
    """Give the weights that can be allotted, in the order of the survey, and those that cannot.

    Parameters
    ----------
    plan
        The plan of the house.
    stock
        What else there is.
    sides
        How many sides could be served: no more of anything is of use.
    """
    found: list[Candidate] = []
    out: list[LeftOut] = []
    for one in [*_at_sashes(plan), *_loose(plan)]:
        if isinstance(one, LeftOut):
            out.append(one)
        else:
            found.append(one)
    found.extend(_counted(stock, sides))
    return found, out


def _at_sashes(plan: HousePlan) -> Iterator[Candidate | LeftOut]:
    sides: tuple[Side, Side] = ("left", "right")
    for sash in plan.sashes():
        for side in sides:
            weight = getattr(sash.sash, side)
            if weight is None or weight.is_missing:
                continue
            name = place_name(sash, side)
            if weight.shared_with is not None:
                yield LeftOut(name, f"it serves {weight.shared_with} too")
            else:
                yield _candidate(name, weight, Home(sash, side))


def _loose(plan: HousePlan) -> Iterator[Candidate | LeftOut]:
    for weight in plan.survey.weight:
        yield _candidate(weight.tag, weight, None)


def _candidate(name: str, weight: BareWeight, home: Home | None) -> Candidate | LeftOut:
    if weight.weighed is None:
        return LeftOut(name, "it is not weighed")
    across = weight.diameter.mm if weight.diameter else math.nan
    length = weight.length.mm if weight.length else math.nan
    is_square = weight.section == "square"
    if math.isnan(length) and weight.metal:
        length = bar_length_mm(weight.weighed.kg, across, is_square, weight.metal)
    return Candidate(
        name, weight.weighed.exact, length, across, weight.metal, is_square, home, weight
    )


def _counted(stock: Stock, sides: int) -> Iterator[Candidate]:
    """Give each ready-made weight of which there are only so many."""
    for ready in stock.ready_made:
        across = ready.diameter.mm if ready.diameter else math.nan
        for _ in range(min(ready.count or 0, sides)):
            yield Candidate(
                ready.name,
                ready.mass.exact,
                ready.length.mm,
                across,
                None,
                is_square=False,
                home=None,
                record=None,
                bought=ready,
            )
