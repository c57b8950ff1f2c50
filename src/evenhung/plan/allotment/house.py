"""The allotment of a house: who takes part, what is asked, what comes of the answer."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.solve import allot
from evenhung.plan.allotment.buying import Basket, basket_of
from evenhung.plan.allotment.candidates import Candidate, LeftOut, candidates_in, place_name
from evenhung.plan.allotment.decided import decided_in, spot_of
from evenhung.plan.allotment.moves import Move, moves_of
from evenhung.plan.allotment.outcome import Hanging, Served, served_by
from evenhung.plan.allotment.places import Asked
from evenhung.plan.allotment.question import Given, Question, question_of
from evenhung.plan.allotment.reasons import reason_for
from evenhung.plan.allotment.stock import supplies_of
from evenhung.plan.allotment.worth import worths_of
from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.estimate import UNIFORM
from evenhung.plan.frame import SIDES
from evenhung.plan.ledger import Ledger

if TYPE_CHECKING:
    from evenhung.allot.answer import Answer, Status
    from evenhung.allot.watch import Watch
    from evenhung.notes import Note
    from evenhung.plan.allotment.decided import Decided
    from evenhung.plan.house import HousePlan, SashPlan
    from evenhung.survey.stock import Stock


HUNG = "it is hung already"


class Unserved(NamedTuple):
    """A sash that no weights are hung at, and why."""

    sash: SashPlan
    reason: str
    is_asked: bool
    """Whether it took part; one that is fixed, hung already or not weighed does not."""


class HouseAllotment(NamedTuple):
    """What hangs where in a house, what that takes, and how good it is."""

    plan: HousePlan
    served: tuple[Served, ...]
    unserved: tuple[Unserved, ...]
    left_over: tuple[Candidate, ...]
    left_out: tuple[LeftOut, ...]
    moves: tuple[Move, ...]
    basket: Basket
    status: Status
    cost: float
    """Of everything, worths included, in the house's money."""
    bound: float
    """No answer costs less."""
    seconds: float
    notes: tuple[Note, ...]

    @property
    def hangings(self) -> list[Hanging]:
        """What hangs at every side that is served, the left one first."""
        return [hanging for one in self.served for hanging in (one.left, one.right)]


def allot_house(plan: HousePlan, watch: Watch | None = None) -> HouseAllotment:
    """Allot the weights of a house.

    Parameters
    ----------
    plan
        The plan of the house on its weights as found.
    watch
        Deadline, stop flag and whom to tell of progress; none of these by default.
    """
    ledger = Ledger(plan.words, [])
    policy = plan.survey.house.policy
    stock = supplies_of(plan, ledger).stock
    found, left_out = candidates_in(plan, stock)
    decided = decided_in(plan, found)
    scale_sd_kg = _scale_sd_kg(plan)
    asked, aside = _who_takes_part(plan, decided, found, scale_sd_kg)
    kept, weights = _available(found, decided, aside)
    worths = worths_of(policy.worth, ledger)
    question = question_of(Given(asked, weights, stock, policy, decided, worths, scale_sd_kg))
    if not question.scales.is_exact:
        ledger.notes.append(note("allotted-in-steps"))
    if not asked:
        return _nothing(plan, aside, weights, [*left_out, *kept], ledger)
    answer = allot(question.problem, watch)
    served = served_by(answer, question, stock)
    unserved = [
        Unserved(
            question.sashes[number].plan,
            reason_for(question, number, answer, policy, plan.words),
            True,
        )
        for number, pair in enumerate(answer.pairs)
        if pair is None
    ]
    return _gathered(
        plan, question, answer, served, [*unserved, *aside], [*left_out, *kept], stock, ledger
    )


def _scale_sd_kg(plan: HousePlan) -> float:
    step = plan.survey.house.scale_step
    return (step.kg if step else assumed("policy/scale/resolution").value) * UNIFORM


def _who_takes_part(
    plan: HousePlan, decided: Decided, found: list[Candidate], scale_sd_kg: float
) -> tuple[list[Asked], list[Unserved]]:
    """Part the sashes into those that ask for weights and those that do not."""
    weighed = {one.name for one in found}
    asked, aside = [], []
    for sash in plan.sashes():
        reason = _why_not(sash, decided, weighed) or _too_unsure(plan, sash, scale_sd_kg)
        if reason or sash.found is None:
            aside.append(Unserved(sash, reason, is_asked=False))
        else:
            asked.append(Asked(sash, sash.found))
    return asked, aside


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
    return _settled(sash, decided, weighed) or next(
        (reason for reason, holds in stops.items() if holds), ""
    )


def _settled(sash: SashPlan, decided: Decided, weighed: set[str]) -> str:
    """Say so where a sash is hung already, or what is decided for it cannot be reckoned with."""
    hung = [decided.hung.get(spot_of(sash, side)) for side in SIDES]
    if all(hung):
        return HUNG
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
    return (
        f"it is not known closely enough, give or take {plan.words.mass(spread)}: "
        "weigh it on a finer scale, or do not allow for error"
    )


def _available(
    found: list[Candidate], decided: Decided, aside: list[Unserved]
) -> tuple[list[LeftOut], list[Candidate]]:
    """Leave each weight at home whose sash may still need it; take the others."""
    fixed = {id(one.sash) for one in aside if one.sash.found is None}
    done = {id(one.sash) for one in aside if one.reason == HUNG}
    needy = {id(one.sash) for one in aside} - fixed - done
    kept, weights = [], []
    for one in found:
        if one.name in decided.used and one.bought is None:
            continue
        if one.home is not None and id(one.home.sash) in needy:
            kept.append(LeftOut(one.name, f"{place_name(one.home.sash)} may need it"))
        else:
            weights.append(one)
    hung = [
        one
        for one in decided.hung.values()
        if one.kg and one.home and id(one.home.sash) not in done | needy | fixed
    ]
    return kept, [*weights, *hung]


def _nothing(
    plan: HousePlan,
    aside: list[Unserved],
    weights: list[Candidate],
    left_out: list[LeftOut],
    ledger: Ledger,
) -> HouseAllotment:
    """Give the allotment of a house in which no sash asks for weights."""
    return HouseAllotment(
        plan,
        (),
        tuple(aside),
        tuple(weight for weight in weights if weight.bought is None),
        tuple(left_out),
        (),
        Basket((), Decimal(0), is_whole=True),
        "optimal",
        0.0,
        0.0,
        0.0,
        tuple(ledger.notes),
    )


def _gathered(
    plan: HousePlan,
    question: Question,
    answer: Answer,
    served: list[Served],
    unserved: list[Unserved],
    left_out: list[LeftOut],
    stock: Stock,
    ledger: Ledger,
) -> HouseAllotment:
    hangings = [hanging for one in served for hanging in (one.left, one.right)]
    used = {id(hanging.weight) for hanging in hangings}
    idle = [one for one in question.weights if id(one) not in used and one.bought is None]
    return HouseAllotment(
        plan,
        tuple(served),
        tuple(unserved),
        tuple(idle),
        tuple(left_out),
        tuple(moves_of(hangings, idle)),
        basket_of(hangings, stock),
        answer.status,
        question.scales.amount(answer.cost + question.at_home_parts),
        question.scales.amount(answer.bound + question.at_home_parts),
        answer.effort.seconds,
        tuple(ledger.notes),
    )
