"""Packing: the best choice of one column for each of some sashes, no weight twice.

Exactly, in whole columns, or relaxed: in parts of columns, as a hint at which to take.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import highspy
import numpy as np

from evenhung.allot.market import FINE
from evenhung.allot.program import INNER, NEIGHBOURHOOD, matrix, solve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from evenhung.allot.columns import Columns
    from evenhung.allot.watch import Watch


HALF = 0.5
"""HiGHS gives whole numbers to within 1e-6."""


class Packed(NamedTuple):
    """An answer to a packing."""

    chosen: tuple[int | None, ...]
    """For each sash the position of its column; None where it is left unserved."""
    is_optimal: bool


class Leaning(NamedTuple):
    """What a sash mostly does where a packing is relaxed."""

    chosen: int | None
    """Position of its column; None where it is left unserved."""
    share: float
    """How much of it, up to 1."""


def pack(
    columns: Sequence[Columns],
    unserved: NDArray[np.int64],
    idle: NDArray[np.int64],
    start: Sequence[int | None],
    nodes: int,
    watch: Watch,
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
    nodes
        Greatest number of nodes that HiGHS may branch to.
    watch
        Knows when to stop.
    """
    model = _model(columns, unserved, idle)
    model.integrality_ = [highspy.HighsVarType.kInteger] * model.num_col_
    exact = {"mip_max_nodes": nodes, "mip_rel_gap": 0.0, "mip_abs_gap": 0.99 / FINE}
    found = solve(model, NEIGHBOURHOOD | exact, watch, _as_values(columns, start))
    if len(found.values) == 0:
        return Packed(tuple(start), is_optimal=False)
    leanings = _leanings(columns, found.values)
    chosen = tuple(leaning.chosen if leaning.share > HALF else None for leaning in leanings)
    return Packed(chosen, found.is_optimal)


def lean(
    columns: Sequence[Columns],
    unserved: NDArray[np.int64],
    idle: NDArray[np.int64],
    noise: NDArray[np.float64],
    watch: Watch,
) -> list[Leaning] | None:
    """Give what each sash mostly does where columns may be taken in part; None if time is up.

    Parameters
    ----------
    columns, unserved, idle, watch
        As for `pack`.
    noise
        A little for each column, so that of many equal answers there is one to lean to [cent].
    """
    model = _model(columns, unserved, idle)
    model.col_cost_ = np.array(model.col_cost_) + np.concatenate([np.zeros(len(columns)), noise])
    found = solve(model, INNER, watch)
    # Without a corner HiGHS is not always sure to the last digit: a hint need not be.
    has_hint = len(found.values) > 0 and not found.is_cut_short
    return _leanings(columns, found.values) if has_hint else None


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
    every = np.arange(sashes)
    rows = np.column_stack([np.repeat(every, count), row_of[weight]])
    matrix(model, [every[:, None], rows], [1.0, 1.0])
    return model


def _as_values(columns: Sequence[Columns], choice: Sequence[int | None]) -> NDArray[np.float64]:
    count = np.array([len(column.reduced) for column in columns])
    first = len(columns) + np.cumsum(count) - count
    values = np.zeros(len(columns) + int(count.sum()))
    for sash, chosen in enumerate(choice):
        values[sash if chosen is None else first[sash] + chosen] = 1.0
    return values


def _leanings(columns: Sequence[Columns], values: NDArray[np.float64]) -> list[Leaning]:
    found, first = [], len(columns)
    for sash, column in enumerate(columns):
        parts = values[first : first + len(column.reduced)]
        first += len(column.reduced)
        most = int(parts.argmax()) if len(parts) else 0
        if len(parts) and parts[most] >= values[sash]:
            found.append(Leaning(most, float(parts[most])))
        else:
            found.append(Leaning(None, float(values[sash])))
    return found
