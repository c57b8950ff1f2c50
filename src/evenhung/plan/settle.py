"""From a surveyed house and sash to settled numbers, with a note for all taken for granted."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed, source_of, stands_for
from evenhung.plan.catalogue import note
from evenhung.plan.frame import settle_side
from evenhung.plan.inputs import SashInputs
from evenhung.plan.policy import excess_for, leaves_no_width
from evenhung.survey.house import Cord
from evenhung.survey.sash import FrictionRange, Sash

if TYPE_CHECKING:
    from evenhung.plan.ledger import Ledger
    from evenhung.plan.policy import Place
    from evenhung.survey.house import House, Policy
    from evenhung.survey.window import Window


class HouseInputs(NamedTuple):
    """What holds for every sash of a house, settled."""

    policy: Policy
    cord_mm: float
    cord_kg_m: float
    knot_mm: float
    tail_mm: float
    stretch_pct: float
    difference_kg: float
    stretch_allowance_mm: float
    pulley_clearance_mm: float
    bottom_clearance_mm: float
    nail_margin_mm: float
    scale_step_kg: float


class _Line(NamedTuple):
    """What a sash hangs on."""

    kg_m: float
    stretch_pct: float
    tail_mm: float


def settle_house(house: House, ledger: Ledger) -> HouseInputs:
    """Settle what holds for every sash of a house."""
    policy, cord = house.policy, house.cord
    cord_mm = ledger.length_mm(cord, "diameter", "cord")
    step = house.scale_step
    return HouseInputs(
        policy=policy,
        cord_mm=cord_mm,
        cord_kg_m=_cord_kg_m(cord, cord_mm, ledger),
        knot_mm=ledger.length_mm(cord, "knot"),
        tail_mm=ledger.length_mm(cord, "tail", "tail of cord"),
        stretch_pct=ledger.number(cord, "stretch_pct"),
        difference_kg=ledger.mass_kg(policy, "pair_difference"),
        stretch_allowance_mm=ledger.length_mm(policy, "stretch_allowance"),
        pulley_clearance_mm=ledger.length_mm(policy, "pulley_clearance"),
        bottom_clearance_mm=ledger.length_mm(policy, "bottom_clearance"),
        nail_margin_mm=ledger.length_mm(policy, "nail_margin"),
        scale_step_kg=step.kg if step else assumed(stands_for(type(house), "scale_step")).value,
    )


def settle_sash(
    common: HouseInputs, window: Window, place: Place, sash: Sash, mass_kg: float, ledger: Ledger
) -> SashInputs:
    """Settle one running sash, its mass known or nan; everything assumed is noted."""
    head_mm, is_upper = window.box.clear_height.mm, place == "upper"
    run_mm = _run_mm(sash, head_mm)
    cord_end_mm = sash.cord_end.mm if sash.cord_end else math.nan
    least_n, likely_n, most_n = _slide_n(sash, ledger)
    line = _line(sash, common, ledger)
    excess = excess_for(common.policy, place, mass_kg)
    if leaves_no_width(common.policy, place, excess):
        ledger.notes.append(note("band-closed", source_of("policy/heavy sash/difference_most")))
    return SashInputs(
        is_upper=is_upper,
        mass_kg=mass_kg,
        excess_least_kg=float(excess.least),
        excess_best_kg=float(excess.best),
        excess_most_kg=float(excess.most),
        difference_kg=common.difference_kg,
        travel_mm=run_mm,
        cord_end_lowest_mm=(head_mm - run_mm if is_upper else sash.height.mm) - cord_end_mm,
        top_gap_mm=0.0 if is_upper else head_mm - sash.height.mm - run_mm,
        top_nail_mm=sash.top_nail.mm if sash.top_nail else math.nan,
        nail_margin_mm=common.nail_margin_mm,
        head_mm=head_mm,
        nailed_mm=_nailed_mm(sash),
        knot_mm=common.knot_mm,
        tail_mm=line.tail_mm,
        stretch_pct=line.stretch_pct,
        cord_mm=common.cord_mm,
        cord_kg_m=line.kg_m,
        pulley_clearance_mm=common.pulley_clearance_mm,
        bottom_clearance_mm=common.stretch_allowance_mm if is_upper else common.bottom_clearance_mm,
        slide_least_n=least_n,
        slide_likely_n=likely_n,
        slide_most_n=most_n,
        left=settle_side(window, sash, "left", cord_mm=common.cord_mm, ledger=ledger),
        right=settle_side(window, sash, "right", cord_mm=common.cord_mm, ledger=ledger),
    )


def _run_mm(sash: Sash, head_mm: float) -> float:
    if sash.travel is not None:
        return sash.travel.mm
    return max(0.0, head_mm - sash.height.mm - (sash.horn.mm if sash.horn else 0.0))


def _nailed_mm(sash: Sash) -> float:
    """How much cord lies nailed in the groove."""
    if sash.anchorage == "knotted" or sash.top_nail is None or sash.cord_end is None:
        return 0.0
    return sash.cord_end.mm - sash.top_nail.mm


def _line(sash: Sash, common: HouseInputs, ledger: Ledger) -> _Line:
    """Cord as the house has it; a chain or a tape by the reference, without a knot's tail."""
    weights = [weight for weight in (sash.left, sash.right) if weight and not weight.is_missing]
    lines = {weight.hung or "cord" for weight in weights} or {"cord"}
    if len(lines) > 1:
        ledger.notes.append(note("unlike-lines", lines=" and ".join(sorted(lines))))
    line = min(lines, key=_LINES.index)
    if line == "cord":
        return _Line(common.cord_kg_m, common.stretch_pct, common.tail_mm)
    mass = ledger.number_for(f"cords/{line}/mass_per_length", f"{line}, mass per length")
    return _Line(mass.value / 1000.0, assumed(f"cords/{line}/stretch_pct").value, 0.0)


_LINES = ("cord", "chain", "tape")
"""Where the two sides differ, the first of these is what lengths are given for."""


def _slide_n(sash: Sash, ledger: Ledger) -> tuple[float, float, float]:
    stated = sash.slide_friction
    if isinstance(stated, FrictionRange):
        return stated.least.n, stated.likely.n, stated.most.n
    if stated is not None:
        return stated.n, stated.n, stated.n
    least, likely, most = (
        assumed(f"friction/slide/{name}") for name in ("least", "likely", "most")
    )
    force = ledger.words.force
    spoken = f"{force(likely.value)}, from {force(least.value)} to {force(most.value)}"
    ledger.assume("friction in the runs", spoken, likely.source)
    return least.value, likely.value, most.value


def _cord_kg_m(cord: Cord, cord_mm: float, ledger: Ledger) -> float:
    if cord.mass_per_length is not None:
        return cord.mass_per_length.kg_per_m
    row = assumed(stands_for(Cord, "mass_per_length"))
    kg_m = row.value * math.pi / 4.0 * (cord_mm / 1000.0) ** 2
    ledger.assume("cord, mass per length", f"{kg_m * 1000.0:.0f} g/m", row.source)
    return kg_m
