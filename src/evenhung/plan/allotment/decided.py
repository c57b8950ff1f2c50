"""What has been decided or done already, in terms of the plan's own sashes and weights."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from evenhung.plan.allotment.candidates import Candidate, Home, place_name
from evenhung.plan.frame import SIDES
from evenhung.plan.hung import length_as_hung_mm, mass_as_hung
from evenhung.survey.names import FoundAt, Names

if TYPE_CHECKING:
    from evenhung.plan.frame import Side
    from evenhung.plan.house import HousePlan, SashPlan
    from evenhung.survey.decision import Decision


Spot: TypeAlias = "tuple[str, str, Side]"
"""Tag of the window, place of the sash, side."""


@dataclass(slots=True)
class Decided:
    """What no allotment goes against."""

    held: dict[Spot, str] = field(default_factory=dict)
    """By place, the name of the weight that shall hang there."""
    barred: dict[Spot, set[str]] = field(default_factory=dict)
    """By place, the names of weights that shall not."""
    hung: dict[Spot, Candidate] = field(default_factory=dict)
    """By place, what hangs there now, make-weights and all."""
    used: set[str] = field(default_factory=set)
    """Names of the weights that hang already."""


def spot_of(sash: SashPlan, side: Side) -> Spot:
    """Give a place as decisions know it."""
    return sash.window.tag, sash.place, side


def decided_in(plan: HousePlan, candidates: list[Candidate]) -> Decided:
    """Gather the decisions of a survey; they have been checked against it."""
    survey, decided = plan.survey, Decided()
    names = Names(survey.window, survey.weight)
    sashes = {f"{sash.window.tag} {sash.place}": sash for sash in plan.sashes()}
    weights = {one.name: one for one in candidates if one.bought is None}
    for decision in survey.decision:
        at = names.sashes[decision.sash]
        sash = sashes[f"{survey.window[at.window].tag} {at.place}"]
        name = _weight_name(plan, names, decision)
        sides: tuple[Side, ...] = ("left", "right")
        for side in sides:
            if decision.side in (None, side):
                _put(decided, decision, sash, side, weights.get(name), name)
    return decided


def in_the_boxes(plan: HousePlan, decided: Decided) -> dict[str, str]:
    """Give, by place, the name of the weight that is in its box now."""
    inside = {}
    for sash in plan.sashes():
        for side in SIDES:
            weight, name = getattr(sash.sash, side), place_name(sash, side)
            hung = decided.hung.get(spot_of(sash, side))
            if hung is not None:
                inside[name] = hung.name
            elif weight is not None and not weight.is_missing and name not in decided.used:
                inside[name] = name
    return inside


def _weight_name(plan: HousePlan, names: Names, decision: Decision) -> str:
    if decision.weight is None:
        return ""
    found = names.weights[decision.weight]
    if isinstance(found, FoundAt):
        return f"{plan.survey.window[found.window].tag} {found.place} {found.side}"
    return plan.survey.weight[found.position].tag


def _put(
    decided: Decided,
    decision: Decision,
    sash: SashPlan,
    side: Side,
    weight: Candidate | None,
    name: str,
) -> None:
    spot = spot_of(sash, side)
    if decision.what == "never":
        decided.barred.setdefault(spot, set()).add(name)
    elif decision.what == "hang":
        decided.held[spot] = name
    else:
        decided.hung[spot] = _as_hung(decision, sash, side, weight, name)
        decided.used.add(name)


def _as_hung(
    decision: Decision, sash: SashPlan, side: Side, weight: Candidate | None, name: str
) -> Candidate:
    """Give what hangs there now as a weight whose home is there."""
    return Candidate(
        name or f"new at {place_name(sash, side)}",
        mass_as_hung(decision, weight.kg if weight else None) or Fraction(0),
        length_as_hung_mm(decision, weight.length_mm if weight else math.nan),
        weight.across_mm if weight else math.nan,
        weight.metal if weight else None,
        is_square=weight is not None and weight.is_square,
        home=Home(sash, side),
        record=weight.record if weight else None,
        is_hung=True,
    )
