"""Where sash, cord and weights are, anywhere in the travel: what a drawing draws and a page moves.

Everything runs evenly: where it is with the sash shut, and how far it shifts for each millimetre
that the sash is opened. An upper sash opens down, a lower one up. Heights are above the sill.
What is not known is None, and `SidePositions.unknown` says why.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeAlias

from evenhung.physics import travel
from evenhung.plan.facts import known

if TYPE_CHECKING:
    from evenhung.plan.frame import Side
    from evenhung.plan.house import SashPlan
    from evenhung.plan.inputs import SashInputs, SideInputs
    from evenhung.plan.policy import Place
    from evenhung.plan.solve import Hang

Hangs: TypeAlias = Literal["free", "loose", "missing", "not recorded"]
"""How a weight is there: on its cord, off a broken one, not at all, or nobody said."""

Cord: TypeAlias = Literal["as planned", "longest", "shortest"]
"""Which cord the positions are for: where none serves, the one that serves one end of the box."""


class Run(NamedTuple):
    """A height or a length that changes evenly as the sash is opened."""

    shut_mm: float
    """What it is with the sash shut."""
    per_mm: float
    """How far it shifts, up or longer, for each mm of travel."""

    def at_mm(self, travel_mm: float) -> float:
        """Give what it is with the sash opened so far [mm].

        Examples
        --------
        >>> Run(shut_mm=40.0, per_mm=1.0).at_mm(100.0)
        140.0
        """
        return self.shut_mm + self.per_mm * travel_mm

    def falls_to_mm(self, least_mm: float) -> float | None:
        """Give how far the sash can be opened before it falls below a value; None if never [mm].

        Examples
        --------
        >>> Run(shut_mm=40.0, per_mm=-1.0).falls_to_mm(25.0)
        15.0
        """
        if self.per_mm >= 0.0:
            return None
        return (least_mm - self.shut_mm) / self.per_mm


class Unknown(NamedTuple):
    """What is not known, and why."""

    what: str
    reason: str


class SidePositions(NamedTuple):
    """The weight of one side, its knot and its cord; what does not move is a plain number."""

    hangs: Hangs
    axle_mm: float
    radius_mm: float
    """Of the cord's centre line about the axle."""
    case_mm: float
    """Lowest point of the pulley case."""
    box_bottom_mm: float
    weight_length_mm: float | None
    """Overall, make-weights included."""
    weight_across_mm: float | None
    sash_cord: Run
    """Length of the cord from its end in the sash up to the height of the axle."""
    weight_cord: Run | None
    """Length of the cord from the height of the axle down to the top of the weight."""
    knot_top: Run | None
    weight_top: Run | None
    weight_foot: Run | None
    top_clear: Run | None
    """Room between knot and pulley case; negative where the knot would be in the case."""
    bottom_clear: Run | None
    """Room between weight and box bottom; negative where the weight would be through it."""
    unknown: tuple[Unknown, ...]

    def clear_to_mm(self, travel_mm: float) -> float | None:
        """Give how far the sash opens before knot or weight strikes; None if it never does [mm].

        Parameters
        ----------
        travel_mm
            The whole travel [mm].
        """
        runs = [run for run in (self.top_clear, self.bottom_clear) if run is not None]
        ends = [end for run in runs if (end := run.falls_to_mm(0.0)) is not None]
        nearest = min(ends, default=math.inf)
        return max(0.0, nearest) if nearest < travel_mm else None


class Hanging(NamedTuple):
    """Both sides of a sash on one pair of weights and on cords cut alike."""

    cord: Cord | None
    """None where no cord can be given."""
    cord_mm: float | None
    """Its working length, from its end in the sash over the wheel to the top of the weight."""
    knot_mm: float
    wanted_top_mm: float
    """What the house wants clear below the pulley case."""
    wanted_bottom_mm: float
    """What the house wants clear above the box bottom."""
    left: SidePositions
    right: SidePositions


class SashPositions(NamedTuple):
    """A running sash through its travel."""

    place: Place
    travel_mm: float
    sash_top: Run
    sash_foot: Run
    cord_end: Run
    found: Hanging
    """On its weights as found."""
    hung: Hanging | None
    """As it will hang; None where nothing can be proposed."""


def positions_of(plan: SashPlan) -> SashPositions | None:
    """Give where everything that moves with a sash is; None for a fixed sash."""
    if plan.found is None:
        return None
    inputs, hang = plan.found.inputs, plan.found.hang
    top = _cord_end(inputs, plan.sash.cord_end.mm if plan.sash.cord_end else math.nan)
    proposal = plan.proposal
    return SashPositions(
        place=plan.place,
        travel_mm=inputs.travel_mm,
        sash_top=top,
        sash_foot=Run(top.shut_mm - plan.sash.height.mm, top.per_mm),
        cord_end=_cord_end(inputs, 0.0),
        found=_hanging(inputs, hang, _found_state(plan, "left"), _found_state(plan, "right")),
        hung=_hanging(proposal.inputs, proposal.hang, "free", "free") if proposal else None,
    )


def data_of(positions: SashPositions) -> dict[str, Any]:
    """Give positions as plain data, ready for JSON."""
    data: dict[str, Any] = _plain(positions)
    return data


def _plain(value: Any) -> Any:  # noqa: ANN401 - records within records
    if hasattr(value, "_asdict"):
        return {name: _plain(one) for name, one in value._asdict().items()}
    return [_plain(one) for one in value] if isinstance(value, tuple) else value


def _found_state(plan: SashPlan, side: Side) -> Hangs:
    weight = plan.sash.left if side == "left" else plan.sash.right
    if weight is None:
        return "not recorded"
    if weight.is_missing:
        return "missing"
    return "free" if weight.is_attached else "loose"


def _cord_end(inputs: SashInputs, above_mm: float) -> Run:
    """Follow a point of the sash, so far above the end of its cord."""
    lowest = inputs.cord_end_lowest_mm + above_mm
    if inputs.is_upper:
        return Run(lowest + inputs.travel_mm, -1.0)
    return Run(lowest, 1.0)


def _hanging(inputs: SashInputs, hang: Hang, left: Hangs, right: Hangs) -> Hanging:
    cord, cord_mm = _cord(inputs, hang)
    why = "" if cord else _why_no_cord(inputs, hang)
    return Hanging(
        cord=cord,
        cord_mm=known(cord_mm),
        knot_mm=inputs.knot_mm,
        wanted_top_mm=inputs.pulley_clearance_mm,
        wanted_bottom_mm=inputs.bottom_clearance_mm,
        left=_side(inputs, inputs.left, cord_mm, left, why),
        right=_side(inputs, inputs.right, cord_mm, right, why),
    )


def _cord(inputs: SashInputs, hang: Hang) -> tuple[Cord | None, float]:
    """Take the planned cord; where none serves, the one that is right at the sash's shut end."""
    if not math.isnan(hang.working_mm):
        return "as planned", hang.working_mm
    trial: tuple[Cord, float] = (
        ("longest", hang.most_mm) if inputs.is_upper else ("shortest", hang.least_mm)
    )
    return (None, math.nan) if math.isnan(trial[1]) else trial


def _why_no_cord(inputs: SashInputs, hang: Hang) -> str:
    if math.isnan(hang.least_mm):
        return "the cord's end comes above the pulley"
    sides = {"left": inputs.left, "right": inputs.right}
    unmeasured = [name for name, side in sides.items() if math.isnan(side.length_mm)]
    return f"an upper sash's cord is set by its weights: no length of the {' or '.join(unmeasured)}"


def _side(
    inputs: SashInputs, side: SideInputs, cord_mm: float, hangs: Hangs, why: str
) -> SidePositions:
    end = _cord_end(inputs, 0.0)
    top = _weight_top(side, end, cord_mm)
    case_mm = side.axle_mm - side.case_below_axle_mm
    length_mm = known(side.length_mm)
    foot = (
        None if top is None or length_mm is None else top._replace(shut_mm=top.shut_mm - length_mm)
    )
    return SidePositions(
        hangs=hangs,
        axle_mm=side.axle_mm,
        radius_mm=side.radius_mm,
        case_mm=case_mm,
        box_bottom_mm=side.box_bottom_mm,
        weight_length_mm=length_mm,
        weight_across_mm=known(side.across_mm),
        sash_cord=_below(side.axle_mm, end),
        weight_cord=_below(side.axle_mm, top) if top else None,
        knot_top=top._replace(shut_mm=top.shut_mm + inputs.knot_mm) if top else None,
        weight_top=top,
        weight_foot=foot,
        top_clear=_top_clear(inputs, side, top),
        bottom_clear=_bottom_clear(side, top),
        unknown=tuple(_unknown(side, why)),
    )


def _weight_top(side: SideInputs, end: Run, cord_mm: float) -> Run | None:
    if math.isnan(cord_mm):
        return None
    shut_mm = travel.weight_top_mm(
        axle_mm=side.axle_mm,
        radius_mm=side.radius_mm,
        cord_end_mm=end.shut_mm,
        working_mm=cord_mm,
    )
    return Run(float(shut_mm), -end.per_mm)


def _below(height_mm: float, run: Run) -> Run:
    return Run(height_mm - run.shut_mm, -run.per_mm)


def _top_clear(inputs: SashInputs, side: SideInputs, top: Run | None) -> Run | None:
    if top is None:
        return None
    shut_mm = travel.pulley_clear_mm(
        axle_mm=side.axle_mm,
        case_below_axle_mm=side.case_below_axle_mm,
        weight_top_mm=top.shut_mm,
        knot_mm=inputs.knot_mm,
    )
    return Run(float(shut_mm), -top.per_mm)


def _bottom_clear(side: SideInputs, top: Run | None) -> Run | None:
    if top is None or math.isnan(side.length_mm):
        return None
    shut_mm = travel.bottom_clear_mm(
        weight_top_mm=top.shut_mm,
        weight_length_mm=side.length_mm,
        box_bottom_mm=side.box_bottom_mm,
    )
    return Run(float(shut_mm), top.per_mm)


def _unknown(side: SideInputs, why: str) -> list[Unknown]:
    """Give the reason for each None of one side."""
    unknown = [
        Unknown(what, why) for what in ("weight_cord", "knot_top", "weight_top", "top_clear") if why
    ]
    no_length = "the length of the weight is not known" if math.isnan(side.length_mm) else ""
    if why or no_length:
        unknown += [Unknown(what, no_length or why) for what in ("weight_foot", "bottom_clear")]
    if no_length:
        unknown.append(Unknown("weight_length_mm", no_length))
    if math.isnan(side.across_mm):
        unknown.append(Unknown("weight_across_mm", "the thickness of the weight is not known"))
    return unknown
