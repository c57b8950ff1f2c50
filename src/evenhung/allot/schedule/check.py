"""Whether a schedule keeps every rule, by plain counting and without the solver."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.allot.schedule.problem import Job, Problem


def last_slot(job: Job, starts: tuple[int, ...]) -> int:
    """Give the last slot of a job."""
    return starts[-1] + job.stages[-1].slots - 1


def nights_of(problem: Problem, job: Job, starts: tuple[int, ...]) -> range:
    """Give the nights on which an opening is boarded, each by the day before it."""
    return range(problem.day(starts[0]), problem.day(last_slot(job, starts)))


def moved(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> tuple[int, int]:
    """Give how many jobs, and how many stages, are done on other days than was wished."""
    stages = [
        sum(
            (problem.day(start), problem.day(start + stage.slots - 1)) != days
            for start, stage, days in zip(own, job.stages, job.wished, strict=False)
        )
        for job, own in zip(problem.jobs, starts, strict=True)
    ]
    return sum(map(bool, stages)), sum(stages)


def broken_rules(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> Iterator[str]:
    """Give what a schedule breaks, in words for whoever repairs the program.

    Parameters
    ----------
    problem
        What was asked.
    starts
        Slot at which each stage of each job begins.
    """
    for job, own in zip(problem.jobs, starts, strict=True):
        yield from _in_the_job(problem, job, own)
        yield from (
            f"{job.name}: begins before {problem.jobs[other].name} has ended"
            for other in job.after
            if own[0] <= last_slot(problem.jobs[other], starts[other])
        )
    yield from _too_many_at_once(problem, starts)


def _in_the_job(problem: Problem, job: Job, starts: tuple[int, ...]) -> Iterator[str]:
    for stage, start in zip(job.stages, starts, strict=True):
        is_short = stage.slots <= problem.slots_a_day
        if is_short and problem.day(start) != problem.day(start + stage.slots - 1):
            yield f"{job.name}: {stage.name} is left overnight"
    for stage, start, following in zip(job.stages, starts, starts[1:], strict=False):
        end = start + stage.slots
        if following < end or problem.day(following) < problem.day(end - 1) + stage.wait:
            yield f"{job.name}: what follows {stage.name} comes too soon"
    days = {*nights_of(problem, job, starts), problem.day(last_slot(job, starts))}
    if days & job.barred:
        yield f"{job.name}: is taken apart on a day on which it must be whole"
    if starts[: len(job.begun)] != job.begun:
        yield f"{job.name}: what was begun is moved"
    if any(start < problem.first_free_slot for start in starts[len(job.begun) :]):
        yield f"{job.name}: is begun on a day that is over"
    if problem.deadline is not None and max(days) > problem.deadline:
        yield f"{job.name}: ends after the deadline"


def _too_many_at_once(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> Iterator[str]:
    crew: Counter[int] = Counter()
    benches: Counter[int] = Counter()
    out: Counter[int] = Counter()
    boards: Counter[int] = Counter()
    for job, own in zip(problem.jobs, starts, strict=True):
        boards.update(nights_of(problem, job, own))
        for slot in range(own[0], last_slot(job, own) + 1):
            out[slot] += job.pieces
        for stage, start in zip(job.stages, own, strict=True):
            busy = range(start, start + stage.slots)
            crew.update(busy)
            benches.update(busy if stage.at_bench else ())
    for used, most, what in (
        (crew, problem.crew, "people"),
        (benches, problem.benches, "benches"),
        (out, problem.out, "pieces out"),
        (boards, problem.boards, "boards"),
    ):
        if used and max(used.values()) > most:
            yield f"{max(used.values())} {what} at once, where there are {most}"
