"""Pricing: the cheapest pair of ways for every sash of a block, under prices of the weights.

A pair is a mass at the left and a mass at the right. Both are looked up on the market, where every
weight pays its move, and each weight whose home is here is offered besides without.
"""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.market import DEAR, FINE, Shelves, masses_wanted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from evenhung.allot.market import Market, Offers
    from evenhung.allot.problem import Problem, Sash


class Choices(NamedTuple):
    """What each sash of a block would choose."""

    value: NDArray[np.int64]
    """Cost and prices of its choice [1/FINE cent]."""
    weight: NDArray[np.int32]
    """Left and right; the number of weights for a new one, and where it is better left unserved."""
    way: NDArray[np.int32]
    """Left and right; -1 where it is better left unserved."""


class AtHome(NamedTuple):
    """What weights at home offer at one side of the block: row, column, and each one's way."""

    row: NDArray[np.intp]
    column: NDArray[np.intp]
    way: NDArray[np.int32]
    weight: NDArray[np.int32]
    cost: NDArray[np.int64]

    def at(self, row_of: NDArray[np.intp]) -> AtHome:
        """Give those whose rows have a new number; -1 where a row has none."""
        row = row_of[self.row]
        kept = row >= 0
        return AtHome(
            row[kept], self.column[kept], self.way[kept], self.weight[kept], self.cost[kept]
        )


class Block:
    """Some sashes, with all of what does not change with the prices."""

    def __init__(self, problem: Problem, market: Market, sashes: Sequence[int]) -> None:
        self.sashes = np.asarray(sashes, dtype=np.intp)
        rules, chosen = problem.rules, [problem.sashes[sash] for sash in sashes]
        self._unserved = FINE * rules.unserved
        self._nobody = len(problem.weights)
        least, most = np.array([masses_wanted(rules, sash) for sash in chosen]).T
        self.mass = least[:, None] + np.arange(int((most - least).max()) + 1)
        row = [
            [market.row(*place) for place in zip(sash.longest, sash.barred, strict=True)]
            for sash in chosen
        ]
        self._row = np.array(row)[:, :, None]
        column = self.mass[:, None, :] - market.first_mass[self._row]
        self._column = np.clip(column, 0, market.width - 1)
        self.penalty = self._penalties(problem, chosen, market.masses)
        self._at_home = [self._homes(problem, market, side) for side in (0, 1)]

    def _penalties(self, problem: Problem, chosen: list[Sash], masses: int) -> NDArray[np.int32]:
        """Give the penalty of each pair: by sash, left mass, and right less left."""
        rules, apart = problem.rules, problem.rules.most_difference
        wanted = np.array([sash.mass for sash in chosen])[:, None, None]
        band = np.array([(*_ends(sash),) for sash in chosen])[:, :, None, None]
        right = self.mass[:, :, None] + np.arange(-apart, apart + 1)
        excess = self.mass[:, :, None] + right - wanted
        off = np.maximum(np.maximum(band[:, 2] - excess, excess - band[:, 3]), 0)
        cost = FINE * np.where(off > 0, rules.off_fixed + rules.off_per_tick * off, 0)
        accepted = (band[:, 0] <= excess) & (excess <= band[:, 1])
        accepted &= (self.mass[:, :, None] < masses) & (right < masses) & (right > 0)
        closest = np.array([apart if sash.apart is None else sash.apart for sash in chosen])
        accepted &= np.abs(np.arange(-apart, apart + 1)) <= closest[:, None, None]
        return np.where(accepted, cost, DEAR).astype(np.int32)

    def _homes(self, problem: Problem, market: Market, side: int) -> AtHome:
        """Find the ways of the weights whose home is at this side, cheapest for each mass."""
        ways = market.ways
        row_of = {int(sash): row for row, sash in enumerate(self.sashes)}
        home_row = np.full(self._nobody + 1, -1)
        for number, weight in enumerate(problem.weights):
            if weight.home and weight.home[1] == side:
                at_home = problem.sashes[weight.home[0]]
                if number not in at_home.barred[side]:
                    home_row[number] = row_of.get(weight.home[0], -1)
        limit = np.array([problem.sashes[sash].longest[side] for sash in self.sashes])
        way = np.flatnonzero(home_row[ways.weight] >= 0)
        row = home_row[ways.weight[way]]
        column = ways.mass[way] - self.mass[row, 0]
        fits = (ways.length[way] <= limit[row]) & (column >= 0)
        fits &= column < self.mass.shape[1]
        way, row, column = way[fits], row[fits], column[fits]
        # Ways lie by weight, mass and cost: the first of each weight and mass is its cheapest.
        place = ways.weight[way].astype(np.int64) * market.masses + ways.mass[way]
        _, first = np.unique(place, return_index=True)
        way, row, column = way[first], row[first], column[first]
        cost = FINE * ways.cost[way].astype(np.int64)
        return AtHome(row, column, way.astype(np.int32), ways.weight[way], cost)

    def homes(self, side: int) -> AtHome:
        """Give what the weights at home offer at one side."""
        return self._at_home[side]

    def cells(self, market: Market) -> list[NDArray[np.intp]]:
        """Give, for each side, the cell of the market that each sash looks each mass up in."""
        return [self._row[:, side] * market.width + self._column[:, side] for side in (0, 1)]

    def part(self, places: NDArray[np.intp]) -> Block:
        """Give some of its sashes as a block of their own."""
        part = copy.copy(self)
        part.sashes, part.mass = self.sashes[places], self.mass[places]
        part._row, part._column = self._row[places], self._column[places]
        part.penalty = self.penalty[places]
        row_of = np.full(len(self.sashes), -1)
        row_of[places] = np.arange(len(places))
        part._at_home = [home.at(row_of) for home in self._at_home]
        return part

    def choices(self, offers: Offers, price: NDArray[np.int64]) -> Choices:
        """Give the cheapest pair of every sash of the block.

        Parameters
        ----------
        offers
            What the market offers under these prices.
        price
            Price of each weight, and 0 for new ones after the last [1/FINE cent].
        """
        left, right = self.side(offers, price, 0), self.side(offers, price, 1)
        apart = self.penalty.shape[2] // 2
        right_value, right_weight, right_next = (
            shifted(column, apart) for column in (right.value, right.weight, right.next_value)
        )
        total = left.value[:, :, None] + right_value
        # One weight cannot hang at both sides: one of them takes its next best.
        clash = (left.weight[:, :, None] == right_weight) & (right_weight != self._nobody)
        at = np.nonzero(clash)
        by_left = left.next_value[at[:2]] + right_value[at]
        by_right = left.value[at[:2]] + right_next[at]
        total[at] = np.minimum(by_left, by_right)
        total += self.penalty
        best = total.reshape(len(total), -1).argmin(axis=1)
        rows = np.arange(len(total))
        x, shift = np.divmod(best, 2 * apart + 1)
        y = np.clip(x + shift - apart, 0, left.value.shape[1] - 1)
        value = total[rows, x, shift].astype(np.int64)
        clashed = clash[rows, x, shift]
        left_steps = left.next_value[rows, x].astype(np.int64) + right.value[rows, y]
        right_steps = left.value[rows, x].astype(np.int64) + right.next_value[rows, y]
        left_gives_way = clashed & (left_steps <= right_steps)
        lefts = _taken(left, rows, x, left_gives_way)
        rights = _taken(right, rows, y, clashed & ~left_gives_way)
        weight = np.column_stack([lefts[0], rights[0]])
        way = np.column_stack([lefts[1], rights[1]])
        unserved = value >= self._unserved
        weight[unserved], way[unserved] = self._nobody, -1
        return Choices(np.minimum(value, self._unserved), weight, way)

    def completions(
        self, offers: Offers, price: NDArray[np.int64]
    ) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Give, for each sash and mass at either side, the least that the other side adds.

        Returns
        -------
        tuple
            For masses at the left and at the right: price and cost of the cheapest that goes with
            it and the pair's penalty, never too high [1/FINE cent].
        """
        left, right = self.side(offers, price, 0), self.side(offers, price, 1)
        apart = self.penalty.shape[2] // 2
        by_right = (shifted(right.value, apart) + self.penalty).min(axis=2)
        with_left = left.value[:, :, None] + self.penalty
        by_left = np.full(left.value.shape, 2 * DEAR, dtype=np.int64)
        width = left.value.shape[1]
        for shift in range(-apart, apart + 1):
            xs = slice(max(0, -shift), min(width, width - shift))
            ys = slice(max(0, shift), min(width, width + shift))
            by_left[:, ys] = np.minimum(by_left[:, ys], with_left[:, xs, shift + apart])
        return by_right.astype(np.int64), by_left

    def shelved(self, shelves: Shelves, price: NDArray[np.int64], side: int) -> Shelves:
        """Give the cheapest few ways to each mass at a side of each sash, those at home besides.

        They lie by sash, mass and place on the shelf, the last place being that of the weight at
        home.
        """
        at, home = (self._row[:, side], self._column[:, side]), self._at_home[side]
        ends = ((0, 0), (0, 0), (0, 1))
        value = np.pad(shelves.value[at], ends, constant_values=DEAR)
        way = np.pad(shelves.way[at], ends, constant_values=-1)
        weight = np.pad(shelves.weight[at], ends, constant_values=self._nobody)
        # At home it need not pay its move, as it would on the market.
        owner = np.full(len(value), -1, dtype=np.int32)
        owner[home.row] = home.weight
        value[weight == owner[:, None, None]] = DEAR
        value[home.row, home.column, -1] = np.minimum(home.cost + price[home.weight], DEAR)
        way[home.row, home.column, -1] = home.way
        weight[home.row, home.column, -1] = home.weight
        return Shelves(value, way, weight)

    def side(self, offers: Offers, price: NDArray[np.int64], side: int) -> Offers:
        """Look the block's masses up on the market and let the weights at home compete."""
        found = type(offers)(*(grid[self._row[:, side], self._column[:, side]] for grid in offers))
        home = self._at_home[side]
        at = (home.row, home.column)
        bid = (home.cost + price[home.weight]).astype(np.int32)
        best = bid < found.value[at]
        is_owner = found.weight[at] == home.weight
        overtaken = best & ~is_owner
        runner_up = ~best & ~is_owner & (bid < found.next_value[at])
        pushed = (home.row[overtaken], home.column[overtaken])
        for name in ("value", "weight", "way"):
            getattr(found, "next_" + name)[pushed] = getattr(found, name)[pushed]
        for which, prefix in ((best, ""), (runner_up, "next_")):
            place = (home.row[which], home.column[which])
            getattr(found, prefix + "value")[place] = bid[which]
            getattr(found, prefix + "weight")[place] = home.weight[which]
            getattr(found, prefix + "way")[place] = home.way[which]
        return found


def _taken(
    side: Offers,
    row: NDArray[np.intp],
    column: NDArray[np.intp],
    gives_way: NDArray[np.bool_],
) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    """Give the weights and the ways taken at one side."""
    place = (row, column)
    return (
        np.where(gives_way, side.next_weight[place], side.weight[place]),
        np.where(gives_way, side.next_way[place], side.way[place]),
    )


def _ends(sash: Sash) -> tuple[int, int, int, int]:
    return sash.accept.least, sash.accept.most, sash.ideal.least, sash.ideal.most


def shifted(column: NDArray[np.int32], apart: int) -> NDArray[np.int32]:
    """Give, for each row and mass, the values at masses from `apart` less to `apart` more."""
    padded = np.pad(column, ((0, 0), (apart, apart)), constant_values=DEAR)
    return np.lib.stride_tricks.sliding_window_view(padded, 2 * apart + 1, axis=1)
