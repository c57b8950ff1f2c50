"""Whether one sash stays where it is put: the verdict, and its reason in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

from evenhung.plan.completion.cautions import on_the_completion
from evenhung.plan.completion.pulls import excess_words, pulls_against, pulls_for
from evenhung.plan.facts import known

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.notes import Note
    from evenhung.plan.completion.evidence import Evidence
    from evenhung.plan.words import Words
    from evenhung.survey.completion import Completion

Verdict: TypeAlias = Literal["proved", "not proved", "not yet proved"]

AT_LEAST = ("shut", "half", "open")
"""Where a sash has to stay before it is proved."""

WHERE = {
    "shut": "shut",
    "quarter": "a quarter open",
    "half": "half open",
    "three_quarters": "three quarters open",
    "open": "open",
}
"""The places of the form in the words of a reason."""


class Proof(NamedTuple):
    """A verdict on one sash, why, and what it rests on."""

    verdict: Verdict
    reason: str
    tried: Completion
    evidence: Evidence
    notes: tuple[Note, ...]


def prove(evidence: Evidence, tried: Completion, words: Words) -> Proof:
    """Judge one sash by what was tried of it.

    Parameters
    ----------
    evidence
        What was tried, beside what was reckoned.
    tried
        The same as it was recorded.
    words
        How quantities are written.
    """
    notes = tuple(on_the_completion(evidence, words))
    against = [*_moves(evidence, words), *pulls_against(evidence, words)]
    if against:
        return Proof("not proved", "; ".join(against), tried, evidence, notes)
    stays = [place for place in WHERE if place in evidence.seen]
    missing = [place for place in AT_LEAST if place not in evidence.seen]
    if missing:
        so_far = f"; so far it stays {spoken(stays)}" if stays else ""
        reason = f"not let go yet {spoken(missing)}{so_far}"
        return Proof("not yet proved", reason, tried, evidence, notes)
    reason = f"stays {spoken(stays)}; {pulls_for(evidence, words)}"
    return Proof("proved", reason, tried, evidence, notes)


def spoken(places: Sequence[str]) -> str:
    """Name some places in words.

    Examples
    --------
    >>> spoken(["shut", "half", "open"])
    'shut, half open and open'
    """
    *first, last = (WHERE[place] for place in places)
    return f"{', '.join(first)} and {last}" if first else last


def _moves(evidence: Evidence, words: Words) -> Iterator[str]:
    """Say where it does not stay, and what makes it go."""
    hang = evidence.hanging.hang
    for did, turns in (("drops", hang.drop_turns_n), ("rises", hang.rise_turns_n)):
        places = [place for place in WHERE if evidence.seen.get(place) == did]
        if not places:
            continue
        why = []
        if (evidence.excess_kg > 0.0) == (did == "drops") and known(evidence.excess_kg):
            why.append(excess_words(evidence.excess_kg, words))
        held = known(turns)
        if held is not None and held > 0.0:
            why.append(f"more than {words.force(held)} of friction in the runs would hold it")
        yield f"{did} when left {spoken(places)}{': ' if why else ''}{', and '.join(why)}"
