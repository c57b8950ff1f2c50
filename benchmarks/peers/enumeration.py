"""Pair enumeration: every pair of weights for every sash, then one choice for each by HiGHS.

Exact, and the fastest peer on small houses. A pair that costs no less than one of its weights with
a new one, than two new ones, or than leaving the sash, is left out: there is always that instead.
"""

from __future__ import annotations

import time
from typing import NamedTuple

import highspy
import numpy as np

from peers.ground import NEVER, Found, Ground, Instance, Options

MOST_PAIRS = 3_000_000
"""More would not fit in memory beside the solver."""


class Pairs(NamedTuple):
    """The pairs of one sash; a weight of -1 is a new one."""

    weights: np.ndarray
    cost: np.ndarray
    choice: np.ndarray


def solve(instance: Instance, seconds: float) -> Found | None:
    """List, then choose."""
    start, ground, count = time.perf_counter(), Ground(instance), 0
    pairs = []
    for sash in range(len(instance["sashes"])):
        pairs.append(_pairs(ground, sash))
        count += len(pairs[-1].cost)
        if count > MOST_PAIRS or time.perf_counter() - start > seconds:
            return None
    return _choose(ground, pairs, seconds - (time.perf_counter() - start))


def _pairs(ground: Ground, sash: int) -> Pairs:
    """Give the cheapest pair for each two weights that is worth having."""
    left, right = ground.at(sash, 0), ground.at(sash, 1)
    lefts, rights = _grid(left), _grid(right)
    nobody = len(ground.instance["weights"])
    cost = np.full((nobody + 1, nobody + 1), ground.rules["unserved"])
    at = np.full((nobody + 1, nobody + 1, 2), -1)
    penalties = ground.penalties(sash, lefts.mass, rights.mass)
    for i, j in np.argwhere(penalties < NEVER):
        total = lefts.cost[i][:, None] + rights.cost[j][None, :] + penalties[i, j]
        owners = np.ix_(lefts.weight[i], rights.weight[j])
        better = total < cost[owners]
        cost[owners] = np.where(better, total, cost[owners])
        now = np.stack(np.broadcast_arrays(lefts.choice[i][:, None], rights.choice[j]), axis=2)
        at[owners] = np.where(better[:, :, None], now, at[owners])
    # The same two weights the other way round are the same to everyone else.
    turned = cost.T
    is_turned = np.tril(cost > turned, -1) | np.triu(cost >= turned, 1)
    with_new = np.minimum(cost[:, nobody], cost[nobody, :])
    beaten = np.minimum(with_new[:, None], with_new[None, :])
    beaten[nobody, :] = beaten[:, nobody] = cost[nobody, nobody]
    beaten[nobody, nobody] = ground.rules["unserved"]
    np.fill_diagonal(is_turned, val=True)
    is_turned[nobody, nobody] = False
    first, second = np.nonzero((cost < beaten) & ~is_turned)
    weights = np.stack([first, second], axis=1)
    return Pairs(np.where(weights == nobody, -1, weights), cost[first, second], at[first, second])


class _Grid(NamedTuple):
    """Ways by mass: for each mass the weights, costs and choices, cheapest of each weight."""

    mass: np.ndarray
    weight: list[np.ndarray]
    cost: list[np.ndarray]
    choice: list[np.ndarray]


def _grid(options: Options) -> _Grid:
    key = options.mass * (1 << 32) + options.weight
    order = np.lexsort((options.cost, key))
    _, first = np.unique(key[order], return_index=True)
    kept = options.only(order[first])
    mass, start = np.unique(kept.mass, return_index=True)
    parts = (np.split(column, start[1:]) for column in (kept.weight, kept.cost, kept.choice))
    return _Grid(mass, *parts)


def _choose(ground: Ground, pairs: list[Pairs], seconds: float) -> Found | None:
    """Solve: each sash has one pair or is left unserved, each weight hangs once at most."""
    sashes, count = len(pairs), [len(pair.cost) for pair in pairs]
    weights = np.concatenate([pair.weights for pair in pairs])
    rows = np.column_stack([np.repeat(np.arange(sashes), count), sashes + weights])
    entries = np.column_stack([np.ones(len(weights), dtype=bool), weights >= 0])
    model = highspy.HighsLp()
    model.num_col_ = sashes + len(weights)
    model.num_row_ = sashes + len(ground.instance["weights"])
    unserved = np.full(sashes, ground.rules["unserved"])
    model.col_cost_ = np.concatenate([unserved, *(pair.cost for pair in pairs)]).astype(float)
    model.col_lower_, model.col_upper_ = np.zeros(model.num_col_), np.ones(model.num_col_)
    is_sash = np.arange(model.num_row_) < sashes
    model.row_lower_ = np.where(is_sash, 1.0, -highspy.kHighsInf)
    model.row_upper_ = np.ones(model.num_row_)
    ends = sashes + np.cumsum(entries.sum(axis=1))
    model.a_matrix_.start_ = np.concatenate([np.arange(sashes + 1), ends])
    model.a_matrix_.index_ = np.concatenate([np.arange(sashes), rows[entries]])
    model.a_matrix_.value_ = np.ones(sashes + int(entries.sum()))
    model.integrality_ = [highspy.HighsVarType.kInteger] * model.num_col_
    solver = highspy.Highs()
    for option, value in {
        "output_flag": False,
        "threads": 1,
        "time_limit": max(0.0, seconds),
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 0.99,
    }.items():
        solver.setOptionValue(option, value)
    solver.passModel(model)
    solver.run()
    info, chosen = solver.getInfo(), np.array(solver.getSolution().col_value) > 0.5
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    answer, first = [], sashes
    for pair in pairs:
        taken = np.flatnonzero(chosen[first : first + len(pair.cost)])
        first += len(pair.cost)
        numbers = pair.choice[taken[0]].tolist() if len(taken) else []
        answer.append([ground.choice(number) for number in numbers] or None)
    is_optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return Found(answer, info.mip_dual_bound, "optimal" if is_optimal else "feasible")
