"""A schedule made better block by block: some jobs are set anew exactly, all others stay.

A block are jobs that are begun one after another. Its question is as small for two hundred jobs as
for twenty, and so is the memory that it takes.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.schedule.check import last_slot
from evenhung.allot.schedule.model import Held, Model
from evenhung.allot.schedule.problem import Rule

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from evenhung.allot.schedule.problem import Job, Problem

WIDTH = 8
"""Jobs of a block; two blocks share half of them."""

EARLIER = 6
"""Working days before its first job that a block may use."""


class Block(NamedTuple):
    """A question of its own, cut out of a schedule."""

    numbers: tuple[int, ...]
    """Its jobs in the whole problem."""
    first_day: int
    """The working day that it begins on, by its place among the days."""
    problem: Problem
    held: Held
    rules: tuple[Rule, ...]
    starts: tuple[tuple[int, ...], ...]
    """As they stand, by the slots of the block."""

    def model(self) -> Model:
        """Give it as a constraint program."""
        return Model(self.problem, self.rules, len(self.problem.days), self.held)

    def put_back(
        self, starts: tuple[tuple[int, ...], ...], whole: tuple[tuple[int, ...], ...]
    ) -> tuple[tuple[int, ...], ...]:
        """Give the whole schedule with this block set anew."""
        ahead = self.first_day * self.problem.slots_a_day
        found = list(whole)
        for number, own in zip(self.numbers, starts, strict=True):
            found[number] = tuple(slot + ahead for slot in own)
        return tuple(found)


def blocks_of(starts: tuple[tuple[int, ...], ...]) -> Iterator[tuple[int, ...]]:
    """Give the jobs of every block, in the order in which they are begun."""
    order = sorted(range(len(starts)), key=lambda number: starts[number])
    for first in range(0, max(1, len(order) - WIDTH // 2), WIDTH // 2):
        yield tuple(sorted(order[first : first + WIDTH]))


def cut_out(
    problem: Problem,
    rules: Collection[Rule],
    starts: tuple[tuple[int, ...], ...],
    numbers: tuple[int, ...],
) -> Block:
    """Cut some jobs out of a schedule, with the days that they are on.

    Parameters
    ----------
    problem
        The whole problem.
    rules
        Its rules.
    starts
        The schedule.
    numbers
        The jobs.
    """
    size = problem.slots_a_day
    first = max(0, min(starts[one][0] for one in numbers) // size - EARLIER)
    last = max(last_slot(problem.jobs[one], starts[one]) for one in numbers) // size
    ahead, places = first * size, {number: place for place, number in enumerate(numbers)}
    jobs = tuple(_cut(problem.jobs[one], ahead, places) for one in numbers)
    part = replace(problem, jobs=jobs, days=problem.days[first : last + 1], deadline=None)
    own_rules = tuple(
        Rule(rule.kind, None if rule.job is None else places[rule.job])
        for rule in rules
        if rule.kind != "deadline" and (rule.job is None or rule.job in places)
    )
    return Block(
        numbers,
        first,
        part,
        _held(problem, starts, set(numbers), first, last)._replace(
            within=tuple(_within(problem, starts, one, places, ahead) for one in numbers)
        ),
        own_rules,
        tuple(tuple(slot - ahead for slot in starts[one]) for one in numbers),
    )


def _cut(job: Job, ahead: int, places: dict[int, int]) -> Job:
    """Give a job as its block has it; those that it follows outside the block are limits to it."""
    after = tuple(places[other] for other in job.after if other in places)
    return replace(job, begun=tuple(slot - ahead for slot in job.begun), after=after)


def _within(
    problem: Problem,
    starts: tuple[tuple[int, ...], ...],
    number: int,
    places: dict[int, int],
    ahead: int,
) -> tuple[int, int]:
    """Give the slots that a job may use, for those outside the block that it goes with."""
    jobs = problem.jobs
    before = [
        last_slot(jobs[other], starts[other]) + 1
        for other in jobs[number].after
        if other not in places
    ]
    following = [
        starts[other][0]
        for other, job in enumerate(jobs)
        if number in job.after and other not in places
    ]
    most = len(problem.days) * problem.slots_a_day
    return max(before, default=0) - ahead, min(following, default=most) - ahead


def _held(
    problem: Problem, starts: tuple[tuple[int, ...], ...], free: set[int], first: int, last: int
) -> Held:
    """Give what all others take of some working days."""
    size, days = problem.slots_a_day, problem.days
    begin, end = first * size, (last + 1) * size
    busy, apart, nights = [], [], []
    for number, (job, own) in enumerate(zip(problem.jobs, starts, strict=True)):
        closed = last_slot(job, own)
        if number in free or closed < begin or own[0] >= end:
            continue
        low, high = max(own[0], begin), min(closed + 1, end)
        apart.append((low - begin, high - low, job.pieces))
        opened = max(problem.day(own[0]), days[first])
        shut = min(problem.day(closed), days[last])
        if shut > opened:
            nights.append((opened, shut - opened))
        for stage, start in zip(job.stages, own, strict=True):
            low, high = max(start, begin), min(start + stage.slots, end)
            if low < high:
                busy.append((low - begin, high - low, stage.at_bench))
    return Held(tuple(busy), tuple(apart), tuple(nights))
