"""Softening: what each weight is wanted for by sashes that choose softly, cheap pairs most.

Under given prices a sash leans to every pair that it could have, to the cheapest most: by a factor
e less for each temperature that a pair costs more. So each weight is wanted in part by many, and a
small change of prices changes what is wanted by little, where hard choices would jump.
A weight wanted at both sides of a sash is counted at both: the price bound, not this, is exact.

Source: M. Cuturi, Sinkhorn distances, Advances in Neural Information Processing Systems 26 (2013),
for transport softened so; from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.market import DEAR, FINE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.market import Market
    from evenhung.allot.pricing import Block
    from evenhung.allot.problem import Problem

NEVER = 1e9
"""What stands for a pair that cannot be had [cent]."""

COLDEST = -60.0
"""Least power of e that is told from nothing."""


class _Side(NamedTuple):
    """What one side of every sash is offered, by mass."""

    value: NDArray[np.float64]
    """Softened over all offers [cent]."""
    home: NDArray[np.float64]
    """Share of the weight at home, where there is one."""


class SoftDemand:
    """How much each weight of a problem is wanted.

    Parameters
    ----------
    problem, market, block
        The problem, its market and all its sashes.
    """

    def __init__(self, problem: Problem, market: Market, block: Block) -> None:
        self._market, self._block = market, block
        self._nobody = len(problem.weights)
        self._unserved = float(problem.rules.unserved)
        self._cells = np.repeat(np.arange(len(market.cells)), market.count)
        self._at = block.cells(market)
        barred = block.penalty >= DEAR
        self._penalty = np.where(barred, NEVER, block.penalty / FINE)
        self._apart = block.penalty.shape[2] // 2

    def of(self, price: NDArray[np.float64], temperature: float) -> NDArray[np.float64]:
        """Give how often each weight is wanted.

        Parameters
        ----------
        price
            Of each weight [cent].
        temperature
            How much dearer a pair is that is wanted e times less [cent].
        """
        prices, market = np.append(price, 0.0), self._market
        value = market.cost / FINE + prices[market.weight]
        grid = self._softened(value, temperature)
        sides = [self._side(grid, prices, side, temperature) for side in (0, 1)]
        leaning = self._leanings(sides, temperature)
        wanted, cells = np.zeros(self._nobody + 1), np.zeros(grid.size)
        for side, share in enumerate(leaning):
            home = self._block.homes(side)
            at_home = share[home.row, home.column] * sides[side].home
            wanted += np.bincount(home.weight, at_home, minlength=self._nobody + 1)
            share[home.row, home.column] -= at_home
            cells += np.bincount(self._at[side].reshape(-1), share.reshape(-1), grid.size)
        wanted += self._of_market(value, grid, cells.reshape(grid.shape), temperature)
        return wanted[:-1]

    def _softened(self, value: NDArray[np.float64], temperature: float) -> NDArray[np.float64]:
        """Give the market's offers by row and mass, all ways that fit taken together."""
        market = self._market
        grid = np.full((market.rows, market.width), NEVER)
        if len(value):
            least = np.minimum.reduceat(value, market.start)
            parts = np.exp((least[self._cells] - value) / temperature)
            total = np.add.reduceat(parts, market.start)
            grid.reshape(-1)[market.cells] = least - temperature * np.log(total)
        if market.is_free:
            for row in range(1, market.rows):
                grid[row] = _softer(grid[row], grid[row - 1], temperature)
        return grid

    def _side(
        self,
        grid: NDArray[np.float64],
        prices: NDArray[np.float64],
        side: int,
        temperature: float,
    ) -> _Side:
        value, home = grid.reshape(-1)[self._at[side]], self._block.homes(side)
        own = home.cost / FINE + prices[home.weight]
        both = _softer(value[home.row, home.column], own, temperature)
        value[home.row, home.column] = both
        return _Side(value, np.exp((both - own) / temperature))

    def _leanings(self, sides: list[_Side], temperature: float) -> list[NDArray[np.float64]]:
        """Give how much each sash leans to each mass at its left and at its right."""
        apart, width = self._apart, sides[0].value.shape[1]
        right = np.pad(sides[1].value, ((0, 0), (apart, apart)), constant_values=NEVER)
        pair = np.lib.stride_tricks.sliding_window_view(right, 2 * apart + 1, axis=1)
        pair = pair + sides[0].value[:, :, None] + self._penalty
        least = np.minimum(pair.reshape(len(pair), -1).min(axis=1), self._unserved)
        share = (least[:, None, None] - pair) / temperature
        share = np.exp(np.maximum(share, COLDEST)) * (share > COLDEST)
        alone = np.exp((least - self._unserved) / temperature)
        share /= (share.reshape(len(share), -1).sum(axis=1) + alone)[:, None, None]
        by_right = np.zeros(right.shape)
        for shift in range(2 * apart + 1):
            by_right[:, shift : shift + width] += share[:, :, shift]
        return [share.sum(axis=2), by_right[:, apart : apart + width]]

    def _of_market(
        self,
        value: NDArray[np.float64],
        grid: NDArray[np.float64],
        wanted: NDArray[np.float64],
        temperature: float,
    ) -> NDArray[np.float64]:
        """Pass what is wanted in each row and mass on to the ways that make the offer."""
        market, known = self._market, wanted > 0.0
        power = np.full(grid.shape, -np.inf)
        power[known] = np.log(wanted[known]) + grid[known] / temperature
        if market.is_free:
            for row in range(market.rows - 2, -1, -1):
                power[row] = np.logaddexp(power[row], power[row + 1])
        share = np.exp(power.reshape(-1)[market.cells][self._cells] - value / temperature)
        return np.bincount(market.weight, share, self._nobody + 1).astype(float)


def _softer(
    one: NDArray[np.float64], other: NDArray[np.float64], temperature: float
) -> NDArray[np.float64]:
    """Give what two offers come to together: a little less than the cheaper."""
    return np.asarray(-temperature * np.logaddexp(-one / temperature, -other / temperature))
