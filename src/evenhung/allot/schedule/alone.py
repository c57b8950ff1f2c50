"""What no schedule goes below: each job by itself, and all of them added up."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import replace
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


def closings(problem: Problem, job: Job) -> tuple[int | None, ...]:
    """Give, for each working day that a job may be opened on, the first it can be closed on.

    Parameters
    ----------
    problem
        Its days.
    job
        The job; what of it is begun already stays, and its barred days are kept to.

    Returns
    -------
    tuple of int or None
        Places among the working days; None where it is not opened on that day.
    """
    size, days = problem.slots_a_day, problem.days
    if job.begun:
        opened = job.begun[0] // size
        end = _end_of_begun(problem, job)
        ends = {opened: None if end is None else (end - 1) // size}
        return tuple(ends.get(place) for place in range(len(days)))
    first = problem.first_free_slot // size
    found: list[int | None] = [None] * first
    for place in range(first, len(days)):
        end = _end(job.stages, days, size, place * size)
        closed = None if end is None else (end - 1) // size
        is_barred = closed is not None and any(
            days[place] <= day <= days[closed] for day in job.barred
        )
        found.append(None if is_barred else closed)
    return tuple(found)


def _end_of_begun(problem: Problem, job: Job) -> int | None:
    """Give the slot after the last of a job whose first stages stay where they are."""
    size, days, last = problem.slots_a_day, problem.days, len(job.begun) - 1
    end, wait = job.begun[last] + job.stages[last].slots, job.stages[last].wait
    if len(job.begun) == len(job.stages):
        return end
    day = days[(end - 1) // size] + wait
    waited = bisect_left(days, day) * size if wait else end
    start = max(end, waited, problem.first_free_slot)
    left = job.stages[len(job.begun) :]
    if left[0].slots <= size and start % size + left[0].slots > size:
        start += size - start % size
    return _end(left, days, size, start)


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
    found = [one for one in closings(problem, replace(job, begun=())) if one is not None]
    return problem.days[min(found)] if found else None


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

    The crew and the benches have only so many slots a day, and each job keeps its board and its
    places for pieces for as long as it takes by itself.

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
        work = [stage.slots for job in problem.jobs for stage in job.stages]
        soonest.append(_days_of(work, problem.crew, size) - 1)
    if "benches" in kinds:
        work = [stage.slots for job in problem.jobs for stage in job.stages if stage.at_bench]
        soonest.append(_days_of(work, problem.benches, size) - 1)
    if "boards" in kinds and problem.boards:
        nights = ceil(sum(one.nights for one in least) / problem.boards)
        soonest.append(bisect_left(problem.days, first + nights))
    if "out" in kinds:
        both = zip(least, problem.jobs, strict=True)
        slots = ceil(sum(one.slots * job.pieces for one, job in both) / problem.out)
        soonest.append(ceil(slots / size) - 1)
    return max(soonest)


def _days_of(work: list[int], hands: int, size: int) -> int:
    """Give days that so many hands need at the least for stages of so many slots.

    A hand has one day to fill after another, as bins are filled: whatever is longer than half a
    day has one to itself, and what is longer than a day fills whole ones and has two ends.

    Source: S. Martello, P. Toth: Lower bounds and reduction procedures for the bin packing problem,
    Discrete Applied Mathematics 28 (1990), 59-70: the bound L2, here by its functions; from memory.
    """
    most = sum(work) / size
    for least in range(1, size // 2 + 1):
        most = max(most, sum(_weight(slots, least, size) for slots in work))
    return ceil(most / hands - 1e-9)


@lru_cache(maxsize=4096)
def _weight(slots: int, least: int, size: int) -> float:
    """Give the share of a day that a stage counts for, where less than `least` counts as nothing.

    What takes more than a day to its rest counts as a whole one: nothing else fits beside it. Of a
    stage that is longer than a day, the division among days that counts for least is taken.
    """
    if slots <= size:
        if slots > size - least:
            return 1.0
        return slots / size if slots >= least else 0.0
    return min(
        _weight(first, least, size) + whole + _weight(rest, least, size)
        for first in range(1, size + 1)
        for whole, rest in [divmod(slots - first, size)]
    )
