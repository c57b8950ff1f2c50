"""A draft: an answer in the making, with what each of its parts adds to the gap."""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING

import numpy as np

from evenhung.allot.market import DEAR, FINE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.columns import Priced
    from evenhung.allot.watch import Watch


class Draft:
    """Which pair serves each sash, none to begin with."""

    def __init__(self, priced: Priced) -> None:
        sashes, self.nobody = len(priced.least), priced.nobody
        self.price = priced.price
        self.unserved = FINE * priced.problem.rules.unserved - priced.least
        self.way = np.full((sashes, 2), -1, dtype=np.int64)
        """Left and right; -1 where unserved."""
        self.weight = np.full((sashes, 2), self.nobody, dtype=np.int64)
        self.reduced = self.unserved.copy()
        """Reduced cost of each sash's pair, or of leaving it unserved [1/FINE cent]."""
        self.holder = np.full(self.nobody + 1, -1, dtype=np.int64)
        """The sash that each weight serves; -1 where it is idle."""

    def __copy__(self) -> Draft:
        """Give a draft that starts as this one and goes its own way."""
        twin = Draft.__new__(Draft)
        vars(twin).update({name: copy(kept) for name, kept in vars(self).items()})
        return twin

    def become(self, other: Draft) -> None:
        """Serve every sash as another draft of the same problem does."""
        self.way[:], self.weight[:] = other.way, other.weight
        self.reduced[:], self.holder[:] = other.reduced, other.holder

    def clear(self, sash: int) -> None:
        """Leave a sash unserved."""
        self.holder[self.weight[sash]] = -1
        self.way[sash], self.weight[sash] = -1, self.nobody
        self.reduced[sash] = self.unserved[sash]

    def put(
        self, sash: int, way: NDArray[np.int64], weight: NDArray[np.int64], reduced: int
    ) -> None:
        """Serve an unserved sash by a pair of idle or new weights."""
        self.way[sash], self.weight[sash], self.reduced[sash] = way, weight, reduced
        self.holder[weight] = sash
        self.holder[self.nobody] = -1

    def idle(self) -> NDArray[np.int64]:
        """Give the price of each weight that is idle, and 0 of others [1/FINE cent]."""
        return np.where(self.holder < 0, self.price, 0)

    def gap(self) -> int:
        """Give what the answer costs more than the price bound [1/FINE cent]."""
        return int(self.reduced.sum() + self.idle().sum())


def draft_of(priced: Priced, way: NDArray[np.int64]) -> Draft:
    """Give the draft in which each sash is served by the ways of its row, unserved at -1."""
    draft = Draft(priced)
    for sash in np.flatnonzero(way[:, 0] >= 0).tolist():
        weight = priced.market.ways.weight[way[sash]].astype(np.int64)
        draft.put(sash, way[sash], weight, priced.reduced(sash, way[sash]))
    return draft


LATE_ROUNDS = 5
"""Rounds in which the rest is served though time is up: a second's work for a very large house."""


def serve_rest(priced: Priced, draft: Draft, watch: Watch) -> None:
    """Serve the unserved in rounds: each asks for its cheapest pair of idle weights, dearest first.

    Where two ask for one weight, the sash that would pay more for its cheapest pair has it, and the
    other asks again in the next round. The last to be served would have paid least. Where time is
    up, what is not served after a few rounds stays so.
    """
    waiting = np.argsort(-priced.least, kind="stable")
    waiting = waiting[draft.way[waiting, 0] < 0]
    rounds = 0
    while len(waiting) and not (watch.is_over() and rounds >= LATE_ROUNDS):
        rounds += 1
        price = np.where(draft.holder < 0, priced.price, DEAR // 2)
        price[-1] = 0
        choices = priced.block.choices(priced.market.offers(price), price)
        again = []
        for sash in waiting:
            way, weight = choices.way[sash], choices.weight[sash]
            if way[0] < 0:
                continue
            if (draft.holder[weight] >= 0).any():
                again.append(sash)
                continue
            reduced = int(choices.value[sash] - priced.least[sash])
            draft.put(int(sash), way, weight, reduced)
        waiting = np.array(again, dtype=np.int64)
