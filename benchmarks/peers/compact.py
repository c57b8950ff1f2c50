"""The compact model, given whole to a general solver: HiGHS and CP-SAT, the same rows for both.

One yes-or-no for each way at each side, one for each pair of masses of a sash that is accepted.
"""

from __future__ import annotations

from typing import NamedTuple

import highspy
import numpy as np
from ortools.sat.python import cp_model

from peers.ground import NEVER, Found, Ground, Instance


class Model(NamedTuple):
    """Least cost over yes-or-no columns, with rows that come to a number or stay under one."""

    cost: list[int]
    rows: list[list[tuple[int, int]]]
    """Column and factor of each entry."""
    totals: list[tuple[int, bool]]
    """What a row comes to, and whether it may be less."""
    choice: dict[int, tuple[int, int, int]]
    """Sash, side and number of the choice that a column stands for."""


def by_highs(instance: Instance, seconds: float) -> Found | None:
    """Give the model to HiGHS on one thread."""
    ground = Ground(instance)
    model = _model(ground)
    solver = highspy.Highs()
    options = {"output_flag": False, "threads": 1, "time_limit": seconds, "mip_rel_gap": 0.0}
    for option, value in (options | {"mip_abs_gap": 0.99}).items():
        solver.setOptionValue(option, value)
    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = len(model.cost), len(model.rows)
    program.col_cost_ = np.array(model.cost, dtype=float)
    program.col_lower_, program.col_upper_ = np.zeros(len(model.cost)), np.ones(len(model.cost))
    total = np.array([total for total, _ in model.totals], dtype=float)
    may_be_less = np.array([less for _, less in model.totals])
    program.row_lower_ = np.where(may_be_less, -highspy.kHighsInf, total)
    program.row_upper_ = total
    entries = [entry for row in model.rows for entry in row]
    program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    program.a_matrix_.start_ = np.cumsum([0, *(len(row) for row in model.rows)])
    program.a_matrix_.index_ = np.array([column for column, _ in entries])
    program.a_matrix_.value_ = np.array([factor for _, factor in entries], dtype=float)
    program.integrality_ = [highspy.HighsVarType.kInteger] * len(model.cost)
    solver.passModel(program)
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    chosen = np.flatnonzero(np.array(solver.getSolution().col_value) > 0.5)
    is_optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    status = "optimal" if is_optimal else "feasible"
    return Found(_answer(ground, model, chosen.tolist()), info.mip_dual_bound, status)


def by_cp_sat(instance: Instance, seconds: float) -> Found | None:
    """Give the model to CP-SAT, with as many workers as there are cores for it to use."""
    ground = Ground(instance)
    model, program = _model(ground), cp_model.CpModel()
    columns = [program.new_bool_var("") for _ in model.cost]
    for row, (total, may_be_less) in zip(model.rows, model.totals, strict=True):
        found = cp_model.LinearExpr.weighted_sum(
            [columns[column] for column, _ in row], [factor for _, factor in row]
        )
        program.add(found <= total) if may_be_less else program.add(found == total)
    program.minimize(cp_model.LinearExpr.weighted_sum(columns, model.cost))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(program)
    if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return None
    chosen = [column for column, value in enumerate(columns) if solver.boolean_value(value)]
    named = "optimal" if status == cp_model.OPTIMAL else "feasible"
    return Found(_answer(ground, model, chosen), solver.best_objective_bound, named)


def _model(ground: Ground) -> Model:
    model = Model([], [], [], {})
    hangs: list[list[tuple[int, int]]] = [[] for _ in ground.instance["weights"]]
    for sash in range(len(ground.instance["sashes"])):
        _add_sash(ground, model, sash, hangs)
    # Every weight hangs once at most.
    model.rows.extend(hangs)
    model.totals.extend([(1, True)] * len(hangs))
    return model


def _add_sash(ground: Ground, model: Model, sash: int, hangs: list[list[tuple[int, int]]]) -> None:
    sides = [ground.at(sash, side) for side in (0, 1)]
    masses = [np.unique(side.mass) for side in sides]
    penalties = ground.penalties(sash, *masses)
    accepted = np.argwhere(penalties < NEVER)
    unserved = _column(model, ground.rules["unserved"])
    one_pair, of_mass = [(unserved, 1)], ({}, {})
    for pair in accepted.tolist():
        column = _column(model, int(penalties[tuple(pair)]))
        one_pair.append((column, 1))
        for side in (0, 1):
            of_mass[side].setdefault(int(masses[side][pair[side]]), []).append((column, 1))
    # Every sash has one accepted pair of masses, or is left unserved.
    model.rows.append(one_pair)
    model.totals.append((1, False))
    for side, options in enumerate(sides):
        rows = of_mass[side]
        for weight, mass, _, cost, number in zip(*(part.tolist() for part in options), strict=True):
            if mass in rows and cost < ground.rules["unserved"]:
                column = _column(model, cost)
                model.choice[column] = (sash, side, number)
                rows[mass].append((column, -1))
                if weight >= 0:
                    hangs[weight].append((column, 1))
        # A mass is hung by one way to that mass.
        model.rows.extend(rows.values())
        model.totals.extend([(0, False)] * len(rows))


def _column(model: Model, cost: int) -> int:
    model.cost.append(cost)
    return len(model.cost) - 1


def _answer(ground: Ground, model: Model, chosen: list[int]) -> list:
    sashes: list[list] = [[None, None] for _ in ground.instance["sashes"]]
    for column in chosen:
        if column in model.choice:
            sash, side, number = model.choice[column]
            sashes[sash][side] = ground.choice(number)
    return [pair if all(pair) else None for pair in sashes]
