"""Prices: raise the price bound by accelerated steps along what too many or too few sashes choose.

The price bound is what all sashes would pay, each choosing freely at these prices, less the prices
of all weights. It never exceeds the cost of an answer, whatever the prices. A weight that k sashes
choose is priced up by k - 1 steps; the steps fall geometrically and each move carries momentum.

Sources: B. T. Polyak, Introduction to Optimization (1987), for subgradients with falling steps;
Y. Nesterov, Soviet Mathematics Doklady 27 (1983) 372, for looking ahead along the last move. Both
from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.market import FINE

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from evenhung.allot.market import Market
    from evenhung.allot.pricing import Block, Choices
    from evenhung.allot.problem import Problem
    from evenhung.allot.watch import Watch


SHARE = 0.7
"""Prices start at this share of what a new weight costs (measured: near where they end)."""

ROOM, HOUSE = 60, 400
"""Numbers of sashes up to which other steps suit better (measured)."""


class Schedule(NamedTuple):
    """How far and how fast the prices move."""

    epochs: int
    first_step: float
    """[cent]"""
    last_step: float
    """[cent]"""
    momentum: float


NEAR = Schedule(100, 0.1, 0.01, 0.8)
"""Steps for prices that are balanced already."""


class Prices(NamedTuple):
    """Prices in whole cents, and what they prove."""

    price: NDArray[np.int64]
    """Of each weight, and 0 for new ones after the last [cent]."""
    bound: int
    """No answer costs less [cent]."""
    epochs: int


def schedule_for(problem: Problem) -> Schedule:
    """Give steps that suit the size: the more sashes, the more of them choose the same weight."""
    sashes = len(problem.sashes)
    if sashes <= ROOM:
        return Schedule(200, 100.0, 0.5, 0.95)
    if sashes <= HOUSE:
        return Schedule(1000, 10.0, 0.05, 0.98)
    return Schedule(1500, 6.0, 0.06, 0.95)


def later_schedule(problem: Problem) -> Schedule:
    """Give steps for prices that are nearly right already."""
    first = schedule_for(problem)
    return Schedule(first.epochs // 3, first.first_step / 4.0, first.last_step, first.momentum)


def last_schedule(problem: Problem) -> Schedule:
    """Give steps for prices that are right but for some that must still go far."""
    last = schedule_for(problem).last_step
    return Schedule(200, 10.0 * last, last, 0.95)


def first_prices(problem: Problem) -> NDArray[np.float64]:
    """Give a start: a share of what a new weight of the same mass costs in the cheapest metal."""
    mass = np.array([weight.mass for weight in problem.weights], dtype=float)
    metals = problem.rules.metals
    if not metals:
        return np.zeros(len(mass))
    new: NDArray[np.float64] = np.min(
        [metal.fixed + metal.per_tick * mass for metal in metals], axis=0
    )
    return SHARE * new


def bound_of(market: Market, block: Block, price: NDArray[np.int64]) -> tuple[int, Choices]:
    """Give the price bound [1/FINE cent] and the choices it comes from.

    Parameters
    ----------
    market
        The market.
    block
        All sashes of the problem.
    price
        Price of each weight, and 0 for new ones after the last [1/FINE cent].
    """
    choices = block.choices(market.offers(price), price)
    return int(choices.value.sum() - price.sum()), choices


def ascend(
    market: Market,
    block: Block,
    start: NDArray[np.float64],
    schedule: Schedule,
    watch: Watch,
    tell_bound: Callable[[float], None],
) -> Prices:
    """Move the prices up the bound and give the best met, in whole cents."""
    weights = len(start)
    price, last, epoch = start, start, 0
    best = (-(1 << 62), np.zeros(weights + 1, dtype=np.int64))
    fall = (schedule.last_step / schedule.first_step) ** (1.0 / max(1, schedule.epochs - 1))
    for epoch in range(1, schedule.epochs + 1):
        step = schedule.first_step * fall ** (epoch - 1)
        ahead = np.maximum(price + schedule.momentum * (price - last), 0.0)
        fine = np.append(np.rint(FINE * ahead), 0.0).astype(np.int64)
        bound, choices = bound_of(market, block, fine)
        best = max(best, (bound, fine), key=lambda found: found[0])
        wanted = np.bincount(choices.weight.reshape(-1), minlength=weights + 1)[:weights]
        price, last = np.maximum(ahead + step * (wanted - 1.0), 0.0), price
        if epoch % 50 == 0:
            tell_bound(best[0] / FINE)
        if watch.is_over():
            break
    return in_whole_cents(market, block, best[1], epoch)


def in_whole_cents(market: Market, block: Block, fine: NDArray[np.int64], epochs: int) -> Prices:
    """Round prices to whole cents and give the bound that those prove."""
    price = (fine + FINE // 2) // FINE
    bound, _ = bound_of(market, block, FINE * price)
    return Prices(price, -(-bound // FINE), epochs)
