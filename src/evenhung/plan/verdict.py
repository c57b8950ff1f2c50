"""The verdict on a sash as found, and its reason in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

from evenhung.physics import hang
from evenhung.plan.facts import max_known, nail_short_mm, short_sides, side_passes, sides

if TYPE_CHECKING:
    from evenhung.plan.facts import Facts
    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.proposal import HungWeight, Proposal
    from evenhung.plan.solve import Hang
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash
    from evenhung.survey.weight import Weight

Verdict: TypeAlias = Literal["fixed", "cannot run", "unknown", "rehang", "adjust", "hangs true"]


class Judgement(NamedTuple):
    """A verdict and why."""

    verdict: Verdict
    reason: str


FIXED = Judgement("fixed", "a fixed sash: nothing to hang")


def judge(
    sash: Sash,
    inputs: SashInputs,
    found: Hang,
    facts: Facts,
    proposal: Proposal | None,
    words: Words,
) -> Judgement:
    """Give the first verdict that applies to a running sash."""
    stopped = _stopped(inputs, found, facts, words)
    if stopped:
        better = f"; {_new_weights(proposal, words)}, would run" if proposal else ""
        return Judgement("cannot run", stopped + better)
    unknown = _unknown(sash, inputs)
    if unknown:
        return Judgement("unknown", unknown)
    gone = [text for side, weight in sash.weights() if (text := _gone(side, weight))]
    if proposal is None:
        nothing = (
            f"no weight that would serve travels clear: at most {_longest(found, words)} would"
            if found.pair_best_kg > 0.0
            else "the band asks for a pair that weighs nothing: state a narrower one"
        )
        return Judgement("rehang", "; ".join([*gone, nothing]))
    if proposal.instead:
        gone.append(f"these weights cannot serve, {proposal.instead}")
        return Judgement("rehang", f"{'; '.join(gone)}: hang {_new_weights(proposal, words)}")
    if gone:
        return Judgement("rehang", f"{' and '.join(gone)}: {_what_to_hang(proposal, words)}")
    return _adjust(inputs, found, facts, proposal, words)


def _stopped(inputs: SashInputs, found: Hang, facts: Facts, words: Words) -> str | None:
    if facts.cord_end_over_mm:
        return f"the cord's end comes {words.length(facts.cord_end_over_mm)} above the pulley"
    if facts.band_is_empty:
        long = words.length(found.least_mm - found.most_mm)
        where = short_sides(inputs, found)
        return f"no length of cord will do{where}: weight or travel {long} too long"
    if facts.passes is False:
        return _stopped_at_the_pocket(inputs, found, words)
    if facts.nail_short_mm:
        consequence = "cannot close" if inputs.is_upper else "cannot be fully raised"
        short = max(nail_short_mm(inputs, side) for side in (found.left, found.right))
        return f"it {consequence}: the top cord nail is {words.length(short)} too high"
    return None


def _stopped_at_the_pocket(inputs: SashInputs, found: Hang, words: Words) -> str:
    stopped = [(side, out) for side, out in sides(inputs, found) if side_passes(side, out) is False]
    if any(side.across_mm > side.depth_mm for side, _ in stopped):
        return "a weight is thicker than its box is deep, and goes through no pocket"
    wide = [side.across_mm for side, _ in stopped if side.across_mm > side.pocket_width_mm]
    needed = [
        (max_known((out.pocket_needed_mm, side.across_mm)), side.pocket_height_mm)
        for side, out in stopped
    ]
    high = [least for least, height in needed if least > height]
    sizes = [f"{words.length(max(wide))} wide"] if wide else []
    sizes += [f"{words.length(max(high))} high"] if high else []
    return f"a weight does not pass its pocket, which would have to be {' and '.join(sizes)}"


def _unknown(sash: Sash, inputs: SashInputs) -> str | None:
    missing = ["the sash"] if math.isnan(inputs.mass_kg) else []
    for side, weight in sash.weights():
        if weight is None or (weight.weighed is None and not weight.is_missing):
            missing.append(f"the {side} weight")
    return f"not known yet: weigh {' and '.join(missing)}" if missing else None


def _gone(side: str, weight: Weight | None) -> str | None:
    if weight is not None and weight.is_missing:
        return f"the {side} weight is missing"
    if weight is not None and not weight.is_attached:
        return f"the {side} cord is broken"
    return None


def _adjust(
    inputs: SashInputs, found: Hang, facts: Facts, proposal: Proposal, words: Words
) -> Judgement:
    pair = hang.Band(found.pair_least_kg, found.pair_best_kg, found.pair_most_kg)
    left, right = inputs.left.weight_kg, inputs.right.weight_kg

    def is_true(difference_kg: float) -> bool:
        true = hang.is_true(left_kg=left, right_kg=right, pair=pair, difference_kg=difference_kg)
        return bool(true)

    if not is_true(difference_kg=math.inf):
        return Judgement("adjust", f"{_excess(found, words)}: {_what_to_hang(proposal, words)}")
    if not is_true(inputs.difference_kg):
        apart = f"left and right are {words.mass(abs(left - right))} apart"
        return Judgement("adjust", f"{apart}: {_what_to_hang(proposal, words)}")
    if facts.stays_put is False:
        needed = words.force(found.stays_above_n)
        return Judgement(
            "adjust",
            f"{_excess(found, words)}, but it stays put only with more than {needed} of friction",
        )
    return Judgement("hangs true", f"{_excess(found, words)}{_travel(found)}")


def _travel(found: Hang) -> str:
    """Say that the weights travel clear only where their clearances are known."""
    if math.isnan(found.top_clear_mm + found.bottom_clear_mm):
        return "; whether both weights travel clear is not known, for want of a weight's length"
    return ", and both weights travel clear"


def _excess(found: Hang, words: Words) -> str:
    excess = found.excess_kg
    return f"sash {words.mass(abs(excess))} {'heavier' if excess >= 0 else 'lighter'} than its pair"


def _what_to_hang(proposal: Proposal, words: Words) -> str:
    parts = [_change("left", proposal.left, words), _change("right", proposal.right, words)]
    return (
        ", ".join(part for part in parts if part) or "hang it on its own weights again, on new cord"
    )


def _change(side: str, weight: HungWeight, words: Words) -> str | None:
    if weight.origin == "new":
        return f"hang {_size(weight, words)}, on the {side}"
    if weight.add_kg > hang.RESOLUTION_KG:
        return f"add {words.mass(weight.add_kg)} to the {side}"
    if weight.add_kg < -hang.RESOLUTION_KG:
        return f"take {words.mass(-weight.add_kg)} off the {side}"
    return None


def _new_weights(proposal: Proposal, words: Words) -> str:
    left, right = proposal.left, proposal.right
    if left[1:] == right[1:]:
        return f"new weights, each {_size(left, words)}"
    return f"new weights, left {_size(left, words)}, right {_size(right, words)}"


def _size(weight: HungWeight, words: Words) -> str:
    size = f"{words.mass(weight.mass_kg)}, {weight.metal}"
    if math.isnan(weight.length_mm):
        return size
    return (
        f"{size}, {words.length(weight.length_mm)} long at {words.length(weight.across_mm)} across"
    )


def _longest(found: Hang, words: Words) -> str:
    longest = min(found.left.longest_weight_mm, found.right.longest_weight_mm)
    return f"{words.length(max(0.0, longest))} of weight"
