"""The market: for each limit of length and each mass, the two cheapest offers by different weights.

Sides that bar the same sources go to one stall; there, what fits under a limit is on offer under
every greater one.

Costs here are in parts of a cent (`FINE` to the cent), so that prices can move by less than one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.problem import Problem
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


class Market:
    """All ways of a problem at the stalls that its sides go to."""

    def __init__(self, problem: Problem, ways: Ways) -> None:
        self.ways = ways
        self.masses = int(ways.mass.max(initial=0)) + 1
        limits: dict[frozenset[int], set[int]] = {}
        for sash in problem.sashes:
            for barred, limit in zip(sash.barred, sash.longest, strict=True):
                limits.setdefault(barred, set()).add(limit)
        kept = sorted(limits, key=lambda barred: (len(barred), sorted(barred)))
        self._stalls = [
            _Stall(problem, ways, self.masses, np.array(sorted(limits[barred])), barred)
            for barred in kept
        ]
        rows = np.cumsum([0, *(len(limits[barred]) for barred in kept)])
        self._first_row = dict(zip(kept, rows.tolist(), strict=False))
        self._limits = {barred: sorted(limits[barred]) for barred in kept}

    def row(self, longest: int, barred: frozenset[int]) -> int:
        """Give the row that a side looks its offers up in."""
        return int(self._first_row[barred]) + self._limits[barred].index(longest)

    def offers(self, price: NDArray[np.int64]) -> Offers:
        """Give the two cheapest offers in every cell.

        Parameters
        ----------
        price
            Price of each weight, and 0 for new ones after the last [1/FINE cent].
        """
        found = [stall.offers(price) for stall in self._stalls]
        if len(found) == 1:
            return found[0]
        return Offers(*(np.concatenate(grids) for grids in zip(*found, strict=True)))


class _Stall:
    """The ways that some sides may use, sorted into cells of a limit and a mass."""

    def __init__(
        self,
        problem: Problem,
        ways: Ways,
        masses: int,
        limits: NDArray[np.int64],
        barred: frozenset[int],
    ) -> None:
        self.limits, self.masses = limits, masses
        limit = np.searchsorted(limits, ways.length)
        cell = limit * masses + ways.mass
        admitted = ~np.isin(ways.sources(len(problem.weights)), list(barred))
        here = np.flatnonzero((limit < len(limits)) & admitted)
        here = here[np.argsort(cell[here], kind="stable")]
        # No way at all, which `_NOBODY` has, is nobody's: it clashes with none.
        self._owner = np.append(ways.weight, np.int32(len(problem.weights)))
        self._way = here.astype(np.int64)
        self._weight = ways.weight[here]
        is_new = self._weight == len(problem.weights)
        self._cost = FINE * (ways.cost[here].astype(np.int64) + problem.rules.move * ~is_new)
        self._cells, self._start = np.unique(cell[here], return_index=True)
        self._count = np.diff(self._start, append=len(here))

    def offers(self, price: NDArray[np.int64]) -> Offers:
        """Give the two cheapest offers in every cell."""
        key = (self._cost + price[self._weight]) << 32 | self._way
        best = np.minimum.reduceat(key, self._start)
        owner = self._owner[best & 0xFFFFFFFF]
        key[self._weight == np.repeat(owner, self._count)] = _NOBODY
        other = np.minimum.reduceat(key, self._start)
        return self._under_each_limit(self._spread(best), self._spread(other))

    def _spread(self, key: NDArray[np.int64]) -> NDArray[np.int64]:
        grid = np.full((len(self.limits), self.masses), _NOBODY)
        grid.reshape(-1)[self._cells] = key
        return grid

    def _under_each_limit(self, best: NDArray[np.int64], other: NDArray[np.int64]) -> Offers:
        """Let what fits under one limit be on offer under every greater one, in place."""
        owner = self._owner.take(best & 0xFFFFFFFF, mode="clip")
        for row in range(1, len(best)):
            low, high = row - 1, row
            first = np.minimum(best[low], best[high])
            won = np.where(best[low] <= best[high], owner[low], owner[high])
            rival = np.minimum(other[low], other[high])
            for side in (low, high):
                candidate = np.where(owner[side] == won, _NOBODY, best[side])
                rival = np.minimum(rival, candidate)
            best[row], owner[row], other[row] = first, won, rival
        way, next_way = best & 0xFFFFFFFF, other & 0xFFFFFFFF
        return Offers(
            (best >> 32).astype(np.int32),
            owner,
            way.astype(np.int32),
            (other >> 32).astype(np.int32),
            self._owner.take(next_way, mode="clip"),
            next_way.astype(np.int32),
        )
