"""Who takes part: which sashes ask for weights, and which weights are to be had."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.allotment.candidates import LeftOut, place_name
from evenhung.plan.allotment.decided import spot_of
from evenhung.plan.allotment.outcome import as_hung
from evenhung.plan.allotment.places import Asked, places_of
from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.frame import SIDES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan.allotment.candidates import Candidate
    from evenhung.plan.allotment.decided import Decided
    from evenhung.plan.allotment.outcome import Served
    from evenhung.plan.allotment.question import Given
    from evenhung.plan.house import HousePlan, SashPlan


class Unserved(NamedTuple):
    """A sash that no weights are allotted to, and why."""

    sash: SashPlan
    reason: str
    is_asked: bool
    """Whether it took part; one that is fixed, hung already or not weighed does not."""
    hung: Served | None = None
    """What hangs there already and comes of it; None where nothing is hung, or it is not known."""


def who_takes_part(
    plan: HousePlan, decided: Decided, found: list[Candidate], scale_sd_kg: float
) -> tuple[list[Asked], list[Unserved]]:
    """Part the sashes into those that ask for weights and those that do not."""
    weighed = {one.name for one in found}
    asked: list[Asked] = []
    aside: list[Unserved] = []
    for sash in plan.sashes():
        hung = [decided.hung.get(spot_of(sash, side)) for side in SIDES]
        if sash.found is not None and hung[0] and hung[1]:
            aside.append(_done(plan, Asked(sash, sash.found), hung[0], hung[1]))
            continue
        reason = _why_not(sash, decided, weighed) or _too_unsure(plan, sash, scale_sd_kg)
        if reason or sash.found is None:
            aside.append(Unserved(sash, reason, is_asked=False))
        else:
            asked.append(Asked(sash, sash.found))
    return asked, aside


def _done(plan: HousePlan, asked: Asked, left: Candidate, right: Candidate) -> Unserved:
    """Look at a sash that is hung already."""
    if not (left.kg and right.kg) or math.isnan(asked.plan.mass.kg):
        return Unserved(asked.plan, "it is hung already, on weights not weighed", is_asked=False)
    served = as_hung(asked, left, right)
    excess = served.proposal.hang.excess_kg
    is_ = "heavier" if excess >= 0.0 else "lighter"
    how = f"sash {plan.words.mass(abs(excess))} {is_} than its pair"
    true = "and true" if served.is_true else "but not true"
    return Unserved(asked.plan, f"it is hung already, {true}: {how}", False, served)


def _why_not(sash: SashPlan, decided: Decided, weighed: set[str]) -> str:
    """Say why a sash takes no part; nothing where it does."""
    if sash.found is None:
        return "it is fixed"
    facts, hang = sash.found.facts, sash.found.hang
    shares = any(weight and weight.shared_with for _, weight in sash.sash.weights())
    stops = {
        "its mass is not known: weigh it": math.isnan(sash.mass.kg),
        f"it cannot run on any weights: {sash.judgement.reason}": bool(
            facts.cord_end_over_mm or facts.nail_short_mm
        ),
        "its band asks for a pair that weighs nothing": hang.pair_best_kg <= 0.0,
        "a weight of it serves another window too: that is not reckoned here": shares,
    }
    return _unweighed(sash, decided, weighed) or next(
        (reason for reason, holds in stops.items() if holds), ""
    )


def _unweighed(sash: SashPlan, decided: Decided, weighed: set[str]) -> str:
    """Say so where what is decided for a sash cannot be reckoned with."""
    hung = [decided.hung.get(spot_of(sash, side)) for side in SIDES]
    if any(one is not None and not one.kg for one in hung):
        return "what hangs there already is not weighed"
    held = (decided.held.get(spot_of(sash, side)) for side in SIDES)
    if any(name is not None and name not in weighed for name in held):
        return "the weight that shall hang there is not weighed"
    return ""


def _too_unsure(plan: HousePlan, sash: SashPlan, scale_sd_kg: float) -> str:
    """Say so where its limits lie closer together than its mass is known."""
    if plan.survey.house.policy.allow_for_error != "yes" or sash.found is None:
        return ""
    deviations = assumed("policy/allow for error/deviations").value
    spread = math.hypot(sash.mass.deviation_kg, math.sqrt(2.0) * scale_sd_kg)
    hang = sash.found.hang
    if hang.pair_most_kg - hang.pair_least_kg >= 2.0 * deviations * spread:
        return ""
    weigh = "weigh it on a finer scale" if sash.mass.found == "weighed" else "weigh it"
    return (
        f"it is not known closely enough, give or take {plan.words.mass(spread)}: "
        f"{weigh}, or do not allow for error"
    )


def available(
    found: list[Candidate], decided: Decided, aside: list[Unserved]
) -> tuple[list[LeftOut], list[Candidate]]:
    """Leave each weight where it is that is needed there; take the others."""
    done = {id(one.sash) for one in aside if one.sash.found is None or one.hung is not None}
    needy = {id(one.sash) for one in aside} - done
    out = {place_name(one.sash, side): one for one in aside for side in SIDES}
    held_for = {name: " ".join(spot) for spot, name in decided.held.items()}
    kept, weights = [], []
    for one in found:
        place = held_for.get(one.name, "")
        if one.name in decided.used and one.bought is None:
            continue
        if place in out and one.bought is None:
            kept.append(LeftOut(one.name, f"it is held for {place}"))
        elif one.home is not None and id(one.home.sash) in needy and not place:
            kept.append(LeftOut(one.name, f"{place_name(one.home.sash)} may need it"))
        else:
            weights.append(_set_free(one, decided))
    hung = [
        one
        for one in decided.hung.values()
        if one.kg and one.home and id(one.home.sash) not in done | needy
    ]
    return kept, [*weights, *hung]


def _set_free(weight: Candidate, decided: Decided) -> Candidate:
    """A weight in whose place another hangs by now lies loose."""
    home = weight.home
    if home is None or spot_of(home.sash, home.side) not in decided.hung:
        return weight
    return weight._replace(home=None, is_displaced=True)


def held_against(given: Given) -> Iterator[Note]:
    """Give a caution for each weight held for a place that would otherwise not have it."""
    for asked in given.sashes:
        for place in places_of(*asked):
            held = given.decided.held.get(spot_of(place.sash, place.side))
            for weight in given.weights:
                if weight.name == held and weight.bought is None:
                    against = place.refuses(weight, given.policy)
                    if against:
                        yield note(
                            "held-against", place=place.name, weight=weight.name, against=against
                        )
