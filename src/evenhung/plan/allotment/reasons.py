"""Why a sash is left unserved: what stands in the way if it is asked for alone."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from evenhung.allot.problem import Problem
from evenhung.allot.solve import cheapest_pair
from evenhung.plan.allotment.question import NO_MORE
from evenhung.plan.allotment.scales import MOST_PARTS

if TYPE_CHECKING:
    from evenhung.allot.answer import Answer, Pair, Serving
    from evenhung.allot.problem import Sash
    from evenhung.plan.allotment.places import Place
    from evenhung.plan.allotment.question import Question
    from evenhung.plan.words import Words
    from evenhung.survey.house import Policy

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
    if _alone(question, sash, number, at_any_cost=True) is not None:
        return (
            "serving it would cost more than it is worth: raise serve in the worths of the policy"
        )
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
    if _alone(question, replace(long, barred=FREE), number) is not None:
        return "what would balance it is too long for its boxes, and may not hang there besides"
    scales = question.scales
    least, most = (
        words.mass(scales.kg(sash.mass + end)) for end in (sash.accept.least, sash.accept.most)
    )
    return f"no two weights, with what can be added, come to a pair of {least} to {most}"


def _alone(
    question: Question, sash: Sash, number: int, *, at_any_cost: bool = False
) -> Pair | None:
    """Serve a sash as if there were no other; every weight is its for the asking."""
    rules = question.problem.rules
    if at_any_cost:
        rules = replace(rules, unserved=4 * MOST_PARTS)
    weights = tuple(
        replace(
            weight, home=(0, weight.home[1]) if weight.home and weight.home[0] == number else None
        )
        for weight in question.problem.weights
    )
    return cheapest_pair(Problem(rules, (sash,), weights))


def _kept_away(question: Question, pair: Pair, number: int, policy: Policy) -> str:
    """Say what keeps from each side what would balance the sash."""
    why: dict[str, None] = {}
    for side, serving in enumerate(pair):
        place = question.places[number][side]
        source = serving.source(question.problem)
        if source not in question.problem.sashes[number].barred[side]:
            continue
        name, refusal = _refused(question, place, serving, policy)
        why[f"{name} on the {place.side}: {refusal}"] = None
    return f"what would balance it may not hang there: {'; '.join(why)}"


def _refused(question: Question, place: Place, serving: Serving, policy: Policy) -> tuple[str, str]:
    """Name what a place keeps away, and say why."""
    if serving.weight is not None:
        weight = question.weights[serving.weight]
        return weight.name, place.refuses(weight, policy) or "it is decided otherwise"
    number = serving.source(question.problem) - len(question.weights)
    if number < len(question.bars):
        bar = question.bars[number]
        name, length_mm = f"a new weight of {bar.metal}", serving.length / 10.0
        across_mm = bar.diameter.mm
    else:
        ready = question.ready[number - len(question.bars)].one
        name, length_mm = f"a ready-made {ready.name}", ready.length.mm
        across_mm = ready.diameter.mm if ready.diameter else math.nan
    return name, place.shuts_out(length_mm, across_mm) or "it is decided otherwise"


def _contended(question: Question, pair: Pair, answer: Answer) -> str:
    wanted = {serving.weight for serving in pair if serving.weight is not None}
    takers = [
        question.sashes[number]
        for number, other in enumerate(answer.pairs)
        if other and wanted & {serving.weight for serving in other}
    ]
    where = " and ".join(f"{sash.plan.window.tag} {sash.plan.place}" for sash in takers)
    return f"what would serve it serves {where or 'others'} better"
