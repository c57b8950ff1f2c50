"""The take-off of a house: what to buy and to have by, from its plan, repair and glazing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import coating
from evenhung.plan.assumed import assumed
from evenhung.plan.repair.work import work_on
from evenhung.plan.takeoff.cords import cords_of
from evenhung.plan.takeoff.glass import glass_orders
from evenhung.plan.takeoff.timber import timber_for

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.glazing.window import WindowGlazing
    from evenhung.plan.house import HousePlan
    from evenhung.plan.repair.house import HouseRepair
    from evenhung.plan.takeoff.cords import CordLine
    from evenhung.plan.takeoff.glass import GlassLine
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


class Paint(NamedTuple):
    """Paint for all that is painted."""

    area_m2: float
    coats: float
    least_l: float
    """By the best coverage in print, all coats."""
    most_l: float
    """By the worst."""


class TakeOff(NamedTuple):
    """All that is bought for a house."""

    timber: tuple[TimberPiece, ...]
    glass: tuple[GlassLine, ...]
    putty: Putty
    paint: Paint
    cord: tuple[CordLine, ...]
    weights: tuple[WeightLine, ...]


COVERAGES = ("primer", "oil paint, new wood")
"""Rows of the reference that one coat is reckoned by: the range between them is shown."""


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
    return TakeOff(
        timber=tuple(piece for one in repair.windows for piece in timber_for(one)),
        glass=tuple(one.line for one in glass_orders(glazing)),
        putty=Putty(sum(one.putty_mm for one in panes), sum(one.putty_kg for one in panes)),
        paint=_paint(repair),
        cord=tuple(one for one in cords_of(plan) if one.line == "cord"),
        weights=tuple(_weights(plan)),
    )


def _paint(repair: HouseRepair) -> Paint:
    work = [one for window in repair.windows for one in work_on(window)]
    area = sum(one.quantity for one in work if one.operation == "prime and paint")
    coats = assumed("repair/paint/coats").value
    coverages = sorted(assumed(f"paint/{row}/coverage").value for row in COVERAGES)
    most, least = (
        float(coating.paint_l(area_m2=area, coats=coats, coverage_m2_l=each)) for each in coverages
    )
    return Paint(area, coats, least, most)


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
