"""What is proved of the sashes of a window, held against what was hung in it by then.

A window is planned by itself; what was hung in it may have come from elsewhere in the house.
"""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from evenhung.plan import plan_house
from evenhung.plan.completion.house import completion_of
from evenhung.store.parts import Key, Part, document_of
from evenhung.survey import survey_from

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.completion.proof import Proof
    from evenhung.web.records.latest import Standing

KEPT = 512
"""Windows whose proofs each process keeps."""


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


def proofs_of(common: str, window: Standing, parts: Sequence[Standing]) -> dict[str, Proof]:
    """Give the proof of each sash of a window that was tried, by its place.

    Parameters
    ----------
    common
        What holds for every window, as `common_to_windows` gives it.
    window
        The window as it stands.
    parts
        All parts of the house as they stand.
    """
    if not was_tried(window.text):
        return {}
    return _proofs(common, tuple((part.key, part.text) for part in _hung_at(window, parts)))


@lru_cache(maxsize=KEPT)
def _proofs(common: str, parts: tuple[tuple[Key, str], ...]) -> dict[str, Proof]:
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


def _hung_at(window: Standing, parts: Sequence[Standing]) -> Iterator[Standing]:
    """Give the window, the windows and loose weights that its weights came from, what was hung."""
    names = {window.key.ident, window.body["tag"]}
    hung = [
        part
        for part in parts
        if part.key.kind == "decision"
        and part.body["what"] == "hung"
        and part.body["sash"].rpartition(" ")[0] in names
    ]
    named = {part.body["weight"] for part in hung if "weight" in part.body}
    others = [part for part in parts if named and part.key != window.key]
    yield window
    yield from (part for part in others if _holds(part, named))
    yield from hung


def _holds(part: Standing, named: set[str]) -> bool:
    """Tell whether a part is one of some weights, or a window that one of them was found in."""
    own = {part.key.ident, part.body.get("tag")}
    if part.key.kind == "weight":
        return bool(own & named)
    if part.key.kind != "window":
        return False
    ids = {
        weight.get("id")
        for place in ("upper", "lower")
        for side in ("left", "right")
        if (weight := part.body.get(place, {}).get(side))
    }
    return bool(ids & named) or any(name.rsplit(" ", 2)[0] in own for name in named)
