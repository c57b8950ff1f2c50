"""The order of a solve: a draft, the soonest end, then few moves and nights; or what forbids it.

The solver works alone and by a set effort, so the same question has the same answer everywhere.

Source: CP-SAT, the constraint solver of OR-Tools: https://developers.google.com/optimization
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ortools.sat.python import cp_model

from evenhung.allot.schedule.alone import soonest_last_day
from evenhung.allot.schedule.check import broken_rules, last_slot, nights_of
from evenhung.allot.schedule.draft import drafted
from evenhung.allot.schedule.model import Model
from evenhung.allot.schedule.problem import Answer, Conflict, Rule

if TYPE_CHECKING:
    from collections.abc import Collection

    from evenhung.allot.schedule.problem import Problem

SEED = 1


def schedule(problem: Problem, *, is_rough: bool = False) -> Answer | Conflict:
    """Give the schedule that ends soonest, and of those one with few nights boarded.

    Parameters
    ----------
    problem
        What is asked.
    is_rough
        Whether only the end counts: nights are then not made few.

    Returns
    -------
    Answer or Conflict
        A conflict where no schedule keeps all rules: which of them cannot be kept together.

    Raises
    ------
    RuntimeError
        If the solver's schedule breaks a rule, or it found neither a schedule nor a proof.
    """
    if not problem.jobs:
        day = problem.days[0]
        return Answer(
            starts=(),
            last_day=day,
            bound_day=day,
            nights=0,
            status="optimal",
            nights_are_fewest=True,
        )
    rules = rules_of(problem)
    found = _soonest(problem, rules)
    if isinstance(found, Conflict):
        return found
    starts, bound = found
    are_fewest = False
    if not is_rough:
        starts, are_fewest = _improved(problem, rules, starts)
    last = _last_day(problem, starts)
    return Answer(
        starts=starts,
        last_day=problem.days[last],
        bound_day=problem.days[min(bound, last)],
        nights=_nights(problem, starts),
        status="optimal" if bound >= last else "feasible",
        nights_are_fewest=are_fewest,
    )


def _soonest(
    problem: Problem, rules: Collection[Rule]
) -> tuple[tuple[tuple[int, ...], ...], int] | Conflict:
    """Give a schedule that ends as soon as was found, and a working day that none ends before."""
    draft = drafted(problem)
    days = len(problem.days) if draft is None else _last_day(problem, draft) + 1
    is_sound = draft is not None and not list(broken_rules(problem, draft))
    if draft is not None and is_sound:
        soonest = soonest_last_day(problem, {rule.kind for rule in rules}, days)
        if _last_day(problem, draft) == soonest:
            return draft, soonest
    model = Model(problem, rules, days)
    model.program.minimize(model.last)
    if draft is not None:
        model.hint(draft)
    solver, status = _solved(model, problem.effort)
    if status == cp_model.INFEASIBLE:
        return conflict_in(problem, rules, days)
    bound = max(0, round(solver.best_objective_bound))
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        starts = _starts(model, solver)
        if draft is None or not is_sound or _last_day(problem, starts) < _last_day(problem, draft):
            return starts, bound
    if draft is None or not is_sound:
        raise RuntimeError("the solver found neither a schedule nor that there is none")
    return draft, bound


def _improved(
    problem: Problem, rules: Collection[Rule], starts: tuple[tuple[int, ...], ...]
) -> tuple[tuple[tuple[int, ...], ...], bool]:
    """Without ending later, move little, and shorten how long openings are apart.

    Say, too, whether their nights are proved to be fewest.
    """
    is_wished = any(job.wished for job in problem.jobs)
    if not is_wished and not _nights(problem, starts):
        return starts, True
    last = _last_day(problem, starts)
    model = Model(problem, rules, last + 1)
    if is_wished:
        weight = 1 + len(problem.jobs) * (problem.days[last] - problem.days[0])
        model.program.minimize(weight * model.moves() + model.nights)
    else:
        weight = 1 + len(problem.jobs) * (last + 1)
        ends = sum(own[-1].last_day for own in model.jobs)
        model.program.minimize(weight * model.nights + ends)
    model.hint(starts)
    solver, status = _solved(model, problem.effort)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        starts = _starts(model, solver)
    broken = list(broken_rules(problem, starts))
    if broken:
        raise RuntimeError(f"the schedule breaks a rule: {broken[0]}")
    nights = _nights(problem, starts)
    return starts, not is_wished and solver.best_objective_bound >= weight * nights


def _nights(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> int:
    pairs = zip(problem.jobs, starts, strict=True)
    return sum(len(nights_of(problem, job, own)) for job, own in pairs)


def conflict_in(problem: Problem, rules: Collection[Rule], days: int) -> Conflict:
    """Give rules that cannot be kept together: each in turn is left out if it is not needed."""
    needed, is_minimal = list(rules), True
    for rule in list(rules):
        rest = [one for one in needed if one != rule]
        _, status = _solved(Model(problem, rest, days), problem.effort)
        if status == cp_model.INFEASIBLE:
            needed = rest
        is_minimal = is_minimal and status != cp_model.UNKNOWN
    return Conflict(rules=tuple(needed), is_minimal=is_minimal)


def rules_of(problem: Problem) -> list[Rule]:
    """Give the rules of a problem, those first that are soonest given up as the reason."""
    numbers = range(len(problem.jobs))
    common = [Rule("crew"), Rule("benches"), Rule("out"), Rule("boards")]
    barred = [Rule("barred", one) for one in numbers if problem.jobs[one].barred]
    after = [Rule("after", one) for one in numbers if problem.jobs[one].after]
    done = [Rule("done", one) for one in numbers if problem.jobs[one].begun]
    deadline = [] if problem.deadline is None else [Rule("deadline")]
    return [*common, *done, *barred, *after, *deadline]


def _solved(model: Model, effort: float) -> tuple[cp_model.CpSolver, Any]:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_deterministic_time = effort
    return solver, solver.solve(model.program)


def _starts(model: Model, solver: cp_model.CpSolver) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(solver.value(one.start) for one in own) for own in model.jobs)


def _last_day(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> int:
    pairs = zip(problem.jobs, starts, strict=True)
    return max(last_slot(job, own) for job, own in pairs) // problem.slots_a_day
