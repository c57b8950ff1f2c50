"""The hours of a whole job as a distribution, summed numerically and not drawn at random.

Given the pace of the whole job, operations are independent of each other, and so are the tasks of
one operation once its own pace is given: tasks are summed by fast Fourier transform, spread by the
operation's own pace, operations are summed in the same way, and the whole is spread by the pace of
the job. Were every task taken as independent of every other, forty of them would seem to cancel
each other's errors out, and the price would look far surer than it is.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.plan.price.three_point import ThreePoint, masses_on_grid

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from evenhung.plan.price.pace import OwnPace, Pace
    from evenhung.plan.work import Operation

STEPS = 4095
"""Steps of the grid on which operations are summed: its points are a power of two, for speed."""

STEPS_A_TASK = 16
"""Steps, at the least, over which one task of an operation is spread."""

WIDEST = 4.5
"""Standard deviations of a pace that are looked at, either way."""

NODES = 91
"""Values of a pace that are looked at."""


class Tasks(NamedTuple):
    """All tasks of one operation."""

    hours: ThreePoint
    """For one of it [h]."""
    quantities: tuple[float, ...]
    """Of each task."""

    @property
    def mean(self) -> float:
        """Hours to be expected at the usual pace [h]."""
        return self.hours.mean * sum(self.quantities)


class Spread(NamedTuple):
    """A distribution of hours."""

    hours: NDArray[np.float64]
    """Rising, evenly spaced [h]."""
    chance: NDArray[np.float64]
    """Chance that no more are needed [1]."""

    def at(self, chance: float) -> float:
        """Hours that are enough with a chance [h]."""
        return float(np.interp(chance, self.chance, self.hours))

    def chance_of(self, hours: float) -> float:
        """Chance that some hours are enough [1]."""
        return float(np.interp(hours, self.hours, self.chance))

    @property
    def mean(self) -> float:
        """Hours to be expected [h]."""
        return float(self._moment(1))

    @property
    def deviation(self) -> float:
        """Standard deviation [h]."""
        return math.sqrt(max(0.0, self._moment(2) - self.mean**2))

    def _moment(self, power: int) -> float:
        middle = (self.hours[1:] + self.hours[:-1]) / 2.0
        at_once = self.chance[0] * self.hours[0] ** power
        return float(np.diff(self.chance) @ middle**power + at_once)


def total_hours(tasks: Mapping[Operation, Tasks], pace: Pace) -> Spread:
    """Give the hours of a job.

    Parameters
    ----------
    tasks
        By operation; the tasks of one share its pace.
    pace
        What is known of the pace.

    Returns
    -------
    Spread
        Of all tasks together [h].
    """
    if not tasks:
        return Spread(np.array([0.0, 1e-9]), np.array([1.0, 1.0]))
    top = sum(_most(one, pace.of(operation)) for operation, one in tasks.items())
    top *= math.exp(pace.whole.mean + WIDEST * math.sqrt(pace.whole.variance))
    grid = np.linspace(0.0, top, STEPS + 1)
    apart = [_with_own_pace(one, pace.of(operation), grid) for operation, one in tasks.items()]
    slopes = [pace.of(operation).slope for operation in tasks]
    whole, weights = _nodes(pace.whole.mean, pace.whole.variance)
    chance = sum(
        weight * _summed(apart, [math.exp((1.0 - slope) * h) for slope in slopes], grid)
        for h, weight in zip(whole, weights, strict=True)
    )
    return Spread(grid, np.minimum(1.0, np.maximum.accumulate(np.asarray(chance))))


def _most(tasks: Tasks, own: OwnPace) -> float:
    """Give hours beyond which an operation hardly ever goes at the usual pace of the job [h]."""
    slowest = math.exp(own.at_zero + WIDEST * math.sqrt(own.variance))
    return tasks.hours.most * sum(tasks.quantities) * slowest


def _nodes(mean: float, variance: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give values of a normal variable, evenly spaced, with their weights."""
    z = np.linspace(-WIDEST, WIDEST, NODES)
    weights = np.exp(-(z**2) / 2.0)
    return mean + math.sqrt(variance) * z, weights / weights.sum()


def _with_own_pace(tasks: Tasks, own: OwnPace, grid: NDArray[np.float64]) -> NDArray[np.float64]:
    """Give the chances of an operation's hours, at the job's usual pace, on a grid."""
    hours, chance = _sum_of_tasks(tasks)
    paces, weights = _nodes(own.at_zero, own.variance)
    asked = grid[None, :] * np.exp(-paces)[:, None]
    return np.asarray(weights @ np.interp(asked, hours, chance, left=0.0, right=1.0))


def _sum_of_tasks(tasks: Tasks) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Give the chances of the sum of independent tasks, with the hours they belong to [h]."""
    counts = Counter(tasks.quantities)
    longest = tasks.hours.most * max(counts)
    most = tasks.hours.most * sum(tasks.quantities)
    size = 2 ** math.ceil(math.log2(max(STEPS, STEPS_A_TASK * most / longest)))
    step = most / (size - 2 * len(tasks.quantities) - 2)
    product = np.ones(size // 2 + 1, dtype=np.complex128)
    for quantity, count in counts.items():
        product *= np.fft.rfft(masses_on_grid(tasks.hours, quantity, step), size) ** count
    masses = np.maximum(0.0, np.fft.irfft(product, size))
    chance = np.cumsum(masses) / masses.sum()
    return (np.arange(size) + 0.5) * step, chance


def _summed(
    apart: Sequence[NDArray[np.float64]], scales: Sequence[float], grid: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Give the chances of the sum of operations, each as many times longer as its scale says."""
    step = grid[1]
    edges = np.concatenate(([0.0], (grid[1:] + grid[:-1]) / 2.0, [grid[-1] + step / 2.0]))
    product = np.ones(len(grid) + 1, dtype=np.complex128)
    for chance, scale in zip(apart, scales, strict=True):
        at_edges = np.interp(edges / scale, grid, chance, right=1.0)
        at_edges[0] = 0.0
        product *= np.fft.rfft(np.diff(at_edges), 2 * len(grid))
    masses = np.fft.irfft(product, 2 * len(grid))[: len(grid)]
    chance_at_edges = np.concatenate(([0.0], np.cumsum(np.maximum(0.0, masses))))
    return np.interp(grid, edges, chance_at_edges)
