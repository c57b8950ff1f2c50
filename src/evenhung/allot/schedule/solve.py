"""The order of a solve: a draft and a bound, the soonest end, then few moves and nights.

What is evidently impossible is said first. Where a draft ends as soon as the bound allows, nothing
is left to be asked; else the solver is. Many jobs are never asked about all together: their draft
is good already, and it is made better block by block.

The solver works alone and by a set effort, so the same question has the same answer everywhere.

Source: CP-SAT, the constraint solver of OR-Tools: https://developers.google.com/optimization
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ortools.sat.python import cp_model

from evenhung.allot.schedule.alone import least_of, soonest_last_day
from evenhung.allot.schedule.blocks import blocks_of, cut_out
from evenhung.allot.schedule.check import broken_rules, last_slot, nights_of
from evenhung.allot.schedule.dispatch import RUNS, drafted
from evenhung.allot.schedule.evident import evident_conflict
from evenhung.allot.schedule.flow import soonest_by_flow
from evenhung.allot.schedule.model import Model
from evenhung.allot.schedule.problem import Answer, Conflict, Rule

if TYPE_CHECKING:
    from collections.abc import Collection

    from evenhung.allot.schedule.problem import Problem, RuleKind

SEED = 1

WHOLE = 40
"""Jobs that are asked about all together; more are made better block by block."""

TOGETHER = 16
"""Jobs whose nights are made few all together; of more, block by block (measured: 20 in 0.7 s, as
few nights as all together in 6 s)."""

FAIR = 0.2
"""Of the effort of a question, to find what is better (measured on twenty questions: with two and a
half times as much, one ends a day sooner). All of it is for proofs that there is no answer."""

SHARE = 0.02
"""The same for each block."""

CONFLICTS = 200
"""Dead ends that the solver may meet before it tries another half of what the end could be."""


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
    found = evident_conflict(problem) or _soonest(problem, rules)
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
    kinds = {rule.kind for rule in rules}
    runs = RUNS if len(problem.jobs) > WHOLE else RUNS // 2
    found = drafted(problem, lambda last: _bound(problem, kinds, last), runs=runs)
    draft, soonest = (None, 0) if found is None else found
    days = len(problem.days) if draft is None else _last_day(problem, draft) + 1
    is_sound = draft is not None and not list(broken_rules(problem, draft))
    if draft is not None:
        if is_sound and (soonest == days - 1 or len(problem.jobs) > WHOLE):
            return draft, soonest
        if len(problem.jobs) > WHOLE:
            return _too_late(problem, soonest)
    model = Model(problem, rules, days)
    model.program.add(model.last >= soonest)  # what follows is said
    model.program.minimize(model.last)
    if draft is not None:
        model.hint(draft)
    solver, status = _solved(model, problem.effort * FAIR, halving=CONFLICTS)
    if status == cp_model.INFEASIBLE:
        return conflict_in(problem, rules, days)
    bound = max(soonest, round(solver.best_objective_bound))
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        starts = _starts(model, solver)
        if draft is None or not is_sound or _last_day(problem, starts) < _last_day(problem, draft):
            return starts, bound
    if draft is None:
        raise RuntimeError("the solver found neither a schedule nor that there is none")
    return (draft, bound) if is_sound else _too_late(problem, bound)


def _bound(problem: Problem, kinds: Collection[RuleKind], last: int) -> int:
    """Give a working day before which no schedule can end, for one by which one can."""
    counted = soonest_last_day(problem, kinds, last + 1)
    return soonest_by_flow(problem, min(counted, last), last)


def _too_late(problem: Problem, soonest: int) -> Conflict:
    """Give the rules that stand against the deadline where no schedule that keeps it was found."""
    deadline = problem.days[0] if problem.deadline is None else problem.deadline
    common = (Rule("crew"), Rule("benches"), Rule("out"), Rule("boards"))
    return Conflict(
        rules=(*common, Rule("deadline")),
        is_minimal=False,
        is_proved=problem.days[soonest] > deadline,
    )


def _improved(
    problem: Problem, rules: Collection[Rule], starts: tuple[tuple[int, ...], ...]
) -> tuple[tuple[tuple[int, ...], ...], bool]:
    """Without ending later, move little, and shorten how long openings are apart.

    Say, too, whether their nights are proved to be fewest.
    """
    is_wished = any(job.wished for job in problem.jobs)
    least = sum(least_of(problem, job, len(problem.days)).nights for job in problem.jobs)
    if not is_wished and _nights(problem, starts) == least:
        return starts, True
    if len(problem.jobs) > TOGETHER:
        starts, are_fewest = _in_blocks(problem, rules, starts), False
    else:
        days, effort = _last_day(problem, starts) + 1, problem.effort * FAIR
        starts, are_fewest = _better(Model(problem, rules, days), problem, starts, effort)
    broken = list(broken_rules(problem, starts))
    if broken:
        raise RuntimeError(f"the schedule breaks a rule: {broken[0]}")
    return starts, not is_wished and (are_fewest or _nights(problem, starts) == least)


def _in_blocks(
    problem: Problem, rules: Collection[Rule], starts: tuple[tuple[int, ...], ...]
) -> tuple[tuple[int, ...], ...]:
    for numbers in blocks_of(starts):
        block = cut_out(problem, rules, starts, numbers)
        better, _ = _better(block.model(), block.problem, block.starts, problem.effort * SHARE)
        starts = block.put_back(better, starts)
    return starts


def _better(
    model: Model, problem: Problem, starts: tuple[tuple[int, ...], ...], effort: float
) -> tuple[tuple[tuple[int, ...], ...], bool]:
    """Give a schedule that moves little and has few nights, and whether none has fewer."""
    days = problem.days
    if any(job.wished for job in problem.jobs):
        weight = 1 + len(problem.jobs) * (days[-1] - days[0])
        model.program.minimize(weight * model.moves() + model.nights)
    else:
        weight = 1 + len(problem.jobs) * len(days)
        ends = sum(own[-1].last_day for own in model.jobs)
        model.program.minimize(weight * model.nights + ends)
    model.hint(starts)
    solver, status = _solved(model, effort)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        starts = _starts(model, solver)
    return starts, solver.best_objective_bound >= weight * _nights(problem, starts)


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


def _solved(
    model: Model, effort: float, *, halving: int | None = None
) -> tuple[cp_model.CpSolver, Any]:
    """Ask the solver, without probing and linear programs: they take long and find nothing here.

    With `halving` it tries the sooner half of what the end could be, then half of that, for so many
    dead ends each.
    """
    solver = cp_model.CpSolver()
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.linearization_level = 0
    if halving is not None:
        solver.parameters.binary_search_num_conflicts = halving
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_deterministic_time = effort
    return solver, solver.solve(model.program)


def _starts(model: Model, solver: cp_model.CpSolver) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(solver.value(one.start) for one in own) for own in model.jobs)


def _last_day(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> int:
    pairs = zip(problem.jobs, starts, strict=True)
    return max(last_slot(job, own) for job, own in pairs) // problem.slots_a_day
