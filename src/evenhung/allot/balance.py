"""Balance: prices at which every weight is wanted once, found among sashes that choose softly.

A weight that is wanted more than once becomes dearer, one that is wanted less cheaper, by a share
of the logarithm; then the temperature falls, until choices are hard. So prices of thousands settle
together in a few hundred rounds, whatever the number of sashes.
What is short of all weights of a mass, and of those like them, would settle slowest: what the
sashes take instead passes on from mass to mass. Therefore prices also move in common, over ranges
of mass from a narrow one to the whole, in strides that grow while they go one way.

Sources: M. Riedmiller, H. Braun, IEEE International Conference on Neural Networks (1993) 586-591,
for such strides; A. Brandt, Mathematics of Computation 31 (1977) 333-390, for ranges of many
widths. Both from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.ascent import in_whole_cents
from evenhung.allot.market import FINE
from evenhung.allot.softening import SoftDemand

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from evenhung.allot.ascent import Prices
    from evenhung.allot.market import Market
    from evenhung.allot.pricing import Block
    from evenhung.allot.problem import Problem
    from evenhung.allot.watch import Watch

HOTTEST, COLDEST = 512.0, 0.2
"""First and last temperature [cent]."""

ROUNDS = 100
"""Rounds at each temperature; each is half the one before."""

SHARE, MOMENTUM = 0.5, 0.8
"""Share of the temperature by which a price moves, and of its last move that it moves besides."""

LEAST_WANTED, MOST_WANTED = 0.01, 100.0
"""What is wanted is taken to lie between these, or one strange weight would leap."""

RANGES = (24, 12, 6, 3, 1)
"""Numbers of ranges that the masses are divided into."""

GROW, SHRINK = 1.3, 0.45
"""By what a stride grows where it goes the same way again, and shrinks where it turns."""

EVEN, WHOLE_STRIDE = 2e-4, 3e-3
"""What is wanted too much or too little: nothing to speak of; so much that it takes a stride."""


def balance(
    problem: Problem,
    market: Market,
    block: Block,
    start: NDArray[np.float64],
    watch: Watch,
    tell_bound: Callable[[float], None],
) -> Prices:
    """Give prices in whole cents at which every weight is wanted about once."""
    demand, strides = SoftDemand(problem, market, block), _Strides(problem)
    price, last = start, start
    temperature, rounds = HOTTEST, 0
    best = in_whole_cents(market, block, _fine(start), 0)
    while temperature >= COLDEST and not watch.is_over():
        for _ in range(ROUNDS):
            if watch.is_over():
                break
            rounds += 1
            ahead = np.maximum(price + MOMENTUM * (price - last), 0.0)
            wanted = demand.of(ahead, temperature)
            move = np.log(np.clip(wanted, LEAST_WANTED, MOST_WANTED))
            alone = np.maximum(ahead + SHARE * temperature * move, 0.0)
            moved = np.maximum(alone + strides.common(wanted, ahead, temperature), 0.0)
            # What is moved in common is no part of the momentum.
            price, last = moved, np.maximum(price + moved - alone, 0.0)
        found = in_whole_cents(market, block, _fine(price), rounds)
        best = max(best, found, key=lambda prices: prices.bound)
        tell_bound(best.bound)
        temperature /= 2.0
    return best


def _fine(price: NDArray[np.float64]) -> NDArray[np.int64]:
    return np.append(np.rint(FINE * price), 0.0).astype(np.int64)


class _Level(NamedTuple):
    """A division of the masses: each weight lies between two knots."""

    knot: NDArray[np.intp]
    """The lighter."""
    beyond: NDArray[np.float64]
    """How far towards the heavier, from 0 to 1."""
    knots: int

    def sums(self, values: NDArray[np.float64]) -> NDArray[np.float64]:
        """Share the values out to the knots."""
        low = np.bincount(self.knot, values * (1.0 - self.beyond), self.knots)
        high = np.bincount(self.knot + 1, values * self.beyond, self.knots)
        return np.asarray(low + high, dtype=float)

    def between(self, at_knots: NDArray[np.float64]) -> NDArray[np.float64]:
        """Give what lies between the knots."""
        low, high = at_knots[self.knot], at_knots[self.knot + 1]
        return np.asarray(low + (high - low) * self.beyond)


class _Strides:
    """How far prices of weights of like mass go in common."""

    def __init__(self, problem: Problem) -> None:
        mass = np.array([weight.mass for weight in problem.weights], dtype=float)
        self._levels = []
        for ranges in RANGES:
            place = ranges * (mass - mass.min()) / max(1.0, float(np.ptp(mass)))
            knot = np.minimum(place.astype(np.intp), ranges - 1)
            self._levels.append(_Level(knot, place - knot, ranges + 1))
        self._stride = [np.full(level.knots, 0.3 * HOTTEST) for level in self._levels]
        self._way = [np.zeros(level.knots) for level in self._levels]

    def common(
        self, wanted: NDArray[np.float64], price: NDArray[np.float64], temperature: float
    ) -> NDArray[np.float64]:
        """Give by what each price moves in common with others [cent]."""
        priced = price > 0.0
        # What costs nothing may be wanted less than once.
        excess = np.where(priced, wanted - 1.0, np.maximum(wanted - 1.0, 0.0))
        total = np.zeros(len(price))
        for number, level in enumerate(self._levels):
            short = level.sums(excess) / np.maximum(level.sums(priced.astype(float)), 1.0)
            way = np.sign(short) * (np.abs(short) > EVEN)
            same = way * self._way[number]
            factor = np.where(same > 0, GROW, np.where(same < 0, SHRINK, 1.0))
            stride = np.clip(
                factor * self._stride[number], 0.02 * temperature, 20.0 * (temperature + 1.0)
            )
            self._stride[number], self._way[number] = stride, way
            far = np.minimum(1.0, np.abs(short) / WHOLE_STRIDE)
            total += level.between(way * stride * far)
        return np.where(priced, total, 0.0)
