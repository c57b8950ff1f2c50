"""The moves in an order that can be done at the bench: no box is filled before it is empty."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.allotment.candidates import place_name

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.allotment.candidates import Candidate
    from evenhung.plan.allotment.outcome import Hanging


class Move(NamedTuple):
    """One step at the bench."""

    what: str
    """`take out`: lay a weight aside; `hang`: hang one; `change`: alter one that stays."""
    weight: Candidate | None
    """None for a new one."""
    hanging: Hanging | None
    """What it is made up to and where; None where it is only laid aside."""

    @property
    def name(self) -> str:
        """Name of the weight; nothing for a new one."""
        return self.weight.name if self.weight else ""


def moves_of(hangings: Sequence[Hanging], idle: Sequence[Candidate]) -> list[Move]:
    """Give the steps that bring a house to an allotment, each possible when its turn comes.

    Parameters
    ----------
    hangings
        What shall hang at every side that is served.
    idle
        The weights that are left over.
    """
    return list(_moves(hangings, idle))


def _moves(hangings: Sequence[Hanging], idle: Sequence[Candidate]) -> Iterator[Move]:
    waiting = {hanging.place.name: hanging for hanging in hangings if hanging.origin != "found"}
    inside = {_home(hanging.weight) for hanging in waiting.values()} - {""}
    for weight in idle:
        if weight.home is not None:
            yield Move("take out", weight, None)
    yield from (
        Move("change", hanging.weight, hanging)
        for hanging in hangings
        if hanging.origin == "found" and not hanging.stays
    )
    while waiting:
        ready = [name for name in waiting if name not in inside]
        if not ready:  # each box that is left holds what another waits for: lay one aside
            name = next(iter(waiting))
            (last,) = (one for one in waiting.values() if _home(one.weight) == name)
            yield Move("take out", last.weight, None)
            inside.discard(name)
            ready = [name]
        for name in ready:
            hanging = waiting.pop(name)
            inside.discard(_home(hanging.weight))
            yield Move("hang", hanging.weight, hanging)


def _home(weight: Candidate | None) -> str:
    if weight is None or weight.home is None:
        return ""
    return place_name(weight.home.sash, weight.home.side)
