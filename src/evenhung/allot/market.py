"""The market: for each limit of length and each mass, the two cheapest offers by different weights.

Costs here are in parts of a cent (`FINE` to the cent), so that prices can move by less than one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.problem import Problem, Rules, Sash
    from evenhung.allot.ways import Ways

FINE = 64
"""Parts of a cent in which prices are reckoned."""

DEAR = 1 << 29
"""What stands for no offer at all; three of them still fit in 32 bits."""

_NOBODY = (DEAR << 32) - 1


class Offers(NamedTuple):
    """The two cheapest ways to each mass; the first axis is the row of the market."""

    value: NDArray[np.int32]
    """Cost and price of the cheapest, moved; `DEAR` where there is none."""
    weight: NDArray[np.int32]
    way: NDArray[np.int32]
    next_value: NDArray[np.int32]
    """The same of the cheapest by another weight."""
    next_weight: NDArray[np.int32]
    next_way: NDArray[np.int32]


class Shelves(NamedTuple):
    """The cheapest few ways to each mass, cheapest first; the first axis is the market's row."""

    value: NDArray[np.int32]
    """Cost and price, moved; `DEAR` where there is none."""
    way: NDArray[np.int32]
    """-1 where there is none."""
    weight: NDArray[np.int32]
    """The number of weights for a new one, and where there is none."""


class Market:
    """All ways of a problem in the rows that its sides look them up in.

    Where no side bars a source, a row is a limit of length, and what fits under one limit is on
    offer under every greater one. Where some do, each side that is unlike the others has a row of
    its own, as wide as the masses that are wanted there.
    """

    def __init__(self, problem: Problem, ways: Ways) -> None:
        self.ways = ways
        self.masses = int(ways.mass.max(initial=0)) + 1
        wanted = _wanted(problem)
        self._row = {side: number for number, side in enumerate(wanted)}
        self.is_free = all(not side.barred for side in wanted)
        if self.is_free:
            cells = _cells_by_limit(ways, wanted, self.masses)
        else:
            cells = _cells_by_side(ways, wanted, len(problem.weights))
        way, cell, self.first_mass, self.width = cells
        order = np.argsort(cell, kind="stable")
        way, cell = way[order], cell[order]
        # No way at all, which `_NOBODY` has, is nobody's: it clashes with none.
        self.owner = np.append(ways.weight, np.int32(len(problem.weights)))
        self._way = way.astype(np.int64)
        self.weight = ways.weight[way]
        is_new = self.weight == len(problem.weights)
        self.cost = FINE * (ways.cost[way].astype(np.int64) + problem.rules.move * ~is_new)
        self.cells, self.start = np.unique(cell, return_index=True)
        self.count = np.diff(self.start, append=len(way))

    @property
    def rows(self) -> int:
        """Number of rows."""
        return len(self._row)

    def row(self, longest: int, barred: frozenset[int]) -> int:
        """Give the row that a side looks its offers up in."""
        return self._row[_Side(barred, longest)]

    def offers(self, price: NDArray[np.int64]) -> Offers:
        """Give the two cheapest offers in every cell.

        Parameters
        ----------
        price
            Price of each weight, and 0 for new ones after the last [1/FINE cent].
        """
        key = (self.cost + price[self.weight]) << 32 | self._way
        best = np.minimum.reduceat(key, self.start) if len(key) else key
        owner = self.owner[best & 0xFFFFFFFF]
        key[self.weight == np.repeat(owner, self.count)] = _NOBODY
        other = np.minimum.reduceat(key, self.start) if len(key) else key
        return self._laid_out(self._spread(best), self._spread(other))

    def shelves(self, price: NDArray[np.int64], depth: int, masses: tuple[int, int]) -> Shelves:
        """Give the cheapest few ways in every cell.

        Parameters
        ----------
        price
            As for `offers`; a weight at half of `DEAR` or more is not for use [1/FINE cent].
        depth
            How many in a cell.
        masses
            The least and the most that is asked for: other cells stay empty [tick].
        """
        cell = np.repeat(self.cells, self.count)
        row, column = np.divmod(cell, self.width)
        value = self.cost + price[self.weight]
        mass = self.ways.mass[self._way]
        kept = (value < DEAR // 2) & (masses[0] <= mass) & (mass <= masses[1])
        row, column, value, way = row[kept], column[kept], value[kept], self._way[kept]
        ends = np.searchsorted(row, np.arange(len(self._row) + 1))
        values = np.full((len(self._row), self.width, depth), DEAR, dtype=np.int32)
        found = np.full(values.shape, -1, dtype=np.int32)
        below = column[:0], value[:0], way[:0]
        for here in range(len(self._row)):
            some = slice(ends[here], ends[here + 1])
            at, cost, own = column[some], value[some], way[some]
            if self.is_free and here:
                # What fits under one limit is on offer under every greater one.
                at = np.concatenate([at, below[0]])
                cost = np.concatenate([cost, below[1]])
                own = np.concatenate([own, below[2]])
            order = np.lexsort((own, cost, at))
            at, cost, own = at[order], cost[order], own[order]
            rank = np.arange(len(at)) - np.searchsorted(at, at)
            few = rank < depth
            below = at[few], cost[few], own[few]
            place = (here, at[few], rank[few])
            values[place], found[place] = below[1:]
        return Shelves(values, found, self.owner[found])

    def _spread(self, key: NDArray[np.int64]) -> NDArray[np.int64]:
        grid = np.full((len(self._row), self.width), _NOBODY)
        grid.reshape(-1)[self.cells] = key
        return grid

    def _laid_out(self, best: NDArray[np.int64], other: NDArray[np.int64]) -> Offers:
        owner = self.owner.take(best & 0xFFFFFFFF, mode="clip")
        if self.is_free:
            _let_through(best, owner, other)
        way, next_way = best & 0xFFFFFFFF, other & 0xFFFFFFFF
        return Offers(
            (best >> 32).astype(np.int32),
            owner,
            way.astype(np.int32),
            (other >> 32).astype(np.int32),
            self.owner.take(next_way, mode="clip"),
            next_way.astype(np.int32),
        )


class _Side(NamedTuple):
    """What tells one side from another."""

    barred: frozenset[int]
    longest: int


class _Cells(NamedTuple):
    """The ways in the cells where they are on offer."""

    way: NDArray[np.intp]
    cell: NDArray[np.intp]
    first_mass: NDArray[np.intp]
    """Mass of the first cell of each row."""
    width: int
    """Cells in a row."""


def _wanted(problem: Problem) -> dict[_Side, tuple[int, int]]:
    """Give the unlike sides, and of each the least and the most mass that is wanted there."""
    wanted: dict[_Side, tuple[int, int]] = {}
    for sash in problem.sashes:
        masses = masses_wanted(problem.rules, sash)
        for barred, longest in zip(sash.barred, sash.longest, strict=True):
            side = _Side(barred, longest)
            least, most = wanted.get(side, masses)
            wanted[side] = min(least, masses[0]), max(most, masses[1])
    order = sorted(wanted, key=lambda side: (side.longest, len(side.barred), sorted(side.barred)))
    return {side: wanted[side] for side in order}


def masses_wanted(rules: Rules, sash: Sash) -> tuple[int, int]:
    """Give the least and the most mass that can hang at a side of a sash."""
    apart = rules.most_difference
    least = (sash.mass + sash.accept.least - apart) // 2
    return max(1, least), (sash.mass + sash.accept.most + apart) // 2


def _cells_by_limit(ways: Ways, wanted: dict[_Side, tuple[int, int]], masses: int) -> _Cells:
    """Put each way under the least limit that it fits under."""
    limits = np.array([side.longest for side in wanted])
    limit = np.searchsorted(limits, ways.length)
    way = np.flatnonzero(limit < len(limits))
    return _Cells(way, limit[way] * masses + ways.mass[way], np.zeros(len(limits), int), masses)


def _cells_by_side(ways: Ways, wanted: dict[_Side, tuple[int, int]], nobody: int) -> _Cells:
    """Put each way in the row of every side that admits it and wants its mass."""
    source = ways.sources(nobody)
    width = max(most - least for least, most in wanted.values()) + 1
    every, cells = [], []
    for row, (side, (least, most)) in enumerate(wanted.items()):
        fits = (ways.mass >= least) & (ways.mass <= most) & (ways.length <= side.longest)
        fits[np.isin(source, list(side.barred))] = False
        way = np.flatnonzero(fits)
        every.append(way)
        cells.append(row * width + ways.mass[way] - least)
    first = np.array([least for least, _ in wanted.values()])
    return _Cells(np.concatenate(every), np.concatenate(cells), first, width)


def _let_through(
    best: NDArray[np.int64], owner: NDArray[np.int32], other: NDArray[np.int64]
) -> None:
    """Let what fits under one limit be on offer under every greater one, in place."""
    for row in range(1, len(best)):
        low, high = row - 1, row
        first = np.minimum(best[low], best[high])
        won = np.where(best[low] <= best[high], owner[low], owner[high])
        rival = np.minimum(other[low], other[high])
        for side in (low, high):
            candidate = np.where(owner[side] == won, _NOBODY, best[side])
            rival = np.minimum(rival, candidate)
        best[row], owner[row], other[row] = first, won, rival
