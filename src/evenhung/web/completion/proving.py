"""What is proved of the sashes of a window, held against what was hung in it by then.

A window is planned by itself; what was hung in it may have come from elsewhere in the house.
"""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeAlias

from evenhung.plan import plan_house
from evenhung.plan.completion.house import completion_of
from evenhung.store.parts import Part, document_of
from evenhung.survey import survey_from

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.completion.proof import Proof
    from evenhung.web.plans import Surveyed
    from evenhung.web.records.latest import Standing

Told: TypeAlias = "tuple[tuple[str, str, str], ...]"
"""Of each sash that was tried: its place, the verdict, and why."""

KEPT = 64
"""Windows whose proofs each process keeps whole."""

KEPT_IN_SHORT = 4096
"""Windows of which it keeps the verdicts and reasons: under 1 kB each."""


def was_tried(text: str) -> bool:
    """Tell whether anything was taken down of a window once the work was done.

    Parameters
    ----------
    text
        The window as it is kept.
    """
    return '"completion"' in text and any(
        "completion" in (json.loads(text).get(place) or {}) for place in ("upper", "lower")
    )


class Whole:
    """A house by what is looked up of it: what was hung at each window, and where weights are.

    Parameters
    ----------
    parts
        All parts of the house as they stand.
    """

    def __init__(self, parts: Sequence[Standing]) -> None:
        self.hung: dict[str, list[Standing]] = {}
        """What was hung, by the name that a decision gives the window."""
        self.holders: dict[str, Standing] = {}
        """The part that a weight is in, by every name of the weight."""
        for part in parts:
            kind, body = part.key.kind, part.body
            if kind == "decision" and body["what"] == "hung":
                self.hung.setdefault(body["sash"].rpartition(" ")[0], []).append(part)
            elif kind == "weight":
                self.holders |= dict.fromkeys((part.key.ident, body["tag"]), part)
            elif kind == "window":
                self.holders |= dict.fromkeys(_weights_in(part), part)


def _weights_in(window: Standing) -> Iterator[str]:
    """Give every name of every weight that was found in a window."""
    for place in ("upper", "lower"):
        for side in ("left", "right"):
            weight = window.body.get(place, {}).get(side, {})
            if "id" in weight:
                yield weight["id"]
            for name in (window.key.ident, window.body["tag"]):
                yield f"{name} {place} {side}"


def proofs_of(common: str, window: Standing, whole: Whole) -> dict[str, Proof]:
    """Give the proof of each sash of a window that was tried, by its place.

    Parameters
    ----------
    common
        What holds for every window, as `common_to_windows` gives it.
    window
        The window as it stands.
    whole
        The house that it is in.
    """
    return _kept(common, _hung_at(window, whole)) if was_tried(window.text) else {}


def told_of(common: str, window: Standing, whole: Whole) -> Told:
    """Give the same in short, kept of far more windows: verdicts and reasons."""
    return _in_short(common, _hung_at(window, whole)) if was_tried(window.text) else ()


@lru_cache(maxsize=KEPT_IN_SHORT)
def _in_short(common: str, parts: Surveyed) -> Told:
    proofs = _proofs(common, parts)
    return tuple((place, proof.verdict, proof.reason) for place, proof in proofs.items())


@lru_cache(maxsize=KEPT)
def _kept(common: str, parts: Surveyed) -> dict[str, Proof]:
    return _proofs(common, parts)


def _proofs(common: str, parts: Surveyed) -> dict[str, Proof]:
    """Plan the window, and what its weights came from, as if the house had nothing else."""
    document = document_of(Part(key, _alone(json.loads(text))) for key, text in parts)
    plan = plan_house(survey_from({**json.loads(common), **document}))
    completion, window = completion_of(plan), plan.windows[0]
    if completion is None:
        return {}
    sashes = (window.upper, window.lower)
    proofs = {sash.place: completion.of(sash) for sash in sashes if sash is not None}
    return {place: proof for place, proof in proofs.items() if proof is not None}


def _alone(body: dict[str, Any]) -> dict[str, Any]:
    """Leave out the window that a window is to follow: it need not be there."""
    return {name: value for name, value in body.items() if name != "after"}


def _hung_at(window: Standing, whole: Whole) -> Surveyed:
    """Give the window, the windows and loose weights that its weights came from, what was hung."""
    names = (window.key.ident, window.body["tag"])
    hung = [one for name in dict.fromkeys(names) for one in whole.hung.get(name, ())]
    named = [part.body["weight"] for part in hung if "weight" in part.body]
    others = {holder.key: holder for holder in (whole.holders[name] for name in named)}
    others.pop(window.key, None)
    return tuple((part.key, part.text) for part in (window, *others.values(), *hung))
