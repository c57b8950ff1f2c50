"""What the pulls on a sash say against it or for it, in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.facts import known
from evenhung.plan.readings import DOUBTFUL_AT

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.completion.evidence import Evidence
    from evenhung.plan.words import Words


def pulls_against(evidence: Evidence, words: Words) -> Iterator[str]:
    """Give what the pulls say against a sash: something binds, or it hangs outside its limits.

    Parameters
    ----------
    evidence
        What was tried, beside what was reckoned.
    words
        How quantities are written.
    """
    told = evidence.told
    if told is not None and told.pulleys_taken_out:
        over = told.friction_n - evidence.hanging.inputs.slide_most_n
        if over > DOUBTFUL_AT * told.friction_sd_n:
            friction = words.force(told.friction_n)
            asks = _overs(evidence, words)
            asks = f"{asks} more than the most reckoned: " if asks else ""
            yield f"{asks}something binds, with {friction} of friction in the runs"
        if beyond_kg(evidence) > DOUBTFUL_AT * evidence.excess_sd_kg:
            inputs = evidence.hanging.inputs
            limits = sorted((inputs.excess_least_kg, inputs.excess_most_kg), key=abs)
            asked = " to ".join(words.mass(abs(limit)) for limit in limits)
            way = "heavier" if inputs.is_upper else "lighter"
            found = excess_words(told.excess_kg, words)
            yield f"by the pulls {found}, where {asked} {way} is asked for"
        return
    for pull, other in zip(evidence.ways, ("lighter", "heavier"), strict=True):
        if known(pull.over_n) and pull.over_n > 0.0:
            yield (
                f"{pull.name} asks for {words.force(pull.over_n)} more than the most reckoned: "
                f"something binds, or the pair is {other} than was recorded"
            )


def beyond_kg(evidence: Evidence) -> float:
    """Give how far the excess by the pulls lies outside its limits; 0 where it is inside."""
    inputs, told = evidence.hanging.inputs, evidence.told
    if told is None or not told.pulleys_taken_out:
        return 0.0
    low, high = inputs.excess_least_kg, inputs.excess_most_kg
    outside = max(low - told.excess_kg, told.excess_kg - high)
    return outside if outside > 0.0 else 0.0  # nan, where no limit is known, is not outside


def pulls_for(evidence: Evidence, words: Words) -> str:
    """Say what the pulls came to where they say nothing against a sash."""
    read = [
        f"{way.name} takes {words.force(way.read.n)}"
        if way.read.n > 0.0
        else f"{way.name} takes no pull"
        for way in evidence.ways
        if way.read is not None
    ]
    if not read:
        return "no pull was read"
    compared = [way for way in evidence.ways if known(way.over_n) is not None]
    as_reckoned = compared and all(way.over_n == way.under_n == 0.0 for way in compared)
    return f"{', '.join(read)}{', as reckoned' if as_reckoned else ''}"


def excess_words(excess_kg: float, words: Words) -> str:
    """Say how pair and sash compare, from the pair's side."""
    than = "lighter" if excess_kg >= 0.0 else "heavier"
    return f"the pair is {words.mass(abs(excess_kg))} {than} than the sash"


def _overs(evidence: Evidence, words: Words) -> str:
    """Say how much more than reckoned either way asks for; empty where neither does for sure."""
    over = [way for way in evidence.ways if known(way.over_n) and way.over_n > 0.0]
    said = [f"{way.name} asks for {words.force(way.over_n)}" for way in over]
    return " and ".join(said)
