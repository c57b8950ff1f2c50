"""What is to be said of one sash, line by line: the same at a terminal and in a pipe."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.plan.facts import known

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan
    from evenhung.plan.proposal import HungWeight, Proposal
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash

UNCHECKED = (
    "length-unknown",
    "nail-unknown",
    "nail-length-unknown",
    "pocket-unknown",
    "turning-unknown",
    "make-weight-length-unknown",
)
"""Notes that say what was not checked, and for want of what."""


def story(sash: SashPlan, words: Words) -> Iterator[str]:
    """Give a sash's numbers: what it weighs, what to cut, what comes of it, what is unchecked."""
    yield from _mass(sash, words)
    yield from _readings(sash, words)
    if sash.proposal is not None:
        yield from _make_weights(sash.proposal, words)
        yield from _cord(sash.sash, sash.proposal, words)
        yield from _clearances(sash.proposal, words)
        yield _forces(sash.proposal, words)
    unchecked = [
        note.text.partition(" not checked: ") for note in sash.notes if note.code in UNCHECKED
    ]
    if unchecked:
        yield f"not checked: {'; '.join(f'{what} ({why})' for what, _, why in unchecked)}"


def hung_story(sash: Sash, proposal: Proposal, words: Words) -> Iterator[str]:
    """Give what comes of a sash on the weights of a proposal: cord, clearances, forces."""
    yield from _cord(sash, proposal, words)
    yield from _clearances(proposal, words)
    yield _forces(proposal, words)


def _mass(sash: SashPlan, words: Words) -> Iterator[str]:
    if sash.mass.found is None:
        return
    if sash.mass.found == "weighed":
        line = f"sash weighed {words.mass(sash.mass.kg)}"
    else:
        spread = words.mass(sash.mass.deviation_kg)
        line = (
            f"sash estimated at {words.mass(sash.mass.kg)}, give or take {spread}: "
            "weigh it before any weight is changed"
        )
    best = known(sash.found.hang.pair_best_kg) if sash.found else None
    yield line if best is None else f"{line}; best pair {words.mass(best)}"


def _readings(sash: SashPlan, words: Words) -> Iterator[str]:
    found = sash.diagnosis
    if found is None:
        return
    way = "lighter" if found.excess_kg < 0.0 else "heavier"
    excess = f"sash {words.mass(abs(found.excess_kg))} {way} than its pair"
    spread = words.mass(found.excess_sd_kg)
    what = "friction in the runs" if found.pulleys_taken_out else "friction, pulleys included,"
    friction = f"{words.force(found.friction_n)}, give or take {words.force(found.friction_sd_n)}"
    yield f"by the spring balance: {excess}, give or take {spread}; {what} {friction}"


def _make_weights(proposal: Proposal, words: Words) -> Iterator[str]:
    parts = [
        part
        for side, weight in (("left", proposal.left), ("right", proposal.right))
        if (part := _make_weight(side, weight, words))
    ]
    if parts:
        metal = proposal.left.added_metal or proposal.right.added_metal
        yield f"make-weights of {metal}, as thick as the weight: {', '.join(parts)}"


def _make_weight(side: str, weight: HungWeight, words: Words) -> str:
    if weight.added_metal is None or math.isnan(weight.added_mm):
        return ""
    return f"{words.length(weight.added_mm)} long on the {side}"


def _cord(sash: Sash, proposal: Proposal, words: Words) -> Iterator[str]:
    hang = proposal.hang
    cut, slack, working = (
        known(value) for value in (hang.cut_mm, hang.mark_slack_mm, hang.working_mm)
    )
    if cut is None or slack is None or working is None:
        return
    worn = any(weight and weight.state in ("broken", "frayed") for _, weight in sash.weights())
    when = "if renewed, " if proposal.is_as_found and not worn else ""
    if not proposal.keeps_both:
        when = "on those weights, "
    hung = {weight.hung or "cord" for weight in (sash.left, sash.right) if weight}
    line = min(
        hung & {"cord", "chain", "tape"}, key=("cord", "chain", "tape").index, default="cord"
    )
    if line == "cord":
        yield (
            f"{when}cut two cords of {words.length(cut)}: top of weight at "
            f"{words.length(slack)} from the cord's end slack, {words.length(working)} taut"
        )
    else:
        yield f"{when}two {line}s of {words.length(working)} to the weight, its fixings besides"


def _clearances(proposal: Proposal, words: Words) -> Iterator[str]:
    top, bottom = known(proposal.hang.top_clear_mm), known(proposal.hang.bottom_clear_mm)
    if top is not None and bottom is not None:
        yield (
            f"then clear by {words.length(top)} at the pulley "
            f"and by {words.length(bottom)} at the box bottom"
        )


def _forces(proposal: Proposal, words: Words) -> str:
    hang, facts = proposal.hang, proposal.facts
    stays = {True: "stays put", False: "does not stay put", None: "stays put if friction is enough"}
    moves = f"{_hand('raise', hang.raise_n, words)}, {_hand('lower', hang.lower_n, words)}"
    return f"then {moves}; {stays[facts.stays_put]}"


def _hand(way: str, force_n: float, words: Words) -> str:
    return f"{way} with {words.force(force_n)}" if force_n > 0 else f"{way}s by itself"
