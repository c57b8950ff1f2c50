"""Conflicts that are evident without a solver: a job that can never be, a sum too great.

What is found here is proved by counting, and every rule that is named is needed for it.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import replace
from typing import TYPE_CHECKING

from evenhung.allot.schedule.alone import closings, nights_are_needed, soonest_last_day
from evenhung.allot.schedule.flow import can_end_by
from evenhung.allot.schedule.problem import Conflict, Rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.allot.schedule.problem import Job, Problem, RuleKind


def evident_conflict(problem: Problem) -> Conflict | None:
    """Give rules that cannot be kept together, if that can be told by counting; else None.

    Parameters
    ----------
    problem
        What is asked. What is begun already is left to the solver.
    """
    if any(job.begun for job in problem.jobs):
        return None
    rules = next(_evident(problem), None)
    return None if rules is None else Conflict(rules=rules)


def _evident(problem: Problem) -> Iterator[tuple[Rule, ...]]:
    ring = ring_of(problem)
    if ring:
        yield tuple(Rule("after", number) for number in sorted(ring))
    if any(job.pieces > problem.out for job in problem.jobs):
        yield (Rule("out"),)
    if not problem.boards and any(nights_are_needed(problem, job) for job in problem.jobs):
        yield (Rule("boards"),)
    for number, job in enumerate(problem.jobs):
        if job.barred and _soonest(problem, job) is None and _soonest(problem, _free(job)):
            yield (Rule("barred", number),)
    if problem.deadline is not None:
        yield from _too_late(problem, bisect_left(problem.days, problem.deadline + 1) - 1)


def _too_late(problem: Problem, last: int) -> Iterator[tuple[Rule, ...]]:
    """Give what is too much to be ended by a working day, given by its place among the days."""
    deadline = Rule("deadline")
    ends = [_soonest(problem, _free(job)) for job in problem.jobs]
    if any(end is not None and end > last for end in ends):
        yield (deadline,)
    for number, job in enumerate(problem.jobs):
        end = _soonest(problem, job) if job.barred else None
        if end is not None and end > last:
            yield Rule("barred", number), deadline
    kinds: tuple[RuleKind, ...] = ("crew", "benches", "out", "boards")
    for kind in kinds:
        if soonest_last_day(problem, {kind}, len(problem.days)) > last:
            yield Rule(kind), deadline
    pieces = sum(job.pieces for job in problem.jobs)
    plain = replace(problem, jobs=tuple(map(_free, problem.jobs)))
    if not can_end_by(replace(plain, out=pieces), last):
        yield Rule("boards"), deadline
    if not can_end_by(replace(plain, boards=len(problem.jobs)), last):
        yield Rule("out"), deadline


def _free(job: Job) -> Job:
    return replace(job, barred=frozenset())


def _soonest(problem: Problem, job: Job) -> int | None:
    """Give the working day by which a job can be closed if it is the only one."""
    return min((one for one in closings(problem, job) if one is not None), default=None)


def ring_of(problem: Problem) -> list[int]:
    """Give jobs that each follow the next, the last one the first; empty where there are none."""
    done = set[int]()
    for first in range(len(problem.jobs)):
        path = list[int]()
        if _walk(problem, first, path, done):
            return path[path.index(path.pop()) :]
    return []


def _walk(problem: Problem, number: int, path: list[int], done: set[int]) -> bool:
    """Follow jobs to those that they follow; the path ends with the one that was met again."""
    path.append(number)
    if path.count(number) > 1:
        return True
    for other in problem.jobs[number].after:
        if other not in done and _walk(problem, other, path, done):
            return True
    done.add(path.pop())
    return False
