"""Notes on a sash that was tried: what contradicts what, and what is near a limit."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.completion.pulls import beyond_kg, excess_words
from evenhung.plan.facts import known
from evenhung.plan.readings import DOUBTFUL_AT

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan.completion.evidence import Evidence, Way
    from evenhung.plan.words import Words


def on_the_completion(evidence: Evidence, words: Words) -> Iterator[Note]:
    """Give the notes on what was tried of one sash.

    Parameters
    ----------
    evidence
        What was tried, beside what was reckoned.
    words
        How quantities are written.
    """
    yield from _moves_against_the_pulls(evidence, words)
    yield from _stays_against_the_pulls(evidence)
    yield from _not_what_hangs_there(evidence, words)
    yield from _stiff(evidence, words)


def _moves_against_the_pulls(evidence: Evidence, words: Words) -> Iterator[Note]:
    for did, way, sign in (("drops", evidence.lowering, 1.0), ("rises", evidence.raising, -1.0)):
        if did not in evidence.seen.values():
            continue
        if way.read is not None and way.read.n > DOUBTFUL_AT * way.read.sd_n:
            against = f"{way.name} takes {words.force(way.read.n)}"
        elif evidence.excess_kg * sign < 0.0:
            against = excess_words(evidence.excess_kg, words)
        else:
            continue
        yield note("proof-moves-against", did=did, against=against)


def _stays_against_the_pulls(evidence: Evidence) -> Iterator[Note]:
    if set(evidence.seen.values()) != {"stays"}:
        return
    for way, goes in ((evidence.raising, "rises"), (evidence.lowering, "drops")):
        if way.goes_by_itself:
            yield note("proof-stays-at-rest", goes=goes)


def _not_what_hangs_there(evidence: Evidence, words: Words) -> Iterator[Note]:
    """The pulls and the weighings tell of different pairs, or the pulls are near a limit."""
    told, weighed = evidence.told, evidence.hanging.hang.excess_kg
    if told is None or not told.pulleys_taken_out:
        yield from (_light(way, words) for way in evidence.ways if (known(way.under_n) or 0.0) > 0)
        return
    spread = math.hypot(evidence.excess_sd_kg, evidence.mass_sd_kg)
    if abs(weighed - told.excess_kg) > DOUBTFUL_AT * spread:
        read, weighings = words.mass(told.excess_kg), words.mass(weighed)
        yield note("proof-excess-differs", read=read, weighed=weighings)
    if 0.0 < beyond_kg(evidence) <= DOUBTFUL_AT * evidence.excess_sd_kg:
        said = {
            "beyond": words.mass(beyond_kg(evidence)),
            "spread": words.mass(evidence.excess_sd_kg),
        }
        yield note("proof-near-limit", **said)


def _light(way: Way, words: Words) -> Note:
    return note("proof-pull-light", way=way.name, under=words.force(way.under_n))


def _stiff(evidence: Evidence, words: Words) -> Iterator[Note]:
    most = assumed("friction/hand force/class_1_most")
    for way, verb in ((evidence.raising, "raise"), (evidence.lowering, "lower")):
        if way.read is not None and way.read.n > most.value:
            said = {"force": words.force(way.read.n), "most": words.force(most.value)}
            yield note("too-stiff", most.source, when="as it was tried", way=verb, **said)
