"""The take-off of a house: what to buy and to have by, from its plan, repair and glazing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.takeoff.cords import cords_of
from evenhung.plan.takeoff.glass import glass_orders
from evenhung.plan.takeoff.paint import paint_for, painted_in
from evenhung.plan.takeoff.timber import timber_for

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.glazing.window import WindowGlazing
    from evenhung.plan.house import HousePlan
    from evenhung.plan.repair.house import HouseRepair
    from evenhung.plan.takeoff.cords import CordLine
    from evenhung.plan.takeoff.glass import GlassLine
    from evenhung.plan.takeoff.paint import Paint
    from evenhung.plan.takeoff.timber import TimberPiece


class WeightLine(NamedTuple):
    """One make-weight, or one new weight, to be cut from a bar."""

    window: str
    place: str
    side: str
    metal: str
    across_mm: float
    length_mm: float
    mass_kg: float


class Putty(NamedTuple):
    """Putty for all panes that are worked on."""

    length_mm: float
    mass_kg: float


class TakeOff(NamedTuple):
    """All that is bought for a house."""

    timber: tuple[TimberPiece, ...]
    glass: tuple[GlassLine, ...]
    putty: Putty
    paint: Paint
    paint_by_window: tuple[tuple[str, Paint], ...]
    """The same by the tag of each window that is painted."""
    cord: tuple[CordLine, ...]
    weights: tuple[WeightLine, ...]


def take_off(plan: HousePlan, repair: HouseRepair, glazing: Sequence[WindowGlazing]) -> TakeOff:
    """Give the take-off of a house.

    Parameters
    ----------
    plan
        Its hanging, for cord and weights.
    repair
        Its repair.
    glazing
        The glazing of each of its windows, in the same order.
    """
    panes = [pane for one in glazing for pane in one.panes]
    painted = tuple(painted_in(repair.windows))
    return TakeOff(
        timber=tuple(piece for one in repair.windows for piece in timber_for(one)),
        glass=tuple(one.line for one in glass_orders(glazing)),
        putty=Putty(sum(one.putty_mm for one in panes), sum(one.putty_kg for one in panes)),
        paint=paint_for(sum(one.area_m2 for _, one in painted)),
        paint_by_window=painted,
        cord=tuple(one for one in cords_of(plan) if one.line == "cord"),
        weights=tuple(_weights(plan)),
    )


def _weights(plan: HousePlan) -> Iterator[WeightLine]:
    for sash in plan.sashes():
        if sash.proposal is None:
            continue
        for side, weight in (("left", sash.proposal.left), ("right", sash.proposal.right)):
            if weight.origin == "new" and weight.metal is not None:
                cut = (weight.metal, weight.across_mm, weight.length_mm, weight.mass_kg)
            elif weight.added_metal is not None:
                cut = (weight.added_metal, weight.across_mm, weight.added_mm, weight.add_kg)
            else:
                continue
            if not math.isnan(sum(cut[1:])):
                yield WeightLine(sash.window.tag, sash.place, side, *cut)
