"""What no schedule goes below, by the openings that are handed from night to night.

Each opening takes a board, and its pieces a place, from the night after it is opened to the one
before it is closed. How long that is depends on the day that it is opened on: over a weekend it
is longer. If jobs could be divided, how many of each kind are opened on each day would be a linear
program; where even that cannot end by a day, no schedule can.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

import highspy
import numpy as np

from evenhung.allot.program import solve
from evenhung.allot.schedule.alone import closings
from evenhung.allot.watch import Watch

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.schedule.problem import Problem


class Kind(NamedTuple):
    """Jobs that take as long as each other, whatever day they are opened on."""

    closings: tuple[int | None, ...]
    pieces: int


def soonest_by_flow(problem: Problem, low: int, high: int) -> int:
    """Give a working day before which no schedule can end, by its place among the days.

    Parameters
    ----------
    problem
        What is asked; all its rules but the deadline, the crew and the benches are kept to.
    low
        A working day before which it cannot end, known already.
    high
        One by which it can.
    """
    kinds = _kinds(problem)
    while low < high:
        middle = (low + high) // 2
        if _can_end_by(problem, kinds, middle):
            high = middle
        else:
            low = middle + 1
    return low


def can_end_by(problem: Problem, last: int) -> bool:
    """Tell whether jobs that could be divided can all be closed by a working day.

    Parameters
    ----------
    problem
        What is asked; all its rules but the deadline, the crew and the benches are kept to.
    last
        The working day, by its place among the days.

    Returns
    -------
    bool
        Where it is False, no schedule ends by then; where it is True, none need do so.
    """
    return _can_end_by(problem, _kinds(problem), last)


def _kinds(problem: Problem) -> Counter[Kind]:
    return Counter(Kind(closings(problem, job), job.pieces) for job in problem.jobs)


def _can_end_by(problem: Problem, kinds: Counter[Kind], last: int) -> bool:
    ways = [
        (number, opened, closed)
        for number, kind in enumerate(kinds)
        for opened, closed in enumerate(kind.closings[: last + 1])
        if closed is not None and closed <= last
    ]
    if len({number for number, _, _ in ways}) < len(kinds):
        return False
    model = _program(problem, kinds, np.array(ways, dtype=np.int64), last)
    return solve(model, {}, Watch()).is_optimal


def _program(
    problem: Problem, kinds: Counter[Kind], ways: NDArray[np.int64], last: int
) -> highspy.HighsLp:
    """Give the program: a column for each way of opening a kind; rows for nights and for kinds.

    A night's first row counts boards, its second, `last` rows further on, pieces; a kind's row
    has all of its jobs opened.
    """
    kind, opened, closed = ways.T
    each, long = np.arange(len(ways)), closed - opened
    column = np.repeat(each, long)
    first = np.cumsum(long) - long
    night = np.arange(len(column)) - np.repeat(first - opened, long)
    pieces = np.array([one.pieces for one in kinds], dtype=np.float64)
    rows = np.concatenate([night, night + last, kind + 2 * last])
    columns = np.concatenate([column, column, each])
    factors = np.concatenate([np.ones(len(column)), pieces[kind[column]], np.ones(len(ways))])
    order = np.argsort(columns, kind="stable")
    count = np.array(list(kinds.values()), dtype=np.float64)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(ways), 2 * last + len(kinds)
    model.col_cost_ = np.zeros(len(ways))
    model.col_lower_, model.col_upper_ = np.zeros(len(ways)), np.full(len(ways), np.inf)
    most = np.repeat([float(problem.boards), float(problem.out)], last)
    model.row_lower_ = np.concatenate([np.full(2 * last, -np.inf), count])
    model.row_upper_ = np.concatenate([most, count])
    model.a_matrix_.start_ = np.concatenate([[0], np.cumsum(2 * long + 1)])
    model.a_matrix_.index_ = rows[order]
    model.a_matrix_.value_ = factors[order]
    return model
