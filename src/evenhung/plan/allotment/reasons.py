"""Why a sash is left unserved: what stands in the way if it is asked for alone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from evenhung.allot.problem import Problem
from evenhung.allot.solve import allot
from evenhung.plan.allotment.question import NO_MORE

if TYPE_CHECKING:
    from evenhung.allot.answer import Answer, Pair
    from evenhung.allot.problem import Sash
    from evenhung.plan.allotment.question import Question
    from evenhung.plan.words import Words
    from evenhung.survey.house import Policy

TOO_BIG = "too thick for the box, too long for its pocket or for what it is cut from"

FREE = (frozenset[int](), frozenset[int]())
"""Nothing barred at either side."""


def reason_for(
    question: Question, number: int, answer: Answer, policy: Policy, words: Words
) -> str:
    """Say why a sash is left unserved.

    Parameters
    ----------
    question
        What was asked.
    number
        Position of the sash.
    answer
        The answer that leaves it unserved.
    policy
        The policy of the house.
    words
        How quantities are written.
    """
    sash = question.problem.sashes[number]
    pair = _alone(question, sash, number)
    if pair is not None:
        return _contended(question, pair, answer)
    long = replace(sash, longest=(NO_MORE, NO_MORE))
    if _alone(question, long, number) is not None:
        left, right = (words.length(max(0.0, one.longest_mm)) for one in question.places[number])
        return (
            "whatever would balance it is too long for its boxes: "
            f"at most {left} travels clear on the left, {right} on the right"
        )
    pair = _alone(question, replace(sash, barred=FREE), number)
    if pair is not None:
        return _kept_away(question, pair, number, policy)
    scales = question.scales
    least, most = (
        words.mass(scales.kg(sash.mass + end)) for end in (sash.accept.least, sash.accept.most)
    )
    return f"no two weights, with what can be added, come to a pair of {least} to {most}"


def _alone(question: Question, sash: Sash, number: int) -> Pair | None:
    """Serve a sash as if there were no other; every weight is its for the asking."""
    weights = tuple(
        replace(
            weight, home=(0, weight.home[1]) if weight.home and weight.home[0] == number else None
        )
        for weight in question.problem.weights
    )
    (pair,) = allot(Problem(question.problem.rules, (sash,), weights)).pairs
    return pair


def _kept_away(question: Question, pair: Pair, number: int, policy: Policy) -> str:
    """Say what keeps from each side what would balance the sash."""
    why: dict[str, None] = {}
    for side, serving in enumerate(pair):
        place = question.places[number][side]
        source = serving.source(question.problem)
        if source not in question.problem.sashes[number].barred[side]:
            continue
        if serving.weight is not None:
            weight = question.weights[serving.weight]
            refusal = place.refuses(weight, policy) or "it is decided otherwise"
            why[f"{weight.name} on the {place.side}: {refusal}"] = None
        else:
            why[f"{_new_name(question, source)} on the {place.side}: {TOO_BIG}"] = None
    return f"what would balance it may not hang there: {'; '.join(why)}"


def _new_name(question: Question, source: int) -> str:
    number = source - len(question.weights)
    if number < len(question.bars):
        bar = question.bars[number]
        return f"a new weight of {bar.diameter.text} {bar.metal}"
    return f"a ready-made {question.ready[number - len(question.bars)].name}"


def _contended(question: Question, pair: Pair, answer: Answer) -> str:
    wanted = {serving.weight for serving in pair if serving.weight is not None}
    takers = [
        question.sashes[number]
        for number, other in enumerate(answer.pairs)
        if other and wanted & {serving.weight for serving in other}
    ]
    where = " and ".join(f"{sash.plan.window.tag} {sash.plan.place}" for sash in takers)
    return f"what would serve it serves {where or 'others'} better"
