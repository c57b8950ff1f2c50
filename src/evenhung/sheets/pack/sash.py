"""One sash as plain data, for every sheet: as found, what it shall hang on, what comes of it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.plan.assumed import assumed
from evenhung.plan.facts import known
from evenhung.plan.takeoff.cords import line_of
from evenhung.sheets.pack.cords import may_stay
from evenhung.sheets.pack.figures import Figure, breakable, force, length, mass
from evenhung.sheets.pack.sides import side_data, sides_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan
    from evenhung.plan.proposal import Proposal
    from evenhung.plan.words import Words
    from evenhung.sheets.pack.house import PackHouse


def sash_data(house: PackHouse, sash: SashPlan) -> dict[str, object]:
    """Give a sash as plain data; what is not known is None.

    Parameters
    ----------
    house
        The house it is in.
    sash
        The sash.
    """
    words, proposal = house.words, sash.proposal
    found = sash.found.hang if sash.found else None
    return {
        "place": sash.place,
        "runs": sash.sash.is_running,
        "verdict": sash.judgement.verdict,
        "reason": breakable(sash.judgement.reason),
        "mass": mass(words, sash.mass.kg),
        "mass_from": sash.mass.found,
        "spread": mass(words, sash.mass.deviation_kg),
        "pair_found": mass(words, found.pair_kg) if found else None,
        "pair_best": mass(words, found.pair_best_kg) if found else None,
        "sides": [side_data(side, words) for side in sides_of(house, sash)],
        "pair": mass(words, proposal.hang.pair_kg) if proposal else None,
        "nothing": breakable(_why_nothing(house, sash)),
        "cord": cord_data(house, sash, proposal) if proposal else None,
        "top_clear": length(words, proposal.hang.top_clear_mm) if proposal else None,
        "bottom_clear": length(words, proposal.hang.bottom_clear_mm) if proposal else None,
        "raise": _hand(words, proposal.hang.raise_n) if proposal else None,
        "lower": _hand(words, proposal.hang.lower_n) if proposal else None,
        "stays": _STAYS[proposal.facts.stays_put] if proposal else "",
        "cautions": [
            breakable(note.text) for note in sash.notes if note.severity in ("fault", "caution")
        ],
        "assumed": [
            breakable(_granted(note.text)) for note in sash.notes if note.code == "assumed"
        ],
        "unchecked": [breakable(said) for said in _unchecked(sash)],
    }


_STAYS = {
    True: "stays where it is put",
    False: "does not stay where it is put",
    None: "stays where it is put if the runs are stiff enough",
}


def _hand(words: Words, force_n: float) -> Figure | None:
    """Give a force by hand; one of nought or less says that it moves by itself."""
    if known(force_n) is None:
        return None
    return force(words, force_n) if force_n > 0.0 else {"own": "by itself", "other": ""}


def _granted(text: str) -> str:
    return text.replace(" taken as ", " ", 1)


def _unchecked(sash: SashPlan) -> Iterator[str]:
    """Give what was not checked, and for want of what."""
    for note in sash.notes:
        what, is_said, why = note.text.partition(" not checked: ")
        if is_said:
            yield f"{what} ({why})"


def _why_nothing(house: PackHouse, sash: SashPlan) -> str:
    """Say why a sash has nothing to hang on; empty where it has."""
    if sash.proposal is not None:
        return ""
    reason = house.unserved.get((sash.window.tag, sash.place))
    return reason or sash.judgement.reason


def cord_data(house: PackHouse, sash: SashPlan, proposal: Proposal) -> dict[str, object] | None:
    """Give the cord of a sash, with its marks and how it is fixed; None where none can be given."""
    hang, inputs, words = proposal.hang, proposal.inputs, house.words
    if known(hang.working_mm) is None:
        return None
    nails = sash.sash.nails
    count = nails.count or int(assumed("joinery/cord nails/per_side").value)
    return {
        "line": line_of(sash),
        "cut": length(words, hang.cut_mm),
        "slack": length(words, hang.mark_slack_mm),
        "taut": length(words, hang.working_mm),
        "across": length(words, inputs.cord_mm),
        "end": length(words, sash.sash.cord_end.mm if sash.sash.cord_end else math.nan),
        "nail": length(words, inputs.top_nail_mm),
        "nails": count,
        "nails_assumed": nails.count is None,
        "nail_long": length(words, nails.length.mm if nails.length else math.nan),
        "knotted": sash.sash.anchorage == "knotted",
        "is_optional": may_stay(house, sash),
    }
