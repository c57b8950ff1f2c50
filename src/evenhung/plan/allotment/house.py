"""The allotment of a house: who takes part, what is asked, what comes of the answer."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.solve import allot
from evenhung.plan.allotment.buying import Basket, basket_of
from evenhung.plan.allotment.candidates import Candidate, LeftOut, candidates_in
from evenhung.plan.allotment.decided import decided_in, in_the_boxes
from evenhung.plan.allotment.moves import Move, moves_of
from evenhung.plan.allotment.outcome import Hanging, Served, served_by
from evenhung.plan.allotment.part import Unserved, available, held_against, who_takes_part
from evenhung.plan.allotment.question import Given, Question, question_of
from evenhung.plan.allotment.reasons import reason_for
from evenhung.plan.allotment.stock import supplies_of
from evenhung.plan.allotment.worth import worths_of
from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.estimate import UNIFORM
from evenhung.plan.ledger import Ledger

if TYPE_CHECKING:
    from evenhung.allot.answer import Answer, Status
    from evenhung.allot.watch import Watch
    from evenhung.notes import Note
    from evenhung.plan.house import HousePlan


TOO_NEAR = (
    "its weights cannot be kept near enough to each other, weighed in units that do not go into "
    "each other: weigh them all in one"
)


GRAMS = 1000.0
"""In a kilogram."""


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
    worth_serving: float = 1.0
    """What one sash more is worth, in the house's money."""

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
    found, left_out = candidates_in(plan, stock, 2 * len(plan.sashes()))
    decided = decided_in(plan, found)
    scale_sd_kg = _scale_sd_kg(plan)
    asked, aside = who_takes_part(plan, decided, found, scale_sd_kg)
    kept, weights = available(found, decided, aside)
    left_out += kept
    if not asked:
        return _nothing(plan, aside, weights, left_out)
    worths = worths_of(policy.worth, ledger)
    given = Given(asked, weights, stock, policy, decided, worths, scale_sd_kg)
    ledger.notes.extend(held_against(given))
    asking = _ask(plan, given, watch)
    if not asking.question.scales.is_exact:
        ledger.notes.append(note("allotted-in-steps", step=_step(asking)))
    if stock.bar:
        ledger.notes.append(note("bars-by-mass"))
    return _gathered(asking, aside, left_out, ledger)


class Asking(NamedTuple):
    """A question with its answer."""

    plan: HousePlan
    given: Given
    question: Question
    answer: Answer
    answered: list[Served]
    """Every sash with a pair, also where the pair is not true by the masses themselves."""

    @property
    def served(self) -> list[Served]:
        """The sashes whose pairs are true."""
        return [one for one in self.answered if one.is_true]

    def unserved(self) -> list[Unserved]:
        """Give the sashes that took part and are not served, each with its reason."""
        policy, words = self.given.policy, self.plan.words
        found = [
            Unserved(one.asked.plan, TOO_NEAR, is_asked=True)
            for one in self.answered
            if not one.is_true
        ]
        for number, pair in enumerate(self.answer.pairs):
            if pair is None:
                reason = reason_for(self.question, number, self.answer, policy, words)
                found.append(Unserved(self.question.sashes[number].plan, reason, is_asked=True))
        return found


def _ask(plan: HousePlan, given: Given, watch: Watch | None) -> Asking:
    """Put the question; once more, strictly, where rounding let a pair in that is not true."""
    question = question_of(given)
    answer = allot(question.problem, watch)
    answered = served_by(answer, question, given.stock)
    wrong = frozenset(one.asked.name for one in answered if not one.is_true)
    if wrong and not given.strict:
        return _ask(plan, given._replace(strict=wrong), watch)
    return Asking(plan, given, question, answer, answered)


def _step(asking: Asking) -> str:
    """Write the step in grams: it is too small for what masses are printed to."""
    return f"{float(asking.question.scales.tick_kg) * GRAMS:g} g"


def _nothing(
    plan: HousePlan, aside: list[Unserved], weights: list[Candidate], left_out: list[LeftOut]
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
        (),
    )


def _gathered(
    asking: Asking, aside: list[Unserved], left_out: list[LeftOut], ledger: Ledger
) -> HouseAllotment:
    question, answer = asking.question, asking.answer
    served = asking.served
    hangings = [hanging for one in served for hanging in (one.left, one.right)]
    used = {id(hanging.weight) for hanging in hangings}
    idle = [one for one in question.weights if id(one) not in used and one.bought is None]
    return HouseAllotment(
        asking.plan,
        tuple(served),
        (*asking.unserved(), *aside),
        tuple(idle),
        tuple(left_out),
        tuple(moves_of(hangings, in_the_boxes(asking.plan, asking.given.decided))),
        basket_of(hangings, asking.given.stock),
        answer.status,
        question.scales.amount(answer.cost + question.at_home_parts),
        question.scales.amount(answer.bound + question.at_home_parts),
        answer.effort.seconds,
        tuple(ledger.notes),
        float(asking.given.worths.serve) or 1.0,
    )


def _scale_sd_kg(plan: HousePlan) -> float:
    step = plan.survey.house.scale_step
    return (step.kg if step else assumed("policy/scale/resolution").value) * UNIFORM
