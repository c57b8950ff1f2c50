"""From settled numbers to a hang: cord, clearances, forces, pocket. The physics, put together once.

Records are typed in floats; while an estate is planned, columns stand in their fields.
"""

# mypy: disable-error-code="arg-type,return-value"
# The physics takes and gives floats or arrays alike; `columns.for_each` sees to it that whoever
# reads a record reads floats.

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import hang, operation, pocket, travel
from evenhung.physics.elementwise import choose, larger, smaller

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.plan.inputs import SashInputs, SideInputs

SLACK_MM = 1e-6
"""Lengths closer than this are equal: they differ by arithmetic alone."""


class SideHang(NamedTuple):
    """What comes of one side."""

    top_lowest_mm: float
    """Height of the top of the weight with the sash at its lowest."""
    top_highest_mm: float
    """Height of the top of the weight with the sash at its highest."""
    pocket_needed_mm: float
    """Least height of pocket that lets the weight in."""
    pocket_head_needed_mm: float
    """Least height of the pocket's top above the sill, or the weight's tail strikes it."""
    nail_needed_mm: float
    """Least distance of the top nail below the top of the sash."""
    longest_weight_mm: float
    """Longest weight that any cord could serve."""


class End(NamedTuple):
    """The hang at one end of the travel, the cord's own mass reckoned where it then hangs."""

    excess_kg: float
    raise_n: float
    lower_n: float


class Hang(NamedTuple):
    """What comes of a sash on two weights; `nan` is not known."""

    pair_kg: float
    excess_kg: float
    pair_least_kg: float
    pair_best_kg: float
    pair_most_kg: float
    least_mm: float
    """Shortest working length of cord."""
    most_mm: float
    """Longest working length of cord."""
    working_mm: float
    """Chosen working length."""
    mark_slack_mm: float
    """From the cord's end to the top of the weight, measured slack."""
    cut_mm: float
    """Length to cut."""
    top_clear_mm: float
    bottom_clear_mm: float
    raise_n: float
    lower_n: float
    rise_turns_n: float
    """Slide friction above which it does not rise by itself."""
    drop_turns_n: float
    """Slide friction above which it does not come down by itself."""
    stays_above_n: float
    """Slide friction above which it stays wherever it is put."""
    cord_end_over_mm: float
    """How far the cord's end rises above the lower of its axles; negative is below."""
    lowest: End
    highest: End
    left: SideHang
    right: SideHang


class _Cord(NamedTuple):
    least_mm: float
    most_mm: float
    working_mm: float
    over_mm: float


def solve(sash: SashInputs) -> Hang:
    """Give the hang of a sash on its weights, for floats or for columns of floats."""
    pair = hang.pair_for(
        mass_kg=sash.mass_kg,
        excess=hang.Band(sash.excess_least_kg, sash.excess_best_kg, sash.excess_most_kg),
    )
    cord = _cord(sash)
    left, right = (_side(sash, side, cord.working_mm) for side in (sash.left, sash.right))
    pair_kg = sash.left.weight_kg + sash.right.weight_kg
    helping, holding = _pulls(sash, sash.left.weight_kg, sash.right.weight_kg)
    rise = operation.rise_turns_at_n(mass_kg=sash.mass_kg, pair_kg=helping, efficiency=1.0)
    drop = operation.drop_turns_at_n(mass_kg=sash.mass_kg, pair_kg=holding, efficiency=1.0)
    forces = _forces(sash, sash.mass_kg, sash.left.weight_kg, sash.right.weight_kg)
    slack = travel.slack_length_mm(
        working_mm=cord.working_mm, nailed_mm=sash.nailed_mm, stretch_pct=sash.stretch_pct
    )
    return Hang(
        pair_kg=pair_kg,
        excess_kg=sash.mass_kg - pair_kg,
        pair_least_kg=pair.least,
        pair_best_kg=pair.best,
        pair_most_kg=pair.most,
        least_mm=cord.least_mm,
        most_mm=cord.most_mm,
        working_mm=cord.working_mm,
        mark_slack_mm=slack,
        cut_mm=slack + sash.tail_mm,
        top_clear_mm=smaller(
            _top_clear(sash, sash.left, left), _top_clear(sash, sash.right, right)
        ),
        bottom_clear_mm=smaller(_bottom_clear(sash.left, left), _bottom_clear(sash.right, right)),
        raise_n=forces.raise_n,
        lower_n=forces.lower_n,
        rise_turns_n=rise,
        drop_turns_n=drop,
        stays_above_n=larger(rise, drop),
        cord_end_over_mm=cord.over_mm,
        lowest=_end(sash, sash.cord_end_lowest_mm, left.top_lowest_mm, right.top_lowest_mm),
        highest=_end(sash, _cord_end_highest(sash), left.top_highest_mm, right.top_highest_mm),
        left=left,
        right=right,
    )


def _cord_end_highest(sash: SashInputs) -> float:
    return sash.cord_end_lowest_mm + sash.travel_mm


def _cord(sash: SashInputs) -> _Cord:
    """Both cords of a sash are cut alike: the band is what serves both sides."""
    highest = _cord_end_highest(sash)
    over = highest - smaller(sash.left.axle_mm, sash.right.axle_mm)
    beyond = over > SLACK_MM
    least = larger(_least(sash, sash.left), _least(sash, sash.right))
    most = smaller(_most(sash, sash.left, highest), _most(sash, sash.right, highest))
    working = choose(sash.is_upper, most, least)
    no_cord = beyond | (least > most + SLACK_MM)
    return _Cord(
        least_mm=choose(beyond, math.nan, least),
        most_mm=choose(beyond, math.nan, most),
        working_mm=choose(no_cord, math.nan, working),
        over_mm=over,
    )


def _least(sash: SashInputs, side: SideInputs) -> float:
    return travel.least_working_mm(
        axle_mm=side.axle_mm,
        radius_mm=side.radius_mm,
        cord_end_lowest_mm=sash.cord_end_lowest_mm,
        case_below_axle_mm=side.case_below_axle_mm,
        pulley_clearance_mm=sash.pulley_clearance_mm,
        knot_mm=sash.knot_mm,
    )


def _most(sash: SashInputs, side: SideInputs, cord_end_highest_mm: float) -> float:
    return travel.most_working_mm(
        axle_mm=side.axle_mm,
        radius_mm=side.radius_mm,
        cord_end_highest_mm=cord_end_highest_mm,
        box_bottom_mm=side.box_bottom_mm,
        bottom_clearance_mm=sash.bottom_clearance_mm,
        weight_length_mm=side.length_mm,
    )


def longest_together_mm(sash: SashInputs) -> tuple[float, float]:
    """Give the longest weight at the left and at the right that cords of one length serve [mm]."""
    least, highest = (
        larger(_least(sash, sash.left), _least(sash, sash.right)),
        _cord_end_highest(sash),
    )
    bare = (side._replace(length_mm=0.0) for side in (sash.left, sash.right))
    left, right = (_most(sash, side, highest) - least for side in bare)
    return left, right


def pocket_needed_mm(side: SideInputs) -> float:
    """Give the least height of pocket that lets the longest piece of a weight in [mm]."""
    return _pocket(side, pocket.needed_opening_mm)


def _side(sash: SashInputs, side: SideInputs, working_mm: float) -> SideHang:
    lowest, highest = (
        travel.weight_top_mm(
            axle_mm=side.axle_mm,
            radius_mm=side.radius_mm,
            cord_end_mm=cord_end,
            working_mm=working_mm,
        )
        for cord_end in (sash.cord_end_lowest_mm, _cord_end_highest(sash))
    )
    return SideHang(
        top_lowest_mm=lowest,
        top_highest_mm=highest,
        pocket_needed_mm=pocket_needed_mm(side),
        pocket_head_needed_mm=_pocket(side, pocket.needed_head_mm),
        nail_needed_mm=travel.least_top_nail_mm(
            pulley_drop_mm=sash.head_mm - side.axle_mm,
            gap_mm=sash.top_gap_mm,
            margin_mm=sash.nail_margin_mm,
        ),
        longest_weight_mm=travel.longest_weight_mm(
            weight_space_mm=side.axle_mm - side.box_bottom_mm,
            travel_mm=sash.travel_mm,
            case_below_axle_mm=side.case_below_axle_mm,
            pulley_clearance_mm=sash.pulley_clearance_mm,
            knot_mm=sash.knot_mm,
            bottom_clearance_mm=sash.bottom_clearance_mm,
        ),
    )


def _pocket(side: SideInputs, needed_mm: Callable[..., float]) -> float:
    """Search over angles, the dearest part of a hang: in floats, weights alike share it."""
    weight = (side.piece_mm, side.across_mm, side.wall_mm, side.depth_mm)
    search = _once if all(isinstance(size, float) for size in weight) else _search
    return search(needed_mm, *weight)


def _search(
    needed_mm: Callable[..., float],
    length_mm: float,
    across_mm: float,
    wall_mm: float,
    depth_mm: float,
) -> float:
    return needed_mm(length_mm=length_mm, across_mm=across_mm, wall_mm=wall_mm, depth_mm=depth_mm)


@lru_cache(maxsize=4096)
def _once(needed_mm: Callable[..., float], *weight_mm: float) -> float:
    return math.nan if any(map(math.isnan, weight_mm)) else _search(needed_mm, *weight_mm)


def _top_clear(sash: SashInputs, side: SideInputs, found: SideHang) -> float:
    return travel.pulley_clear_mm(
        axle_mm=side.axle_mm,
        case_below_axle_mm=side.case_below_axle_mm,
        weight_top_mm=found.top_lowest_mm,
        knot_mm=sash.knot_mm,
    )


def _bottom_clear(side: SideInputs, found: SideHang) -> float:
    return travel.bottom_clear_mm(
        weight_top_mm=found.top_highest_mm,
        weight_length_mm=side.length_mm,
        box_bottom_mm=side.box_bottom_mm,
    )


def _end(sash: SashInputs, cord_end_mm: float, left_top_mm: float, right_top_mm: float) -> End:
    """Reckon the cord on the sash's side with the sash, on the weight's with the weight."""
    mass, hung = sash.mass_kg, []
    for side, top in ((sash.left, left_top_mm), (sash.right, right_top_mm)):
        mass = mass + sash.cord_kg_m * (side.axle_mm - cord_end_mm + sash.nailed_mm) / 1000.0
        hung.append(side.weight_kg + sash.cord_kg_m * (side.axle_mm - top + sash.tail_mm) / 1000.0)
    return _forces(sash, mass, hung[0], hung[1])


def _pulls(sash: SashInputs, left_kg: float, right_kg: float) -> tuple[float, float]:
    """Give what two weights pull over their pulleys, the sash rising and coming down [kg].

    A pulley's losses are taken off its weight, or put on it, so that the two
    together act as one pair over pulleys without loss.
    """
    helping = left_kg * sash.left.efficiency + right_kg * sash.right.efficiency
    holding = left_kg / sash.left.efficiency + right_kg / sash.right.efficiency
    return helping, holding


def _forces(sash: SashInputs, mass_kg: float, left_kg: float, right_kg: float) -> End:
    helping, holding = _pulls(sash, left_kg, right_kg)
    slide = sash.slide_likely_n
    return End(
        excess_kg=mass_kg - left_kg - right_kg,
        raise_n=operation.raise_n(mass_kg=mass_kg, pair_kg=helping, efficiency=1.0, slide_n=slide),
        lower_n=operation.lower_n(mass_kg=mass_kg, pair_kg=holding, efficiency=1.0, slide_n=slide),
    )
