"""Jobs placed one after another, each as early as what is left of everything lets it."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from evenhung.allot.schedule.problem import Job, Problem


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
        self._known: dict[object, int] = {}
        """For jobs that were looked for from the first day on, a slot before which none like them
        begins: what is taken is never given back."""

    def find(self, job: Job, earliest: int, floors: tuple[int, ...] = ()) -> tuple[int, ...] | None:
        """Find the first slots that serve a job; None if none do.

        Parameters
        ----------
        job
            The job.
        earliest
            The first slot at which it may begin.
        floors
            The first slot at which each of its stages may begin; empty: at any.
        """
        if job.begun:
            return self._from(job, job.begun[0], floors)
        alike = job.stages, job.pieces, job.barred
        if not floors:
            earliest = max(earliest, self._known.get(alike, 0))
        earliest = max(earliest, self.first_gap(job, earliest))
        while (starts := self._from(job, earliest, floors)) is not None:
            chance = self._next_chance(job, starts)
            if chance is None and floors:
                return starts
            if chance is None:
                if not job.after:
                    self._known[alike] = earliest
                return self._closer(job, starts)
            earliest = chance
        return None

    def first_gap(self, job: Job, earliest: int) -> int:
        """Give a slot before which no nights in a row are free that are as many as it waits."""
        waits = sum(stage.wait for stage in job.stages[:-1])
        if not waits or earliest >= self._slots:
            return earliest
        at = self._problem.day(earliest) - self._first
        full = (self._boards[at:] >= self._problem.boards).nonzero()[0] + at
        opened = np.concatenate(([at], full + 1))
        shut = np.concatenate((full, [len(self._boards) + waits]))
        first = int(opened[np.argmax(shut - opened >= waits)])
        return bisect_left(self._problem.days, first + self._first) * self._problem.slots_a_day

    def _closer(self, job: Job, starts: tuple[int, ...]) -> tuple[int, ...]:
        """Begin later, if it then ends no later: it is open for less."""
        size = self._problem.slots_a_day
        while (later := self._from(job, (starts[0] // size + 1) * size)) is not None:
            if later[-1] > starts[-1] or self._next_chance(job, later) is not None:
                break
            starts = later
        return starts

    def _from(self, job: Job, start: int, floors: tuple[int, ...] = ()) -> tuple[int, ...] | None:
        """Give the stages from a slot on, each as early as can be; None if days run out."""
        starts: list[int] = []
        for number, stage in enumerate(job.stages):
            if number < len(job.begun):
                found: int | None = job.begun[number]
            else:
                start = max(start, self._problem.first_free_slot, *floors[number : number + 1])
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

    def _next_chance(self, job: Job, starts: tuple[int, ...]) -> int | None:
        """Give the first slot from which on an opening may be apart; None if it may as it is.

        A job that begins later ends no sooner, so a day that is in its way now stays in its way
        until it begins after it.
        """
        problem, end = self._problem, starts[-1] + job.stages[-1].slots
        first, last = problem.day(starts[0]), problem.day(end - 1)
        days = [day for day in job.barred if first <= day <= last]
        full = (self._nights(starts[0], end) >= problem.boards).nonzero()[0]
        days += [first + int(full[-1])] if full.size else []
        chances = [bisect_left(problem.days, day + 1) * problem.slots_a_day for day in days]
        full = (self._out[starts[0] : end] > problem.out - job.pieces).nonzero()[0]
        chances += [starts[0] + int(full[-1]) + 1] if full.size else []
        return max(chances, default=None)

    def _nights(self, start: int, end: int) -> NDArray[np.int64]:
        first, last = self._problem.day(start), self._problem.day(end - 1)
        return self._boards[first - self._first : last - self._first]

    def take(self, job: Job, starts: tuple[int, ...]) -> None:
        """Have a job take what it needs from its slots on."""
        end = starts[-1] + job.stages[-1].slots
        self._out[starts[0] : end] += job.pieces
        self._nights(starts[0], end)[:] += 1
        for stage, start in zip(job.stages, starts, strict=True):
            self._crew[start : start + stage.slots] += 1
            if stage.at_bench:
                self._benches[start : start + stage.slots] += 1
