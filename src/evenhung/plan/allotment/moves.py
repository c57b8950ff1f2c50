"""The moves in an order that can be done at the bench: no box is filled before it is empty.

A weight that nobody needs elsewhere, and whose place nobody fills, stays in its box: a sash that
cannot be served keeps what it hangs on.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.allotment.candidates import place_name

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from evenhung.plan.allotment.candidates import Candidate
    from evenhung.plan.allotment.outcome import Hanging


class Move(NamedTuple):
    """One step at the bench."""

    what: str
    """`prop`: hold a sash that loses a weight; `take out`: lay a weight aside; `hang`: hang one;
    `change`: alter one that stays."""
    name: str
    """Of the weight, or of the sash to prop; nothing for a new weight."""
    hanging: Hanging | None = None
    """What it is made up to and where; None where nothing is hung."""


def moves_of(hangings: Sequence[Hanging], inside: Mapping[str, str]) -> list[Move]:
    """Give the steps that bring a house to an allotment, each possible when its turn comes.

    Parameters
    ----------
    hangings
        What shall hang at every side that is served.
    inside
        By place, the name of the weight in its box now.
    """
    return list(_moves(hangings, inside))


def _moves(hangings: Sequence[Hanging], inside: Mapping[str, str]) -> Iterator[Move]:
    waiting = {hanging.place.name: hanging for hanging in hangings if hanging.origin != "found"}
    coming = {_home(hanging.weight): place for place, hanging in waiting.items()}
    served = {hanging.place.sash_name for hanging in hangings}
    losing = {place.rpartition(" ")[0] for place in coming if place} - served
    yield from (Move("prop", sash) for sash in sorted(losing))
    full = {place for place in inside if place in coming}
    for place, name in inside.items():
        if place in waiting and place not in coming:
            yield Move("take out", name)
    yield from (
        Move("change", hanging.source, hanging)
        for hanging in hangings
        if hanging.origin == "found" and not hanging.stays
    )
    while waiting:
        ready = [place for place in waiting if place not in full]
        if not ready:  # each box that is left holds what another waits for: lay one aside
            ready = [next(iter(waiting))]
            yield Move("take out", inside[ready[0]])
            full.discard(ready[0])
        for place in ready:
            hanging = waiting.pop(place)
            full.discard(_home(hanging.weight))
            yield Move("hang", hanging.weight.name if hanging.weight else "", hanging)


def _home(weight: Candidate | None) -> str:
    if weight is None or weight.home is None:
        return ""
    return place_name(weight.home.sash, weight.home.side)
