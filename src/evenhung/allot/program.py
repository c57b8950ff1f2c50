"""A linear or whole-number program given to HiGHS: quietly, on one thread, and stopped in time."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import highspy
import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.watch import Watch


class Solved(NamedTuple):
    """What HiGHS made of a program."""

    values: NDArray[np.float64]
    """Of the columns; empty where nothing was found."""
    duals: NDArray[np.float64]
    """Of the rows; empty or meaningless for a whole-number program."""
    is_optimal: bool
    is_cut_short: bool
    """Whether time or the stop flag ended it."""


INNER: dict[str, Any] = {"solver": "ipm", "run_crossover": "off"}
"""Options for a large linear program: its inside is as good to us as a corner, and sooner found."""

NEIGHBOURHOOD: dict[str, Any] = {
    # A neighbourhood is small and starts from a good answer: what helps on large, strange
    # problems takes longer than it saves: with it, half as many in the time (one instance).
    "presolve": "off",
    "mip_detect_symmetry": False,
    "mip_heuristic_effort": 0.0,
    "mip_heuristic_run_feasibility_jump": False,
}
"""Options for a small whole-number program."""


def solve(
    model: highspy.HighsLp,
    options: dict[str, Any],
    watch: Watch,
    start: NDArray[np.float64] | None = None,
) -> Solved:
    """Solve a program, from a start if there is one, until the watch says that it is time.

    Parameters
    ----------
    model
        The program.
    options
        Options of HiGHS, besides those that keep it quiet and its answers the same.
    watch
        Asked within HiGHS too, at every step of it that lets itself be asked.
    start
        Values of the columns that are possible.
    """
    solver = highspy.Highs()
    quiet = {"output_flag": False, "log_to_console": False, "threads": 1, "random_seed": 0}
    for option, value in (quiet | {"time_limit": min(watch.left(), 1e9)} | options).items():
        solver.setOptionValue(option, value)
    solver.passModel(model)
    if start is not None:
        solution = highspy.HighsSolution()
        solution.col_value = start.tolist()
        solution.value_valid = True
        solver.setSolution(solution)

    def ask(event: Any) -> None:  # noqa: ANN401 # HiGHS's own event; it ships no types
        if watch.is_over():
            event.interrupt()

    for moment in (solver.cbMipInterrupt, solver.cbIpmInterrupt, solver.cbSimplexInterrupt):
        moment.subscribe(ask)
    solver.run()
    solution = solver.getSolution()
    status, ends = solver.getModelStatus(), highspy.HighsModelStatus
    return Solved(
        np.array(solution.col_value) if solution.value_valid else np.empty(0),
        np.array(solution.row_dual),
        is_optimal=status == ends.kOptimal,
        is_cut_short=status in {ends.kTimeLimit, ends.kInterrupt},
    )


def matrix(model: highspy.HighsLp, columns: list[NDArray[np.int64]], signs: list[float]) -> None:
    """Put blocks of columns into a model, each column with the same factor in all its rows.

    Parameters
    ----------
    model
        The program, its numbers of rows and columns already set.
    columns
        For each block the rows of each of its columns; -1 where there is none.
    signs
        The factor of each block.
    """
    entries = [block >= 0 for block in columns]
    ends = np.cumsum(np.concatenate([entry.sum(axis=1) for entry in entries]))
    model.a_matrix_.start_ = np.concatenate([[0], ends])
    model.a_matrix_.index_ = np.concatenate(
        [block[entry] for block, entry in zip(columns, entries, strict=True)]
    )
    model.a_matrix_.value_ = np.concatenate(
        [np.full(int(entry.sum()), sign) for entry, sign in zip(entries, signs, strict=True)]
    )
