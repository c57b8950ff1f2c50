"""The box and the pulley on one side of a sash: whichever record nearest to it states a size."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from evenhung.physics import operation, travel
from evenhung.plan.assumed import assumed, stands_for
from evenhung.plan.inputs import SideInputs
from evenhung.survey.box import Pulley

if TYPE_CHECKING:
    from evenhung.plan.ledger import Ledger
    from evenhung.survey.sash import Sash
    from evenhung.survey.weight import Weight
    from evenhung.survey.window import Window

Side: TypeAlias = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


def settle_side(
    window: Window, sash: Sash, side: Side, *, cord_mm: float, ledger: Ledger
) -> SideInputs:
    """Settle one side of a running sash: its pulley, its box, its weight as found."""
    axle_mm = window.box.clear_height.mm - box_mm(window, sash, side, "pulley_drop")
    wheel_mm = float(_of_pulley(window, sash, side, "wheel").mm)
    weight = getattr(sash, side)
    length_mm, across_mm = _size_mm(sash, side)
    freed = _freed_efficiency(window, sash, side, wheel_mm, cord_mm, ledger)
    return SideInputs(
        axle_mm=axle_mm,
        box_bottom_mm=axle_mm - box_mm(window, sash, side, "weight_space"),
        radius_mm=float(travel.cord_radius_mm(wheel_mm=wheel_mm, cord_mm=cord_mm)),
        case_below_axle_mm=_case_mm(window, sash, side, wheel_mm, ledger),
        efficiency=_sliding_efficiency() if is_seized(window, sash, side) else freed,
        freed_efficiency=freed,
        weight_kg=_pulling_kg(weight),
        length_mm=length_mm,
        piece_mm=length_mm,
        across_mm=across_mm,
        wall_mm=box_mm(window, sash, side, "stile_thickness"),
        depth_mm=box_mm(window, sash, side, "compartment_depth"),
        pocket_height_mm=box_mm(window, sash, side, "pocket_height"),
        pocket_above_sill_mm=box_mm(window, sash, side, "pocket_above_sill"),
        pocket_width_mm=box_mm(window, sash, side, "pocket_width"),
    )


def box_mm(window: Window, sash: Sash, side: Side, field: str) -> float:
    """Give a size of the box on one side of a sash; nan where no record states it [mm]."""
    stated = _nearest(sash.box, window.box, side, field)
    return math.nan if stated is None else float(stated.mm)


def is_seized(window: Window, sash: Sash, side: Side) -> bool:
    """Tell whether the wheel on one side of a sash does not turn."""
    return bool(_of_pulley(window, sash, side, "turns") == "seized")


def _of_pulley(window: Window, sash: Sash, side: Side, field: str) -> Any:  # noqa: ANN401 - any field
    return _nearest(sash.pulley, window.pulley, side, field)


def _nearest(of_sash: Any, of_window: Any, side: Side, field: str) -> Any:  # noqa: ANN401 - any field
    """The side of the sash comes first, then the sash, the side of the window, the window."""
    for record in (getattr(of_sash, side), of_sash, getattr(of_window, side), of_window):
        value = getattr(record, field)
        if value is not None:
            return value
    return None


def _size_mm(sash: Sash, side: Side) -> tuple[float, float]:
    """Length and thickness of a weight; a missing one is taken to be as its fellow."""
    weight = getattr(sash, side)
    if weight is not None and weight.is_missing:
        weight = sash.right if side == "left" else sash.left
    if weight is None or weight.is_missing:
        return math.nan, math.nan
    sizes = (weight.length, weight.diameter)
    length_mm, across_mm = (math.nan if size is None else size.mm for size in sizes)
    return length_mm, across_mm


def _pulling_kg(weight: Weight | None) -> float:
    """Mass that pulls on the cord: 0 where none does, nan where it is not known."""
    if weight is None:
        return math.nan
    if not weight.is_attached:
        return 0.0
    return weight.weighed.kg if weight.weighed else math.nan


def _sliding_efficiency() -> float:
    """Efficiency of a wheel that does not turn: the cord slides over it."""
    sliding = assumed("friction/cord on wheel/coefficient").value
    return float(operation.seized_efficiency(cord_friction=sliding))


def _freed_efficiency(
    window: Window, sash: Sash, side: Side, wheel_mm: float, cord_mm: float, ledger: Ledger
) -> float:
    friction = _of_pulley(window, sash, side, "friction")
    axle = _of_pulley(window, sash, side, "axle")
    bend = _of_pulley(window, sash, side, "cord_bend_pct")
    if friction is None:
        friction = ledger.number_for(stands_for(Pulley, "friction"), "axle friction").value
    if bend is None:
        bend = ledger.number_for(stands_for(Pulley, "cord_bend_pct"), "cord bend").value
    efficiency = operation.pulley_efficiency(
        axle_friction=friction,
        axle_mm=ledger.length_for(stands_for(Pulley, "axle"), "axle").value
        if axle is None
        else axle.mm,
        wheel_mm=wheel_mm,
        cord_mm=cord_mm,
        cord_bend_pct=bend,
    )
    return float(efficiency)


def _case_mm(window: Window, sash: Sash, side: Side, wheel_mm: float, ledger: Ledger) -> float:
    stated = _of_pulley(window, sash, side, "case_below_axle")
    if stated is not None:
        return float(stated.mm)
    below = assumed("joinery/pulley case/below_wheel")
    case_mm = wheel_mm / 2.0 + below.value
    ledger.assume("pulley case below axle", ledger.words.length(case_mm), below.source)
    return case_mm
