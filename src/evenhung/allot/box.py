"""The last cents of the price bound: the best prices in a box about the present ones, by one LP.

Within the box no price moves by more than its radius, so no reduced cost by more than four radii:
the columns within that slack are all that matter, and the linear program over them is exact there.
It is worth its while where those columns are few: for a house, not for an estate.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import highspy
import numpy as np

from evenhung.allot.ascent import Prices, in_whole_cents
from evenhung.allot.columns import Columns, Priced
from evenhung.allot.market import FINE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.market import Market
    from evenhung.allot.pricing import Block
    from evenhung.allot.problem import Problem
    from evenhung.allot.watch import Watch

FIRST_RADIUS = 4
"""[cent]"""
GROW = 2
ROUNDS = 3
MOST_COLUMNS = 400
"""Greatest number of columns of one sash."""


def refine(problem: Problem, market: Market, block: Block, prices: Prices, watch: Watch) -> Prices:
    """Raise the price bound until it no longer rises by a cent, or time is up."""
    radius = FIRST_RADIUS
    for _ in range(ROUNDS):
        if watch.is_over():
            break
        move, at_edge = _best_in_box(Priced(problem, market, block, prices.price), radius)
        fine = np.append(FINE * prices.price[:-1] + np.rint(FINE * move).astype(np.int64), 0)
        found = in_whole_cents(market, block, np.maximum(fine, 0), prices.epochs)
        if found.bound <= prices.bound:
            break
        prices = found
        radius = GROW * radius if at_edge else radius
    return prices


def _best_in_box(priced: Priced, radius: int) -> tuple[NDArray[np.float64], bool]:
    """Give the best change of each price [cent], and whether some end at the edge of the box."""
    problem = priced.problem
    everything = priced.stock(np.arange(priced.nobody))
    columns = [
        priced.columns(everything, sash, 4 * FINE * radius, MOST_COLUMNS)
        for sash in range(len(problem.sashes))
    ]
    down = np.minimum(radius, priced.price[:-1] / FINE)
    solver = highspy.Highs()
    for option, value in {
        "output_flag": False,
        "threads": 1,
        "solver": "ipm",
        "run_crossover": "off",
    }.items():
        solver.setOptionValue(option, value)
    unserved = FINE * problem.rules.unserved - priced.least
    solver.passModel(_model(columns, unserved / FINE, down, radius))
    solver.run()
    dual = np.array(solver.getSolution().row_dual)[len(columns) :]
    move = np.clip(-dual, -down, radius)
    return move, bool(np.any(np.abs(move) > 0.99 * radius))


def _model(
    columns: list[Columns], unserved: NDArray[np.float64], down: NDArray[np.float64], radius: int
) -> highspy.HighsLp:
    sashes, weights = len(columns), len(down)
    weight = np.concatenate([column.weight for column in columns])
    reduced = np.concatenate([column.reduced for column in columns]) / FINE
    sash = np.repeat(np.arange(sashes), [len(column.reduced) for column in columns])
    rows = np.column_stack([sash, sashes + weight])
    entries = np.column_stack([np.ones(len(sash), dtype=bool), weight < weights])
    ends = np.cumsum(entries.sum(axis=1))
    singles = sashes + 2 * weights
    every = sashes + np.arange(weights)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = singles + len(reduced), sashes + weights
    # Using a weight twice costs the radius, leaving it idle what its price can fall by.
    model.col_cost_ = np.concatenate([unserved, np.full(weights, float(radius)), down, reduced])
    model.col_lower_ = np.zeros(model.num_col_)
    model.col_upper_ = np.full(model.num_col_, highspy.kHighsInf)
    # Every sash is served or left unserved; every weight is used once, but for what that costs.
    model.row_lower_ = model.row_upper_ = np.ones(model.num_row_)
    model.a_matrix_.start_ = np.concatenate([np.arange(singles + 1), singles + ends])
    model.a_matrix_.index_ = np.concatenate([np.arange(sashes), every, every, rows[entries]])
    signs = np.concatenate([np.ones(sashes), -np.ones(weights), np.ones(weights)])
    model.a_matrix_.value_ = np.concatenate([signs, np.ones(int(entries.sum()))])
    return model
