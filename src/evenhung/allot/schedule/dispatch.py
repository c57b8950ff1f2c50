"""First schedules: jobs in orders of all sorts, or always the one that fits best into what is free.

Sources: list scheduling in drawn orders, and dispatching by the time that is wasted, are common
practice in the planning of workshops, no source; the rule of what is wasted is ours.
"""

from __future__ import annotations

from bisect import bisect_left
from random import Random
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.schedule.alone import least_of
from evenhung.allot.schedule.check import last_slot, moved, nights_of
from evenhung.allot.schedule.draft import Draft

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from evenhung.allot.schedule.problem import Job, Problem

SEED = 1

PLACINGS = 720
"""Jobs that are placed in all, however many there are, in orders drawn besides."""

TRIALS = 48_000
"""Jobs that are tried in all, however many there are, to find those that fit best."""

RUNS = 40
"""Schedules of those that fit best, at the most; half of them where the solver is asked, too."""

LOOKED_AT = 8
"""Jobs unlike each other that are tried for every place."""


class Drafted(NamedTuple):
    """The best of many first schedules."""

    starts: tuple[tuple[int, ...], ...]
    soonest: int
    """A working day before which none can end, by its place among the days."""


def drafted(problem: Problem, bound: Callable[[int], int], *, runs: int = RUNS) -> Drafted | None:
    """Give a schedule that keeps all rules but the deadline; None where none is found so simply.

    Of those that end on the same day, the one that moves least from what was wished, then the one
    with the fewest nights. Once one ends as soon as can be, no more are made.

    Parameters
    ----------
    problem
        What is asked.
    bound
        Gives a working day before which none can end, for one by which one can.
    runs
        How many schedules of those that fit best there are, at the most.
    """
    best: tuple[tuple[int, ...], ...] | None = None
    least: tuple[int, tuple[int, int], int] | None = None
    soonest = -1
    for starts in _drafts(problem, runs):
        if starts is None:
            continue
        worth = _worth(problem, starts)
        if least is None:
            soonest = bound(worth[0])
        if least is None or worth < least:
            best, least = starts, worth
        if least[0] <= soonest:
            break
    return None if best is None else Drafted(best, soonest)


def _worth(
    problem: Problem, starts: tuple[tuple[int, ...], ...]
) -> tuple[int, tuple[int, int], int]:
    pairs = list(zip(problem.jobs, starts, strict=True))
    last = max(last_slot(job, own) for job, own in pairs) // problem.slots_a_day
    return (
        last,
        moved(problem, starts),
        sum(len(nights_of(problem, job, own)) for job, own in pairs),
    )


def _drafts(problem: Problem, runs: int) -> Iterator[tuple[tuple[int, ...], ...] | None]:
    if any(job.wished for job in problem.jobs):
        yield _as_wished(problem)
    for order in _orders(problem):
        yield _in_order(problem, order)
    random = Random(SEED)  # noqa: S311 - it draws orders, and keeps no secret
    least = [least_of(problem, job, len(problem.days)).nights for job in problem.jobs]
    most = max(2, TRIALS // (len(problem.jobs) * LOOKED_AT))
    for run in range(min(runs, most)):
        numbers = list(range(len(problem.jobs)))
        if run:
            random.shuffle(numbers)
        yield _best_fits(problem, numbers, least)


def _as_wished(problem: Problem) -> tuple[tuple[int, ...], ...] | None:
    """Place jobs in the order that was wished, each stage on its day or later."""
    size, days = problem.slots_a_day, problem.days
    floors = [
        tuple(bisect_left(days, first) * size for first, _ in job.wished) for job in problem.jobs
    ]
    order = sorted(
        range(len(floors)), key=lambda one: (not problem.jobs[one].begun, floors[one], one)
    )
    return _in_order(problem, order, floors)


def _orders(problem: Problem) -> Iterator[list[int]]:
    """Give orders to place jobs in: as they stand, and the longest first; what is begun leads."""
    numbers = range(len(problem.jobs))
    begun = {number: not problem.jobs[number].begun for number in numbers}

    def length(number: int) -> int:
        size = problem.slots_a_day
        return sum(stage.slots + size * stage.wait for stage in problem.jobs[number].stages)

    yield sorted(numbers, key=lambda number: begun[number])
    yield sorted(numbers, key=lambda number: (begun[number], -length(number)))
    random = Random(SEED)  # noqa: S311 - it draws orders, and keeps no secret
    for _ in range(PLACINGS // len(numbers)):
        drawn = {number: random.random() for number in numbers}
        yield sorted(numbers, key=lambda number: (begun[number], drawn[number]))


def _in_order(
    problem: Problem, order: Sequence[int], floors: Sequence[tuple[int, ...]] | None = None
) -> tuple[tuple[int, ...], ...] | None:
    draft, placed = Draft(problem), dict[int, tuple[int, ...]]()
    waiting = list(order)
    while waiting:
        number = next((one for one in waiting if _is_ready(problem.jobs[one], placed)), None)
        if number is None:
            return None  # they wait for each other
        job = problem.jobs[number]
        starts = draft.find(job, _earliest(problem, job, placed), floors[number] if floors else ())
        if starts is None:
            return None
        draft.take(job, starts)
        placed[number] = starts
        waiting.remove(number)
    return tuple(placed[number] for number in range(len(problem.jobs)))


def _best_fits(
    problem: Problem, order: Sequence[int], least: Sequence[int]
) -> tuple[tuple[int, ...], ...] | None:
    """Place whichever job wastes fewest days: nights more than its least, and days until it begins.

    Of several it is the one with most work, for short ones are easier to fit in later.
    """
    draft, placed = Draft(problem), dict[int, tuple[int, ...]]()
    waiting = sorted(order, key=lambda one: not problem.jobs[one].begun)
    while waiting:
        best: tuple[tuple[int, int], int, tuple[int, ...]] | None = None
        for number in _looked_at(problem, waiting, placed):
            job = problem.jobs[number]
            earliest = _earliest(problem, job, placed)
            starts = draft.find(job, earliest)
            if starts is None:
                return None
            nights = len(nights_of(problem, job, starts)) - least[number]
            gap = min(starts[0], max(draft.first_gap(job, earliest), problem.first_free_slot))
            idle = problem.day(starts[0]) - problem.day(gap)
            work = sum(stage.slots for stage in job.stages)
            if best is None or (nights + idle, -work) < best[0]:
                best = (nights + idle, -work), number, starts
        if best is None:
            return None  # they wait for each other
        _, number, starts = best
        draft.take(problem.jobs[number], starts)
        placed[number] = starts
        waiting.remove(number)
    return tuple(placed[number] for number in range(len(problem.jobs)))


def _looked_at(
    problem: Problem, waiting: Sequence[int], placed: dict[int, tuple[int, ...]]
) -> Iterator[int]:
    """Give jobs unlike each other that may be placed next; those that are begun by themselves."""
    if problem.jobs[waiting[0]].begun:
        yield waiting[0]
        return
    seen = set[object]()
    for number in waiting:
        job = problem.jobs[number]
        alike = (job.stages, job.pieces, job.barred)
        if alike not in seen and _is_ready(job, placed):
            seen.add(alike)
            yield number
        if len(seen) == LOOKED_AT:
            return


def _is_ready(job: Job, placed: dict[int, tuple[int, ...]]) -> bool:
    return all(other in placed for other in job.after)


def _earliest(problem: Problem, job: Job, placed: dict[int, tuple[int, ...]]) -> int:
    """Give the first slot after all jobs that it follows."""
    ends = [last_slot(problem.jobs[other], placed[other]) + 1 for other in job.after]
    return max(ends, default=0)
