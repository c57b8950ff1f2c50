"""Packing: the best choice of one column for each of some sashes, no weight twice, by HiGHS."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import highspy
import numpy as np

from evenhung.allot.market import FINE

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from evenhung.allot.columns import Columns


HALF = 0.5
"""HiGHS gives whole numbers to within 1e-6."""


class Packed(NamedTuple):
    """An answer to a packing."""

    chosen: tuple[int | None, ...]
    """For each sash the position of its column; None where it is left unserved."""
    is_optimal: bool


class Limits(NamedTuple):
    """How much effort HiGHS may spend."""

    nodes: int
    seconds: float


def pack(
    columns: Sequence[Columns],
    unserved: NDArray[np.int64],
    idle: NDArray[np.int64],
    start: Sequence[int | None],
    limits: Limits,
) -> Packed:
    """Choose a column for each sash so that reduced costs and prices of idle weights are least.

    Parameters
    ----------
    columns
        The columns of each sash.
    unserved
        What each sash costs if it is left unserved, less its cheapest pair [1/FINE cent].
    idle
        Price of every weight of the problem, 0 for new ones after the last [1/FINE cent].
    start
        A choice that is possible, from which HiGHS starts; as good an answer is always given.
    limits
        Effort allowed.
    """
    solver = highspy.Highs()
    for option, value in {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        # A neighbourhood is small and starts from a good answer: what helps on large, strange
        # problems takes longer than it saves: with it, half as many in the time (one instance).
        "presolve": "off",
        "mip_detect_symmetry": False,
        "mip_heuristic_effort": 0.0,
        "mip_heuristic_run_feasibility_jump": False,
        "mip_max_nodes": limits.nodes,
        "time_limit": min(limits.seconds, 1e9),
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 0.99 / FINE,
    }.items():
        solver.setOptionValue(option, value)
    solver.passModel(_model(columns, unserved, idle))
    before = _as_values(columns, start)
    solution = highspy.HighsSolution()
    solution.col_value = before.tolist()
    solution.value_valid = True
    solver.setSolution(solution)
    solver.run()
    after = np.array(solver.getSolution().col_value)
    is_optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    if len(after) == 0:
        return Packed(tuple(start), is_optimal=False)
    return Packed(_as_choice(columns, after), is_optimal)


def _model(
    columns: Sequence[Columns], unserved: NDArray[np.int64], idle: NDArray[np.int64]
) -> highspy.HighsLp:
    sashes, nobody = len(columns), len(idle) - 1
    count = [len(column.reduced) for column in columns]
    weight = np.concatenate([column.weight for column in columns])
    reduced = np.concatenate([column.reduced for column in columns])
    used = np.unique(weight[weight < nobody])
    row_of = np.full(nobody + 1, -1)
    row_of[used] = sashes + np.arange(len(used))
    rows = np.column_stack([np.repeat(np.arange(sashes), count), row_of[weight]])
    entries = rows >= 0
    ends = np.cumsum(entries.sum(axis=1))
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = sashes + len(reduced), sashes + len(used)
    # Taking a column takes its weights out of idleness, whose price the answer then need not pay.
    saved = idle[weight].sum(axis=1)
    model.col_cost_ = np.concatenate([unserved, reduced - saved]) / FINE
    model.col_lower_ = np.zeros(model.num_col_)
    model.col_upper_ = np.ones(model.num_col_)
    # Every sash has one of its columns or is left unserved; every weight hangs once at most.
    model.row_lower_ = np.where(np.arange(model.num_row_) < sashes, 1.0, -highspy.kHighsInf)
    model.row_upper_ = np.ones(model.num_row_)
    model.a_matrix_.start_ = np.concatenate([np.arange(sashes + 1), sashes + ends])
    model.a_matrix_.index_ = np.concatenate([np.arange(sashes), rows[entries]])
    model.a_matrix_.value_ = np.ones(sashes + int(entries.sum()))
    model.integrality_ = [highspy.HighsVarType.kInteger] * model.num_col_
    return model


def _as_values(columns: Sequence[Columns], choice: Sequence[int | None]) -> NDArray[np.float64]:
    count = np.array([len(column.reduced) for column in columns])
    first = len(columns) + np.cumsum(count) - count
    values = np.zeros(len(columns) + int(count.sum()))
    for sash, chosen in enumerate(choice):
        values[sash if chosen is None else first[sash] + chosen] = 1.0
    return values


def _as_choice(columns: Sequence[Columns], values: NDArray[np.float64]) -> tuple[int | None, ...]:
    choice: list[int | None] = []
    first = len(columns)
    for column in columns:
        taken = np.flatnonzero(values[first : first + len(column.reduced)] > HALF)
        choice.append(int(taken[0]) if len(taken) else None)
        first += len(column.reduced)
    return tuple(choice)
