"""Shortlists: the cheapest pairs of many sashes at once, from the cheapest few ways to each mass.

To list every pair within a slack takes longer the more weights there are, for each sash and for
all. A shortlist looks at so many ways to each mass, and of those at the ones that could be part of
the cheapest pairs: what it takes for a sash does not grow with the estate.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.columns import Columns, cheapest_by_sash
from evenhung.allot.market import DEAR, FINE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.columns import Priced
    from evenhung.allot.pricing import Block

DEPTH = 96
"""Ways to each mass that are looked at."""

WIDTH = 72
"""Ways at each side of a sash that are looked at."""

WHIM = 4 * FINE
"""Greatest by which a sash likes a way or a pair less than its reduced cost says: where many cost
nearly the same not all shall ask for the same few [1/FINE cent]."""

CROWD = 2000
"""With more sashes than these, so many cost nearly the same."""

AT_ONCE = 256
"""Sashes whose pairs lie in memory together."""


class _Half(NamedTuple):
    """The ways at one side that could be part of the cheapest pairs, by sash."""

    way: NDArray[np.int32]
    """-1 where there is none."""
    weight: NDArray[np.int64]
    mass: NDArray[np.intp]
    """Counted from the least mass of the sash."""
    value: NDArray[np.int64]
    reduced: NDArray[np.int64]


class Shortlists:
    """What is on offer to some sashes while some weights are not for use.

    Parameters
    ----------
    priced
        The problem under prices; reduced costs are by these.
    block
        The sashes.
    usable
        Which weights may be used; new ones may always.
    depth
        Ways to each mass that are looked at.
    """

    def __init__(
        self, priced: Priced, block: Block, usable: NDArray[np.bool_], depth: int = DEPTH
    ) -> None:
        self._priced, self._block = priced, block
        self._random = np.random.default_rng(0)
        self._whim = WHIM if len(priced.least) > CROWD else 0
        self.price = np.where(np.append(usable, True), priced.price, DEAR // 2)
        least, most = int(block.mass.min()), int(block.mass.max())
        market = priced.market
        self.shelves = market.shelves(self.price, depth, (least, most))
        self._completions = block.completions(market.offers(self.price), self.price)

    def columns(
        self, places: NDArray[np.intp], slack: NDArray[np.int64], most: int
    ) -> list[Columns]:
        """Give the columns of some sashes, at most so many each, least reduced cost first.

        Parameters
        ----------
        places
            The sashes, by their place in the block.
        slack
            Greatest reduced cost of each one's columns [1/FINE cent].
        most
            Greatest number of columns of a sash.
        """
        found: list[Columns] = []
        if not len(places):
            return found
        for some in np.array_split(np.arange(len(places)), 1 + len(places) // AT_ONCE):
            found += self._listed(places[some], slack[some], most)
        return found

    def interest(self, slack: int, most: int) -> list[tuple[NDArray[np.int64], NDArray[np.int64]]]:
        """Give the weights that columns of each sash within a slack could use, cheapest first.

        Parameters
        ----------
        slack
            Greatest reduced cost [1/FINE cent].
        most
            Greatest number of weights of a sash.

        Returns
        -------
        list
            For each sash the weights, and the least reduced cost with each [1/FINE cent].
        """
        found, size = [], len(self._block.sashes)
        for places in np.array_split(np.arange(size), 1 + size // AT_ONCE):
            part, most_each = self._block.part(places), np.full(len(places), slack)
            halves = [self._half(part, places, side, most_each) for side in (0, 1)]
            weight = np.concatenate([half.weight for half in halves], axis=1)
            reduced = np.concatenate([half.reduced for half in halves], axis=1)
            is_out = (reduced > slack) | (weight >= self._priced.nobody)
            is_out |= np.concatenate([half.way for half in halves], axis=1) < 0
            for weights, costs, out in zip(weight, reduced, is_out, strict=True):
                own, cost = weights[~out], costs[~out]
                order = np.lexsort((own, cost))
                _, first = np.unique(own[order], return_index=True)
                order = order[np.sort(first)[:most]]
                found.append((own[order], cost[order]))
        return found

    def _whims(self, shape: int | tuple[int, ...]) -> NDArray[np.int64]:
        return self._random.integers(0, self._whim + 1, shape)

    def _listed(
        self, places: NDArray[np.intp], slack: NDArray[np.int64], most: int
    ) -> list[Columns]:
        nobody = self._priced.nobody
        part = self._block.part(places)
        left, right = (self._half(part, places, side, slack) for side in (0, 1))
        apart = part.penalty.shape[2] // 2
        shift = right.mass[:, None, :] - left.mass[:, :, None]
        every = np.arange(len(places))[:, None, None]
        near = np.clip(shift + apart, 0, 2 * apart)
        reduced = part.penalty[every, left.mass[:, :, None], near].astype(np.int64)
        reduced[np.abs(shift) > apart] = DEAR
        reduced += left.value[:, :, None]
        reduced += (right.value - self._priced.least[part.sashes][:, None])[:, None, :]
        is_one = left.weight[:, :, None] == right.weight[:, None, :]
        is_one &= (left.weight < nobody)[:, :, None]
        sash, i, j = np.nonzero((reduced <= slack[:, None, None]) & ~is_one)
        way = np.stack([left.way[sash, i], right.way[sash, j]], axis=1).astype(np.int64)
        weight = np.stack([left.weight[sash, i], right.weight[sash, j]], axis=1)
        found = Columns(way, weight, reduced[sash, i, j])
        liking = found.reduced + self._whims(len(sash))
        return cheapest_by_sash(found, sash, len(places), liking, nobody, most)

    def _half(
        self, part: Block, places: NDArray[np.intp], side: int, slack: NDArray[np.int64]
    ) -> _Half:
        priced = self._priced
        value, way, owner = part.shelved(self.shelves, self.price, side)
        reduced = value.astype(np.int64) + self._completions[side][places][:, :, None]
        reduced -= priced.least[part.sashes][:, None, None]
        depth, flat = value.shape[2], value.reshape(len(places), -1)
        reduced = reduced.reshape(len(places), -1)
        width = min(WIDTH, reduced.shape[1])
        liking = reduced + self._whims(reduced.shape)
        best = np.argpartition(liking, width - 1, axis=1)[:, :width]
        own = np.take_along_axis(reduced, best, axis=1)
        chosen = np.take_along_axis(way.reshape(len(places), -1), best, axis=1)
        is_out = (own > slack[:, None]) | (chosen < 0)
        cost = np.where(is_out, DEAR, np.take_along_axis(flat, best, axis=1))
        weight = np.take_along_axis(owner.reshape(len(places), -1), best, axis=1).astype(np.int64)
        return _Half(chosen, weight, best // depth, cost, own)
