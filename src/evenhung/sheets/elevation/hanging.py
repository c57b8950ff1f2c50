"""What a sash hangs by, in elevation: its cords, its pulleys, its weights hidden in their boxes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.frame import SIDES
from evenhung.plan.positions import positions_of
from evenhung.sheets.elevation.frame import WAY
from evenhung.sheets.pulley import cord_group, pulley_group
from evenhung.sheets.scene import Group, Rect, Shift
from evenhung.sheets.sizes import WEIGHT_MM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan
    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.positions import SashPositions, SidePositions
    from evenhung.sheets.elevation.frame import Frame
    from evenhung.sheets.sizes import SashSizes


def moving(positions: SashPositions | None) -> dict[str, str] | None:
    """Give what a page is told of a group that moves with a sash; None for a fixed one."""
    return {"moves": positions.place} if positions else None


def cords(plan: SashPlan, frame: Frame, sash: SashSizes) -> Iterator[Group]:
    """Give both cords of a sash, each from its pulley down to its end in the groove."""
    positions = positions_of(plan)
    if positions is None or plan.found is None:
        return
    inputs = plan.found.inputs
    hanging = positions.hung or positions.found
    for side in SIDES:
        at: SidePositions = getattr(hanging, side)
        yield cord_group(
            frame.face(side) - WAY[side] * _cord_x(inputs, frame, sash),
            at,
            at.sash_cord,
            travel_mm=positions.travel_mm,
            cord_mm=inputs.cord_mm,
            facts=moving(positions),
        )


def pulleys(plan: SashPlan, frame: Frame, sash: SashSizes) -> Iterator[Group]:
    """Give both pulleys of a sash; the wheels stand a little out of the stiles."""
    positions = positions_of(plan)
    if positions is None or plan.found is None:
        return
    inputs = plan.found.inputs
    for side in SIDES:
        at: SidePositions = getattr(positions.found, side)
        x = frame.face(side) + WAY[side] * (at.radius_mm - _cord_x(inputs, frame, sash))
        yield pulley_group(x, at, side=side, cord_mm=inputs.cord_mm)


def weights(plan: SashPlan, frame: Frame, sash: SashSizes) -> Iterator[Group]:
    """Give both weights as hidden in their boxes, where the plan has them with the sash shut."""
    positions = positions_of(plan)
    if positions is None or plan.found is None:
        return
    hanging = positions.hung or positions.found
    for side in SIDES:
        at: SidePositions = getattr(hanging, side)
        if at.weight_foot is None or at.weight_length_mm is None or at.hangs == "missing":
            continue
        across = at.weight_across_mm or WEIGHT_MM
        reach = 2.0 * at.radius_mm - _cord_x(plan.found.inputs, frame, sash)
        x = frame.face(side) + WAY[side] * reach - across / 2.0
        yield Group(
            "hidden",
            (Rect(x, at.weight_foot.shut_mm, across, at.weight_length_mm, 5.0),),
            f"{plan.place}.{side}",
            f"{plan.place} sash, {side} weight",
            is_assumed=at.weight_across_mm is None,
            motion=Shift(at.weight_foot.per_mm),
            facts=moving(positions),
        )


def _cord_x(inputs: SashInputs, frame: Frame, sash: SashSizes) -> float:
    """How far within the face of the stile a cord lies in its groove, flush with the edge."""
    return (frame.width - sash.width) / 2.0 + inputs.cord_mm / 2.0
