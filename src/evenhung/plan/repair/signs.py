"""What a survey and its plan say already about why a sash misbehaves: signs for and against."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import timber
from evenhung.plan.assumed import assumed
from evenhung.plan.facts import drifts_at
from evenhung.plan.frame import SIDES, is_seized

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.plan.house import SashPlan
    from evenhung.plan.words import Words


class Sign(NamedTuple):
    """Whether something holds of a sash; None where the survey does not say."""

    holds: bool | None
    says: str = ""
    """What it rests on, in plain words."""


UNKNOWN = Sign(None)


def sign_of(name: str, plan: SashPlan) -> Sign:
    """Give one of the signs of a sash, by its name in the table of causes."""
    return _SIGNS[name](plan)


def _seen(plan: SashPlan, what: tuple[str, ...], kinds: tuple[str, ...]) -> list[str]:
    """Name the parts of a sash and of the frame, of some kinds, that something was seen of."""
    return [
        f"{one.part} {one.seen}"
        for one in plan.window.finding
        if one.seen in what and one.member.kind in kinds and one.member.place in ("", plan.place)
    ]


def _found(plan: SashPlan, what: tuple[str, ...], kinds: tuple[str, ...]) -> Sign:
    """Take a finding as a sign; that nothing was entered is no sign against it."""
    seen = _seen(plan, what, kinds)
    return Sign(True, ", ".join(seen)) if seen else UNKNOWN


def _cord_gone(plan: SashPlan) -> Sign:
    seen = _seen(plan, ("broken", "missing"), ("cord",))
    if seen:
        return Sign(True, ", ".join(seen))
    weights = plan.sash.weights()
    gone = [side for side, weight in weights if weight is not None and not weight.is_attached]
    if gone:
        return Sign(True, f"nothing pulls on the {' or the '.join(gone)}")
    return Sign(False, "both cords hold") if all(weight for _, weight in weights) else UNKNOWN


def _pair_light(plan: SashPlan) -> Sign:
    return _pair(plan, lambda excess, _, most: excess > most)


def _pair_off(plan: SashPlan) -> Sign:
    return _pair(plan, lambda excess, least, most: not least <= excess <= most)


def _pair(plan: SashPlan, is_off: Callable[[float, float, float], bool]) -> Sign:
    """Hold the excess, as found or else by the readings, against what it should be."""
    if plan.found is None:
        return UNKNOWN
    inputs, hang, _ = plan.found
    excess = hang.excess_kg
    if math.isnan(excess) and plan.diagnosis is not None:
        excess = plan.diagnosis.excess_kg
    if math.isnan(excess):
        return UNKNOWN
    holds = is_off(excess, inputs.excess_least_kg, inputs.excess_most_kg)
    heavy = "heavier" if excess >= 0.0 else "lighter"
    return Sign(holds, f"the sash is {_mass(plan, abs(excess))} {heavy} than its pair")


def _mass(plan: SashPlan, kg: float) -> str:
    return plan.ledger.words.mass(kg)


def _swells(plan: SashPlan) -> Sign:
    """Hold what the stiles swell, dry season to wet, against the clearance beside the sash."""
    sash, words = plan.sash, plan.ledger.words
    face = sash.stile.mm if sash.stile else assumed("joinery/assumed sash/stile").value
    shrinkage = assumed(f"timber/{sash.timber or 'softwood'}/shrinkage_tangential_pct").value
    dry = assumed("repair/wet season/moisture_from_pct").value
    grown = timber.change_of_width_mm(
        width_mm=2.0 * face,
        coefficient=shrinkage / 100.0 / timber.FIBRE_SATURATION_PCT,
        moisture_from_pct=dry,
        moisture_to_pct=dry + assumed("repair/wet season/moisture_rise_pct").value,
    )
    clear = plan.window.box.clear_width.mm - sash.width.mm
    says = f"it may swell by {words.length(float(grown))}, and has {words.length(clear)} to spare"
    return Sign(bool(grown >= clear), says)


def _is_loose(plan: SashPlan) -> Sign:
    clear = (plan.window.box.clear_width.mm - plan.sash.width.mm) / 2.0
    most = assumed("repair/fit/loose_each_side").value
    return Sign(clear > most, f"{_length(plan.ledger.words, clear)} to spare on each side")


def _length(words: Words, mm: float) -> str:
    return words.length(mm)


def _wheel_seized(plan: SashPlan) -> Sign:
    seen = _seen(plan, ("seized",), ("pulley",))
    stuck = [side for side in SIDES if is_seized(plan.window, plan.sash, side)]
    if seen or stuck:
        return Sign(True, ", ".join(seen) or f"seized on the {' and the '.join(stuck)}")
    return UNKNOWN


def _weights_differ(plan: SashPlan) -> Sign:
    if plan.found is None:
        return UNKNOWN
    inputs = plan.found.inputs
    apart = abs(inputs.left.weight_kg - inputs.right.weight_kg)
    if math.isnan(apart):
        return UNKNOWN
    return Sign(apart > inputs.difference_kg, f"its weights differ by {_mass(plan, apart)}")


def _weight_caught(plan: SashPlan) -> Sign:
    if plan.found is None:
        return UNKNOWN
    facts = plan.found.facts
    return Sign(True, "its weights are too long for the box") if facts.band_is_empty else UNKNOWN


def _runs_easy(plan: SashPlan) -> Sign:
    if plan.found is None or plan.found.facts.stays_put is None:
        return UNKNOWN
    stays = plan.found.facts.stays_put
    return Sign(not stays, "" if stays else "it wants more friction than its runs have")


def _cord_heavy(plan: SashPlan) -> Sign:
    if plan.found is None:
        return UNKNOWN
    inputs, hang, _ = plan.found
    moves = drifts_at(hang.lowest, inputs) != drifts_at(hang.highest, inputs)
    return Sign(True, "it moves by itself near one end of its travel only") if moves else UNKNOWN


def _stiff(plan: SashPlan) -> Sign:
    if plan.diagnosis is None or plan.found is None:
        return UNKNOWN
    friction, most = plan.diagnosis.friction_n, plan.found.inputs.slide_most_n
    says = f"the balance puts friction at {plan.ledger.words.force(friction)}"
    return Sign(friction > most, says)


def _no_slip(plan: SashPlan) -> Sign:
    if plan.window.box.parting_slip is None:
        return UNKNOWN
    holds = plan.window.box.parting_slip == "missing"
    return Sign(holds, "no parting slip in the box" if holds else "a parting slip is there")


def _painted(plan: SashPlan) -> Sign:
    kinds = ("stile", "rail", "sash", "bead", "cord", "paint", "pocket")
    seen = _seen(plan, ("painted over", "built up"), kinds)
    seen += [
        f"{side} cord painted in"
        for side, weight in plan.sash.weights()
        if weight is not None and weight.state == "painted in"
    ]
    return Sign(True, ", ".join(seen)) if seen else UNKNOWN


_SIGNS: dict[str, Callable[[SashPlan], Sign]] = {
    "cord gone": _cord_gone,
    "pair light": _pair_light,
    "pair off": _pair_off,
    "painted": _painted,
    "swells": _swells,
    "loose fit": _is_loose,
    "wheel seized": _wheel_seized,
    "weights differ": _weights_differ,
    "weight caught": _weight_caught,
    "runs easy": _runs_easy,
    "cord heavy": _cord_heavy,
    "stiff": _stiff,
    "no slip": _no_slip,
    "beads worn": lambda plan: _found(plan, ("worn", "loose", "missing", "broken"), ("bead",)),
    "joints open": lambda plan: _found(plan, ("open joint", "loose"), ("stile", "rail", "sash")),
    "fastener": lambda plan: _found(plan, ("worn", "loose", "broken", "missing"), ("fittings",)),
    "putty gone": lambda plan: _found(
        plan, ("cracked", "loose", "perished", "missing"), ("putty",)
    ),
    "panes loose": lambda plan: _found(plan, ("loose", "cracked"), ("glass",)),
    "wet timber": lambda plan: _found(plan, ("rot",), ("rail", "stile", "sill")),
    "": lambda _: UNKNOWN,
}
"""By name; the empty one is of a cause that no survey knows anything of."""
