"""Columns: the pairs that may serve a sash at a reduced cost within a slack of its cheapest.

The reduced cost of a pair is its cost and prices less those of the sash's cheapest pair. An answer
lies above the price bound by the reduced costs of its pairs and the prices of its idle weights,
exactly; so no pair with a greater reduced cost than that gap is in any better answer.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.market import DEAR, FINE

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from evenhung.allot.market import Market
    from evenhung.allot.pricing import Block
    from evenhung.allot.problem import Problem


LARGE = 50 * FINE
"""Slack beyond which all pairs within it may be millions [1/FINE cent]."""
DIVISORS = (256, 64, 16, 4, 1)
"""In turn, the parts of a large slack in which enough pairs are looked for."""


class Columns(NamedTuple):
    """Pairs of ways for one sash, the cheapest for each pair of weights."""

    way: NDArray[np.int64]
    """Left and right."""
    weight: NDArray[np.int64]
    """Left and right; the number of weights for a new one."""
    reduced: NDArray[np.int64]
    """Reduced cost [1/FINE cent]."""


NOTHING = Columns(np.empty((0, 2), int), np.empty((0, 2), int), np.empty(0, int))
"""No columns."""


class _Half(NamedTuple):
    """Ways at one side that can be part of a column within the slack."""

    way: NDArray[np.int64]
    owner: NDArray[np.int64]
    """Weights; the number of weights for a new one."""
    mass: NDArray[np.intp]
    """Counted from the least mass of the sash."""
    value: NDArray[np.int64]
    reduced: NDArray[np.int64]
    """The least reduced cost of a column with it."""

    def only(self, which: NDArray[np.bool_]) -> _Half:
        """Give some of them."""
        return _Half(*(column[which] for column in self))


class Stock(NamedTuple):
    """The ways of some weights and all new ones, by mass, with their prices."""

    way: NDArray[np.int64]
    mass: NDArray[np.int32]
    length: NDArray[np.int32]
    weight: NDArray[np.int64]
    value: NDArray[np.int64]


class Priced:
    """A problem under fixed prices.

    Parameters
    ----------
    problem, market, block
        The problem, its market and all its sashes.
    price
        Price of each weight, and 0 for new ones after the last [cent].
    """

    def __init__(
        self, problem: Problem, market: Market, block: Block, price: NDArray[np.int64]
    ) -> None:
        self.problem, self.market, self.block = problem, market, block
        self.price = FINE * price
        self.nobody = len(problem.weights)
        offers = market.offers(self.price)
        self.least = block.choices(offers, self.price).value
        self.bound = int(self.least.sum() - self.price.sum())
        self._completions = block.completions(offers, self.price)
        ways = market.ways
        self._source = ways.sources(self.nobody)
        self._first = np.searchsorted(ways.weight, np.arange(self.nobody + 2))
        moved = problem.rules.move * (ways.weight < self.nobody)
        self._value = FINE * (ways.cost.astype(np.int64) + moved) + self.price[ways.weight]
        self._move = FINE * problem.rules.move
        homes = [weight.home or (-1, -1) for weight in problem.weights]
        self._home = np.array([*homes, (-1, -1)], dtype=np.int64)

    def stock(self, weights: NDArray[np.int64]) -> Stock:
        """Lay out the ways of some weights, and all new ones."""
        ways = self.market.ways
        owners = np.append(weights, self.nobody)
        count = self._first[owners + 1] - self._first[owners]
        start = np.repeat(self._first[owners] - np.cumsum(count) + count, count)
        way = start + np.arange(len(start))
        way = way[np.argsort(ways.mass[way], kind="stable")]
        owner = ways.weight[way].astype(np.int64)
        return Stock(way, ways.mass[way], ways.length[way], owner, self._value[way])

    def columns(self, stock: Stock, sash: int, slack: int, most: int) -> Columns:
        """Give the columns of a sash from a stock, at most so many, least reduced cost first.

        Parameters
        ----------
        stock
            What may be used.
        sash
            The sash.
        slack
            Greatest reduced cost [1/FINE cent].
        most
            Greatest number of columns.
        """

        def within(some: int) -> list[Columns]:
            left, right = self._halves(stock, sash, some)
            return [self._paired(sash, left, right, some)]

        return self._cheapest_within(within, slack, most)

    def beside_new(self, stock: Stock, sash: int, slack: int, most: int) -> Columns:
        """Give such columns of at least one new weight: dear, but they set the others free.

        Parameters
        ----------
        stock, sash, slack, most
            As for `columns`.
        """

        def within(some: int) -> list[Columns]:
            old = self._halves(stock, sash, some)
            new = [half.only(half.owner == self.nobody) for half in old]
            pairs = (old[0], new[1]), (new[0], old[1])
            return [self._paired(sash, left, right, some) for left, right in pairs]

        return self._cheapest_within(within, slack, most)

    def _cheapest_within(
        self, within: Callable[[int], list[Columns]], slack: int, most: int
    ) -> Columns:
        """Give the cheapest so many, from a smaller slack where that has as many: it is sooner."""
        divisors = DIVISORS if slack > LARGE else (1,)
        for divisor in divisors:
            found = _cheapest(within(slack // divisor), self.nobody, most)
            if len(found.reduced) >= most:
                break
        return found

    def only_new(self) -> list[Columns]:
        """Give the cheapest column of new weights alone for each sash, if there is one."""
        price = np.append(np.full(self.nobody, DEAR // 2), 0)
        found = self.block.choices(self.market.offers(price), price)
        way, reduced = found.way.astype(np.int64), found.value - self.least
        weight = np.full((1, 2), self.nobody)
        return [
            Columns(way[sash : sash + 1], weight, reduced[sash : sash + 1]) if is_one else NOTHING
            for sash, is_one in enumerate(way[:, 0] >= 0)
        ]

    def needy(self) -> NDArray[np.bool_]:
        """Tell which sashes new weights alone cannot serve."""
        return np.array([len(found.reduced) == 0 for found in self.only_new()])

    def dear(self) -> NDArray[np.bool_]:
        """Tell which weights cost more than any new one of their mass; the last is a new one."""
        rules, weights = self.problem.rules, self.problem.weights
        new = np.array([rules.dearest_new(weight.mass) for weight in weights])
        return np.append(self.price[:-1] > FINE * new, False)

    def _paired(self, sash: int, left: _Half, right: _Half, slack: int) -> Columns:
        """Give every pair of two ways within the slack."""
        apart = self.block.penalty.shape[2] // 2
        shift = right.mass[None, :] - left.mass[:, None]
        near = np.clip(shift + apart, 0, 2 * apart)
        extra = self.block.penalty[sash][left.mass[:, None], near].astype(np.int64)
        extra[np.abs(shift) > apart] = DEAR
        reduced = left.value[:, None] + right.value[None, :] + extra - self.least[sash]
        is_one = (left.owner[:, None] == right.owner[None, :]) & (left.owner < self.nobody)[:, None]
        i, j = np.nonzero((reduced <= slack) & ~is_one)
        way = np.stack([left.way[i], right.way[j]], axis=1)
        weight = np.stack([left.owner[i], right.owner[j]], axis=1)
        return Columns(way, weight, reduced[i, j])

    def reduced(self, sash: int, way: NDArray[np.int64]) -> int:
        """Give the reduced cost of a pair that serves a sash [1/FINE cent]."""
        ways = self.market.ways
        apart = self.block.penalty.shape[2] // 2
        left, right = ways.mass[way] - self.block.mass[sash, 0]
        at_home = (self._home[ways.weight[way]] == [(sash, 0), (sash, 1)]).all(axis=1)
        value = self._value[way].sum() - self._move * at_home.sum()
        return int(value + self.block.penalty[sash, left, right - left + apart] - self.least[sash])

    def value_at(
        self, sashes: NDArray[np.intp], side: int, way: NDArray[np.int64]
    ) -> NDArray[np.int64]:
        """Give cost and price of one way at a side of each of some sashes [1/FINE cent]."""
        home = self._home[self.market.ways.weight[way]]
        at_home = (home[:, 0] == sashes) & (home[:, 1] == side)
        return np.asarray(self._value[way] - self._move * at_home)

    def interest(self, stock: Stock, sash: int, slack: int) -> tuple[NDArray[np.int64], ...]:
        """Give the weights that some column of a sash within the slack uses, cheapest first.

        Returns
        -------
        tuple
            The weights, and the least reduced cost with each [1/FINE cent].
        """
        halves = self._halves(stock, sash, slack)
        weight = np.concatenate([half.owner for half in halves])
        reduced = np.concatenate([half.reduced for half in halves])
        order = np.lexsort((weight, reduced))
        order = order[weight[order] < self.nobody]
        _, first = np.unique(weight[order], return_index=True)
        order = order[np.sort(first)]
        return weight[order], reduced[order]

    def _halves(self, stock: Stock, sash: int, slack: int) -> tuple[_Half, _Half]:
        masses = self.block.mass[sash]
        start, end = np.searchsorted(stock.mass, (masses[0], masses[-1] + 1))
        mass = (stock.mass[start:end] - masses[0]).astype(np.intp)
        home = self._home[stock.weight[start:end]]
        halves, barred = [], self.problem.sashes[sash].barred
        for side, longest in enumerate(self.problem.sashes[sash].longest):
            at_home = (home[:, 0] == sash) & (home[:, 1] == side)
            value = stock.value[start:end] - self._move * at_home
            reduced = value + self._completions[side][sash, mass] - self.least[sash]
            fits = (reduced <= slack) & (stock.length[start:end] <= longest)
            if barred[side]:
                fits &= ~np.isin(self._source[stock.way[start:end]], list(barred[side]))
            kept = np.flatnonzero(fits)
            way, owner = stock.way[start:end][kept], stock.weight[start:end][kept]
            halves.append(_Half(way, owner, mass[kept], value[kept], reduced[kept]))
        return halves[0], halves[1]


def joined(parts: Sequence[Columns]) -> Columns:
    """Put columns of one sash together."""
    return Columns(*(np.concatenate(column) for column in zip(*parts, strict=True)))


def _cheapest(parts: Sequence[Columns], nobody: int, most: int) -> Columns:
    """Keep the cheapest column of each pair of weights, and of those the cheapest so many."""
    found = joined(parts)
    low, high = found.weight.min(axis=1), found.weight.max(axis=1)
    pair = low * (nobody + 1) + high
    order = np.lexsort((found.way[:, 1], found.way[:, 0], found.reduced))
    _, first = np.unique(pair[order], return_index=True)
    order = order[np.sort(first)[:most]]
    return Columns(*(column[order] for column in found))


def cheapest_by_sash(
    found: Columns,
    sash: NDArray[np.intp],
    sashes: int,
    liking: NDArray[np.int64],
    nobody: int,
    most: int,
) -> list[Columns]:
    """Sort columns of several sashes out, least reduced cost first.

    Parameters
    ----------
    found, sash
        The columns, and the sash of each, ascending.
    sashes
        How many sashes.
    liking
        Of the columns of a sash those are kept that have the least of it.
    nobody
        The number of weights.
    most
        Greatest number of columns of a sash.
    """
    low, high = found.weight.min(axis=1), found.weight.max(axis=1)
    pair = low * (nobody + 1) + high
    order = np.lexsort((found.way[:, 1], found.way[:, 0], found.reduced, pair, sash))
    by_pair, by_sash = pair[order], sash[order]
    is_first = np.ones(len(order), dtype=bool)
    is_first[1:] = (by_pair[1:] != by_pair[:-1]) | (by_sash[1:] != by_sash[:-1])
    order = order[is_first]
    order = order[np.lexsort((liking[order], sash[order]))]
    by_sash = sash[order]
    order = order[np.arange(len(order)) - np.searchsorted(by_sash, by_sash) < most]
    order = order[np.lexsort((found.reduced[order], sash[order]))]
    ends = np.searchsorted(sash[order], np.arange(1, sashes))
    parts = [np.split(column[order], ends) for column in found]
    return [Columns(*columns) for columns in zip(*parts, strict=True)]
