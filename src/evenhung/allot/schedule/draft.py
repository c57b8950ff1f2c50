"""A first schedule: jobs one after another, each as early as what is left of everything lets it."""

from __future__ import annotations

from bisect import bisect_left
from random import Random
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from evenhung.allot.schedule.problem import Job, Problem


SEED = 1

PLACINGS = 1440
"""Jobs that are placed in all, however many there are, in orders drawn besides."""


class Draft:
    """What is taken so far, slot by slot and night by night."""

    def __init__(self, problem: Problem) -> None:
        slots = len(problem.days) * problem.slots_a_day
        first, last = problem.days[0], problem.days[-1]
        self._problem = problem
        self._crew = np.zeros(slots, dtype=np.int64)
        self._benches = np.zeros(slots, dtype=np.int64)
        self._out = np.zeros(slots, dtype=np.int64)
        self._boards = np.zeros(last - first + 1, dtype=np.int64)
        self._first = first
        self._slots = slots

    def place(self, job: Job, earliest: int) -> tuple[int, ...] | None:
        """Place a job at the first slot that serves, not before `earliest`; None if none does."""
        if job.begun:
            starts = self._from(job, job.begun[0])
            return None if starts is None else self._taken(job, starts)
        size = self._problem.slots_a_day
        while (starts := self._from(job, earliest)) is not None:
            if self._is_free(job, starts):
                return self._taken(job, self._closer(job, starts))
            earliest = (starts[0] // size + 1) * size  # the next day
        return None

    def _closer(self, job: Job, starts: tuple[int, ...]) -> tuple[int, ...]:
        """Begin later, if it then ends no later: it is open for less."""
        size = self._problem.slots_a_day
        while (later := self._from(job, (starts[0] // size + 1) * size)) is not None:
            if later[-1] > starts[-1] or not self._is_free(job, later):
                break
            starts = later
        return starts

    def _from(self, job: Job, start: int) -> tuple[int, ...] | None:
        """Give the stages from a slot on, each as early as can be; None if days run out."""
        starts: list[int] = []
        for number, stage in enumerate(job.stages):
            if number < len(job.begun):
                found: int | None = job.begun[number]
            else:
                start = max(start, self._problem.first_free_slot)
                found = next(self._places(stage.slots, start, at_bench=stage.at_bench), None)
            if found is None or found + stage.slots > self._slots:
                return None
            starts.append(found)
            start = self._following(found + stage.slots, stage.wait)
        return tuple(starts)

    def _places(self, slots: int, start: int, *, at_bench: bool) -> Iterator[int]:
        problem, size = self._problem, self._problem.slots_a_day
        while start + slots <= self._slots:
            if slots <= size and start % size + slots > size:
                start += size - start % size
                continue
            busy = self._crew[start : start + slots] >= problem.crew
            if at_bench:
                busy = busy | (self._benches[start : start + slots] >= problem.benches)
            if not busy.any():
                yield start
            start += int(np.flatnonzero(busy)[-1]) + 1 if busy.any() else 1

    def _following(self, end: int, wait: int) -> int:
        """Give the first slot at which a stage may follow."""
        if not wait:
            return end
        day = self._problem.day(end - 1) + wait
        return max(end, bisect_left(self._problem.days, day) * self._problem.slots_a_day)

    def _is_free(self, job: Job, starts: tuple[int, ...]) -> bool:
        """Tell whether the opening may be apart from its first slot to its last."""
        end = starts[-1] + job.stages[-1].slots
        nights = self._nights(starts[0], end)
        first, last = self._problem.day(starts[0]), self._problem.day(end - 1)
        return (
            not any(first <= day <= last for day in job.barred)
            and self._most(self._out[starts[0] : end]) + job.pieces <= self._problem.out
            and (not nights.size or self._most(nights) < self._problem.boards)
        )

    def _nights(self, start: int, end: int) -> NDArray[np.int64]:
        first, last = self._problem.day(start), self._problem.day(end - 1)
        return self._boards[first - self._first : last - self._first]

    @staticmethod
    def _most(used: NDArray[np.int64]) -> int:
        return int(used.max(initial=0))

    def _taken(self, job: Job, starts: tuple[int, ...]) -> tuple[int, ...]:
        end = starts[-1] + job.stages[-1].slots
        self._out[starts[0] : end] += job.pieces
        self._nights(starts[0], end)[:] += 1
        for stage, start in zip(job.stages, starts, strict=True):
            self._crew[start : start + stage.slots] += 1
            if stage.at_bench:
                self._benches[start : start + stage.slots] += 1
        return starts


def drafted(problem: Problem) -> tuple[tuple[int, ...], ...] | None:
    """Give a schedule that keeps all rules but the deadline; None where none is found so simply."""
    drafts = [_in_order(problem, order) for order in _orders(problem)]
    found = [draft for draft in drafts if draft is not None]
    return min(found, key=lambda starts: _last(problem, starts), default=None)


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


def _in_order(problem: Problem, order: Sequence[int]) -> tuple[tuple[int, ...], ...] | None:
    draft, placed = Draft(problem), dict[int, tuple[int, ...]]()
    waiting = list(order)
    while waiting:
        ready = [
            one for one in waiting if all(other in placed for other in problem.jobs[one].after)
        ]
        if not ready:
            return None  # they wait for each other
        number = ready[0]
        job = problem.jobs[number]
        ends = [placed[other][-1] + problem.jobs[other].stages[-1].slots for other in job.after]
        starts = draft.place(job, max(ends, default=0))
        if starts is None:
            return None
        placed[number] = starts
        waiting.remove(number)
    return tuple(placed[number] for number in range(len(problem.jobs)))


def _last(problem: Problem, starts: tuple[tuple[int, ...], ...]) -> int:
    pairs = zip(problem.jobs, starts, strict=True)
    return max((own[-1] + job.stages[-1].slots for job, own in pairs), default=0)
