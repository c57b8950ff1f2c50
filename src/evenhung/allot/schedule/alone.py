"""What no schedule goes below: each job by itself, and all of them added up."""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache
from math import ceil
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Collection

    from evenhung.allot.schedule.problem import Job, Problem, RuleKind, Stage


class Least(NamedTuple):
    """The least that a job takes, wherever among the days it begins."""

    nights: int
    """On which it is open."""
    slots: int
    """From its first slot to its last, both counted."""


def least_of(problem: Problem, job: Job, days: int) -> Least:
    """Give the least of a job among some first working days.

    Parameters
    ----------
    problem
        Its days.
    job
        The job; what of it is begun already is not looked at.
    days
        How many of the working days there are.
    """
    return _least(job.stages, problem.days[:days], problem.slots_a_day)


@lru_cache(maxsize=1024)
def _least(stages: tuple[Stage, ...], days: tuple[int, ...], size: int) -> Least:
    """Begin at every slot: from there on, the soonest end has the fewest nights."""
    nights, slots = days[-1] - days[0], len(days) * size
    for start in range(len(days) * size):
        end = _end(stages, days, size, start)
        if end is not None:
            nights = min(nights, days[(end - 1) // size] - days[start // size])
            slots = min(slots, end - start)
    return Least(nights, slots)


def _end(stages: tuple[Stage, ...], days: tuple[int, ...], size: int, start: int) -> int | None:
    """Give the slot after the last, or None where it does not begin there or ends too late."""
    at = start
    for number, stage in enumerate(stages):
        if stage.slots <= size and at % size + stage.slots > size:
            if not number:
                return None
            at += size - at % size
        end = at + stage.slots
        if end > len(days) * size:
            return None
        at = end
        if stage.wait:
            at = max(end, bisect_left(days, days[(end - 1) // size] + stage.wait) * size)
    return end


def end_alone(problem: Problem, job: Job) -> int | None:
    """Give the day of the calendar on which a job ends if it is the only one; None: on none.

    What of it is begun already is not looked at; its barred days are kept to.

    Parameters
    ----------
    problem
        Its days.
    job
        The job.
    """
    size, days = problem.slots_a_day, problem.days
    ends = [
        days[(end - 1) // size]
        for start in range(problem.first_free_slot, len(days) * size)
        if (end := _end(job.stages, days, size, start)) is not None
        and not any(days[start // size] <= day <= days[(end - 1) // size] for day in job.barred)
    ]
    return min(ends, default=None)


def nights_are_needed(problem: Problem, job: Job) -> bool:
    """Tell whether a job cannot be begun and ended on one day.

    Parameters
    ----------
    problem
        Its days.
    job
        The job.
    """
    is_long = sum(stage.slots for stage in job.stages) > problem.slots_a_day
    return is_long or any(stage.wait for stage in job.stages[:-1])


def soonest_last_day(problem: Problem, kinds: Collection[RuleKind], days: int) -> int:
    """Give a working day before which no schedule can end, by its place among the days.

    The crew has only so many slots a day, and each job keeps its board and its places for pieces
    for as long as it takes by itself.

    Parameters
    ----------
    problem
        What is asked.
    kinds
        The kinds of rule that are kept to.
    days
        How many of the working days there are.
    """
    size, first = problem.slots_a_day, problem.days[0]
    least = [least_of(problem, job, days) for job in problem.jobs]
    soonest = [0]
    if "crew" in kinds:
        work = sum(stage.slots for job in problem.jobs for stage in job.stages)
        soonest.append(ceil(work / problem.crew / size) - 1)
    if "boards" in kinds and problem.boards:
        nights = ceil(sum(one.nights for one in least) / problem.boards)
        soonest.append(bisect_left(problem.days, first + nights))
    if "out" in kinds:
        both = zip(least, problem.jobs, strict=True)
        slots = ceil(sum(one.slots * job.pieces for one, job in both) / problem.out)
        soonest.append(ceil(slots / size) - 1)
    return max(soonest)
