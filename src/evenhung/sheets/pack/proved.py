"""How each sash ran once the work was done, as the records print it; blanks where it is not."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from evenhung.plan.completion.proof import AT_LEAST, WHERE, spoken
from evenhung.sheets.pack.figures import breakable, force, mass, shortened
from evenhung.sheets.pack.typesetting import written_day
from evenhung.survey.completion import BEHAVIOURS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.plan.completion.evidence import Way
    from evenhung.plan.completion.house import HouseCompletion
    from evenhung.plan.completion.proof import Proof
    from evenhung.plan.frame import Side
    from evenhung.plan.words import Words
    from evenhung.sheets.pack.figures import Figure


def proof_data(
    completion: HouseCompletion | None, sash: SashPlan, words: Words
) -> dict[str, object] | None:
    """Give how one sash ran, as plain data; None where it was not tried."""
    proof = completion.of(sash) if completion is not None else None
    if proof is None:
        return None
    seen = proof.evidence.seen
    return {
        "verdict": proof.verdict,
        "reason": breakable(proof.reason),
        "did": [
            {"what": did, "where": spoken([place for place in WHERE if seen.get(place) == did])}
            for did in BEHAVIOURS
            if did in seen.values()
        ],
        "untried": [WHERE[place] for place in AT_LEAST if place not in seen],
        "left": _hung(proof, "left", words),
        "right": _hung(proof, "right", words),
        "raise": _read(proof.evidence.raising, words),
        "lower": _read(proof.evidence.lowering, words),
        "note": breakable(proof.tried.note or ""),
        "cautions": [breakable(note.text) for note in proof.notes if note.severity != "info"],
    }


def signed_data(completion: HouseCompletion | None, window: WindowPlan) -> dict[str, str]:
    """Give who tried the sashes of a window and when, and since when all of it is proved.

    Parameters
    ----------
    completion
        What is proved of the house; None where nothing was tried.
    window
        The window.
    """
    running = [one for one in (window.upper, window.lower) if one and one.sash.is_running]
    found = [completion.of(one) if completion is not None else None for one in running]
    proofs = [one for one in found if one is not None]
    is_proved = bool(found) and all(one and one.verdict == "proved" for one in found)
    return {
        "by": shortened(", ".join(_once(one.tried.by for one in proofs)), 40),
        "on": ", ".join(_written(day) for day in _once(one.tried.on for one in proofs)),
        "proved": _proved(proofs) if is_proved else "",
    }


def _hung(proof: Proof, side: Side, words: Words) -> Figure | None:
    """Give what was hung at a side; None where that was not recorded."""
    hanging = proof.evidence.hanging
    at = hanging.inputs.left if side == "left" else hanging.inputs.right
    return mass(words, at.weight_kg) if side in hanging.hung_at else None


def _proved(proofs: list[Proof]) -> str:
    days = [one.tried.on for one in proofs if one.tried.on]
    return f"proved on {_written(max(days))}" if days else "proved, the day not recorded"


def _written(day: str) -> str:
    return written_day(date.fromisoformat(day))


def _once(texts: Iterable[str | None]) -> list[str]:
    return list(dict.fromkeys(text for text in texts if text))


def _read(way: Way, words: Words) -> Figure | None:
    """Give what was read one way; None where it was not read."""
    if way.read is None:
        return None
    return force(words, way.read.n) if way.read.n > 0.0 else {"own": "by itself", "other": ""}
