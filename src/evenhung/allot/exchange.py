"""Exchange: what each side of each sash could have in place of what it has, and what that costs.

The pair's other side stays. A side may take one of some weights at the least that its pair then
costs more, a new one, or one of some that are idle.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.market import DEAR, FINE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.columns import Priced
    from evenhung.allot.draft import Draft
    from evenhung.allot.market import Shelves
    from evenhung.allot.pricing import Block
    from evenhung.allot.shortlist import Shortlists

OTHERS, NEW, IDLE = 48, 1, 8
"""Numbers of weights, of new ones, and of idle ones that a side may take instead."""

KINDS = (slice(0, OTHERS), slice(OTHERS, OTHERS + NEW), slice(OTHERS + NEW, OTHERS + NEW + IDLE))
"""Where they lie."""

AT_ONCE = 256
"""Sashes whose sides lie in memory together."""

WHIM = 1 * FINE
"""Greatest by which a side likes a weight less than it costs: not all shall ask for the same few
[1/FINE cent]."""


class Move(NamedTuple):
    """A sash's other pair."""

    sash: int
    way: NDArray[np.int64]
    """Left and right; -1 where it is left unserved."""
    weight: NDArray[np.int64]
    reduced: int
    """Reduced cost of the pair [1/FINE cent]."""


class _Offers(NamedTuple):
    """What one kind of weights offers."""

    shelves: Shelves
    price: NDArray[np.int64]


class Exchange:
    """The table of what could be had instead.

    Parameters
    ----------
    priced, draft
        The problem under prices, and its answer so far.
    lists
        What is on offer to all sashes.
    """

    def __init__(self, priced: Priced, draft: Draft, lists: Shortlists) -> None:
        self._priced, self._draft = priced, draft
        self._random = np.random.default_rng(0)
        shape = (len(draft.reduced), 2, KINDS[-1].stop)
        self.to = np.full(shape, priced.nobody, dtype=np.int32)
        """The weight; the number of weights for a new one."""
        self.way = np.full(shape, -1, dtype=np.int32)
        self.more = np.full(shape, DEAR, dtype=np.int32)
        """What the pair costs more, prices included; `DEAR` where nothing is on offer
        [1/FINE cent]."""
        self._others = _Offers(lists.shelves, lists.price)
        self._new = self._offers(np.zeros(priced.nobody, dtype=bool), NEW)
        self.look_afresh()

    def look_afresh(self) -> None:
        """Find what all sides could have, the weights that are idle by now among them."""
        self._idle = self._offers(self._draft.holder[:-1] < 0, IDLE)
        self.look(np.arange(len(self._draft.reduced)))

    def look(self, sashes: NDArray[np.intp]) -> None:
        """Find what the sides of some sashes could have."""
        served = sashes[self._draft.way[sashes, 0] >= 0]
        self.more[sashes] = DEAR
        for some in np.array_split(served, -(-len(served) // AT_ONCE)) if len(served) else ():
            part = self._priced.block.part(some)
            for side in (0, 1):
                base = self._beside_partner(part, some, side)
                for kind, offers in zip(KINDS, (self._others, self._new, self._idle), strict=True):
                    self._take(part, some, side, kind, offers, base)

    def move(self, sash: int, side: int, which: int) -> Move:
        """Give the pair in which a side has what lies at a place of the table."""
        draft = self._draft
        way, weight = draft.way[sash].copy(), draft.weight[sash].copy()
        way[side], weight[side] = self.way[sash, side, which], self.to[sash, side, which]
        more = int(self.more[sash, side, which])
        return Move(sash, way, weight, int(draft.reduced[sash]) + more)

    def _offers(self, usable: NDArray[np.bool_], depth: int) -> _Offers:
        priced = self._priced
        price = np.where(np.append(usable, True), priced.price, DEAR // 2)
        if depth == IDLE:
            price[-1] = DEAR // 2
        return _Offers(priced.market.shelves(price, depth, (0, priced.market.masses)), price)

    def _beside_partner(self, part: Block, some: NDArray[np.intp], side: int) -> NDArray[np.int64]:
        """Give what each mass at a side makes the pair cost more, without the weight itself."""
        priced, draft = self._priced, self._draft
        partner = draft.way[some, 1 - side]
        own = (priced.market.ways.mass[partner] - part.mass[:, 0])[:, None]
        mass = np.broadcast_to(np.arange(part.mass.shape[1]), part.mass.shape)
        left, right = (mass, own) if side == 0 else (own, mass)
        apart = part.penalty.shape[2] // 2
        near = right - left + apart
        left = np.broadcast_to(left, mass.shape)
        every = np.arange(len(some))[:, None]
        extra = part.penalty[every, left, np.clip(near, 0, 2 * apart)].astype(np.int64)
        extra[(near < 0) | (near > 2 * apart)] = DEAR
        paid = priced.value_at(some, 1 - side, partner) - priced.least[some] - draft.reduced[some]
        return np.asarray(extra + paid[:, None])

    def _take(
        self,
        part: Block,
        some: NDArray[np.intp],
        side: int,
        kind: slice,
        offers: _Offers,
        base: NDArray[np.int64],
    ) -> None:
        """Put the cheapest of one kind into the table."""
        nobody, held = self._priced.nobody, self._draft.weight[some]
        value, way, owner = part.shelved(offers.shelves, offers.price, side)
        more = (value + base[:, :, None]).reshape(len(some), -1)
        way = way.reshape(len(some), -1)
        owner = owner.reshape(len(some), -1)
        none = (way < 0) | (value.reshape(more.shape) >= DEAR // 2)
        none |= (owner < nobody) & ((owner == held[:, :1]) | (owner == held[:, 1:]))
        more[none] = DEAR
        liking = more + self._random.integers(0, WHIM, more.shape) if kind.start == 0 else more
        count = kind.stop - kind.start
        best = np.argpartition(liking, count - 1, axis=1)[:, :count]
        more = np.minimum(np.take_along_axis(more, best, axis=1), DEAR)
        owner = np.take_along_axis(owner, best, axis=1)
        self.more[some, side, kind] = more
        self.to[some, side, kind] = np.where(more < DEAR // 2, owner, nobody)
        self.way[some, side, kind] = np.take_along_axis(way, best, axis=1)
