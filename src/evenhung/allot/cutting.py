"""Bars to lengths: how to cut what is wanted from bars of one stock length, with least waste.

A pattern is what is cut from one bar. Which patterns are cut how often is a whole-number program
over patterns; its linear relaxation, whose patterns are found as they are needed by a knapsack,
proves how few bars any plan needs. Lengths are whole numbers in a unit of the caller's choosing.

Sources: P. C. Gilmore and R. E. Gomory, Operations Research 9 (1961) 849 and 11 (1963) 863, for
patterns found by a knapsack. From memory.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, Literal, TypeAlias

import highspy
import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

Pattern: TypeAlias = tuple[int, ...]
"""How many of each length, longest first, are cut from one bar."""

NODES = 2_000
"""Nodes HiGHS may branch to before the best plan so far is taken."""

MOST_STEPS = 100_000
"""Patterns that are begun or listed one by one, at the most."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar and what is cut from it."""

    lengths: tuple[int, ...]
    """Longest first."""
    leftover: int
    """What is left in one piece, the last cut taken off."""


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """All bars, and how good that is."""

    bars: tuple[Bar, ...]
    """Fullest first."""
    status: Literal["optimal", "feasible"]
    """`optimal`: no plan needs fewer bars, proved."""
    bound: int
    """No plan needs fewer bars."""


def cut(wanted: Mapping[int, int], *, bar: int, kerf: int = 0, nodes: int = NODES) -> CuttingPlan:
    """Cut lengths from as few bars of one length as effort allows.

    Parameters
    ----------
    wanted
        How many of each length are wanted.
    bar
        Length of a bar.
    kerf
        Width of the saw's cut, which is lost between two pieces and beside the leftover.
    nodes
        Nodes HiGHS may branch to before the best plan so far is taken.

    Raises
    ------
    ValueError
        If a length is not between 1 and the bar's, a number is less than 0 or the kerf is.

    Examples
    --------
    >>> plan = cut({40: 3, 25: 2}, bar=100, kerf=2)
    >>> [(bar.lengths, bar.leftover) for bar in plan.bars]
    [((40, 25, 25), 4), ((40, 40), 16)]
    >>> plan.status
    'optimal'
    """
    _refuse(wanted, bar, kerf)
    lengths = sorted((length for length, count in wanted.items() if count), reverse=True)
    if not lengths:
        return CuttingPlan((), "optimal", 0)
    # A bar with n pieces has n - 1 cuts between them: with one more kerf on the bar, each has one.
    sizes, room = np.array([length + kerf for length in lengths]), bar + kerf
    counts = np.array([wanted[length] for length in lengths])
    patterns = _fit_first(sizes, counts, room)
    bound, patterns = _relaxed(sizes, counts, room, patterns)
    bars = _trimmed(_whole(counts, patterns, nodes), counts)
    if len(bars) > bound and (every := _every_pattern(sizes, counts, room)):
        # The relaxation's patterns need not hold the best plan; where all can be listed, they do.
        bars = min(bars, _trimmed(_whole(counts, every, nodes), counts), key=len)
    made = sorted((_bar(pattern, lengths, bar, kerf) for pattern in bars), key=_fullest)
    return CuttingPlan(tuple(made), "optimal" if len(made) == bound else "feasible", bound)


def _refuse(wanted: Mapping[int, int], bar: int, kerf: int) -> None:
    if kerf < 0:
        raise ValueError(f"kerf: {kerf}: 0 or more")
    for length, count in wanted.items():
        if not 1 <= length <= bar:
            raise ValueError(f"length: {length}: from 1 to {bar}, the length of a bar")
        if count < 0:
            raise ValueError(f"number of {length}: {count}: 0 or more")


def _fit_first(sizes: NDArray[np.int64], counts: NDArray[np.int64], room: int) -> list[Pattern]:
    """Give the patterns of a plan in which each piece, longest first, goes where it fits first."""
    bars: list[list[int]] = []
    left: list[int] = []
    for number, size in enumerate(sizes.tolist()):
        for _ in range(int(counts[number])):
            at = next((at for at, space in enumerate(left) if space >= size), len(left))
            if at == len(left):
                bars.append([0] * len(sizes))
                left.append(room)
            bars[at][number] += 1
            left[at] -= size
    return list(dict.fromkeys(tuple(pattern) for pattern in bars))


def _relaxed(
    sizes: NDArray[np.int64], counts: NDArray[np.int64], room: int, patterns: list[Pattern]
) -> tuple[int, list[Pattern]]:
    """Solve the relaxation; give the bars it proves necessary, and all patterns met on the way."""
    patterns, bound = list(patterns), ceil(int(sizes @ counts) / room)
    while True:
        worth = _values(counts, patterns)
        pattern, value = _best_pattern(sizes, counts, room, worth)
        # Farley's bound: the worth of all pieces over that of the best pattern, whatever the worth.
        bound = max(bound, ceil(float(worth @ counts) / max(value, 1.0) - 1e-6))
        if value <= 1.0 + 1e-7 or pattern in patterns:
            return bound, patterns
        patterns.append(pattern)


def _values(counts: NDArray[np.int64], patterns: Sequence[Pattern]) -> NDArray[np.float64]:
    """Give what each piece is worth in bars: the duals of the relaxation over some patterns."""
    solver = _solver(counts, patterns)
    solver.run()
    worth: NDArray[np.float64] = np.maximum(np.array(solver.getSolution().row_dual), 0.0)
    return worth


def _whole(counts: NDArray[np.int64], patterns: Sequence[Pattern], nodes: int) -> list[Pattern]:
    """Choose whole numbers of some patterns; give each as often as it is cut."""
    solver = _solver(counts, patterns)
    every = np.arange(len(patterns), dtype=np.int32)
    whole = np.full(len(patterns), int(highspy.HighsVarType.kInteger), dtype=np.uint8)
    solver.changeColsIntegrality(len(patterns), every, whole)
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_abs_gap", 0.99)
    solver.run()
    times = np.rint(solver.getSolution().col_value).astype(int)
    return [pattern for pattern, count in zip(patterns, times, strict=True) for _ in range(count)]


def _solver(counts: NDArray[np.int64], patterns: Sequence[Pattern]) -> highspy.Highs:
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    table = np.array(patterns, dtype=float)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = table.shape
    # Every pattern takes one bar.
    model.col_cost_ = np.ones(len(table))
    model.col_lower_, model.col_upper_ = np.zeros(len(table)), np.full(len(table), np.inf)
    # Of every length at least as many are cut as are wanted.
    model.row_lower_, model.row_upper_ = counts.astype(float), np.full(len(counts), np.inf)
    rows, numbers = np.nonzero(table)
    model.a_matrix_.start_ = np.searchsorted(rows, np.arange(len(table) + 1))
    model.a_matrix_.index_ = numbers
    model.a_matrix_.value_ = table[rows, numbers]
    solver.passModel(model)
    return solver


def _best_pattern(
    sizes: NDArray[np.int64], counts: NDArray[np.int64], room: int, worth: NDArray[np.float64]
) -> tuple[Pattern, float]:
    """Give the pattern worth most and its worth: a knapsack over the length of a bar."""
    best = np.zeros(room + 1)
    layers = []
    for size, count, value in zip(sizes.tolist(), counts.tolist(), worth.tolist(), strict=True):
        taken = np.zeros(room + 1, dtype=int)
        start = best.copy()
        for times in range(1, min(count, room // size) + 1):
            shifted = start[: room + 1 - times * size] + times * value
            better = shifted > best[times * size :] + 1e-12
            best[times * size :][better] = shifted[better]
            taken[times * size :][better] = times
        layers.append(taken)
    space, pattern = room, [0] * len(sizes)
    for number in range(len(sizes) - 1, -1, -1):
        pattern[number] = int(layers[number][space])
        space -= pattern[number] * int(sizes[number])
    return tuple(pattern), float(best[room])


def _every_pattern(sizes: NDArray[np.int64], counts: NDArray[np.int64], room: int) -> list[Pattern]:
    """List every pattern to which no piece can be added; none where there are too many."""
    found: list[Pattern] = []
    begun: list[tuple[Pattern, int]] = [((), room)]
    for _ in range(MOST_STEPS):
        if not begun:
            return found
        pattern, left = begun.pop()
        number = len(pattern)
        if number < len(sizes):
            most = min(int(counts[number]), left // int(sizes[number]))
            begun += [
                ((*pattern, times), left - times * int(sizes[number])) for times in range(most + 1)
            ]
        elif _is_full(pattern, left, sizes, counts):
            found.append(pattern)
    return []


def _is_full(
    pattern: Pattern, left: int, sizes: NDArray[np.int64], counts: NDArray[np.int64]
) -> bool:
    """Tell whether no further piece that is wanted fits on a bar."""
    return not np.any((counts > np.array(pattern)) & (sizes <= left))


def _trimmed(bars: list[Pattern], counts: NDArray[np.int64]) -> list[Pattern]:
    """Leave out pieces beyond those wanted, and bars from which then nothing is cut."""
    left = counts.tolist()
    kept = []
    for bar in bars:
        pattern = tuple(min(count, rest) for count, rest in zip(bar, left, strict=True))
        left = [rest - count for rest, count in zip(left, pattern, strict=True)]
        if any(pattern):
            kept.append(pattern)
    return kept


def _bar(pattern: Pattern, lengths: Sequence[int], bar: int, kerf: int) -> Bar:
    pieces = tuple(Counter(dict(zip(lengths, pattern, strict=True))).elements())
    return Bar(pieces, max(0, bar - sum(pieces) - kerf * len(pieces)))


def _fullest(bar: Bar) -> tuple[int, tuple[int, ...]]:
    return bar.leftover, tuple(-length for length in bar.lengths)
