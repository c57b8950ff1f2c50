"""The programme of a house beside a simple list schedule, on the same questions and run in turn.

The simple one is what a foreman does in his head: half hour by half hour, whoever is free goes to
the opening that is furthest on, and a new one is begun when nothing else can be done. Both answers
are counted again by ``evenhung.allot.schedule.check``.
"""

from __future__ import annotations

import argparse
import resource
import sys
import time
from bisect import bisect_left
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from contextlib import suppress
from dataclasses import replace
from datetime import date
from multiprocessing import get_context
from random import Random
from typing import NamedTuple
from unittest import mock

from surveys import house_of

from evenhung.allot.schedule import Answer, Job, Problem, schedule
from evenhung.allot.schedule.check import broken_rules, last_slot, nights_of
from evenhung.plan import plan_house
from evenhung.plan.programme import house, programme_of
from evenhung.survey import survey_from

SIZES = (10, 20, 40, 60, 100, 200)
START = date(2026, 3, 9)
SEED = 1
HOURS = 0.6, 1.8
"""What the hours of each step are multiplied with where no two windows are alike."""


class Outcome(NamedTuple):
    """What a schedule comes to, and what it took."""

    days: int
    """Of the calendar, from the first to the last."""
    nights: int
    seconds: float
    """Of the processor."""


def alike(problem: Problem) -> Problem:
    """Leave a house of the demo house's windows as it is."""
    return problem


def unlike(problem: Problem) -> Problem:
    """Mix the windows, and have each step take more or less time than it does."""
    random = Random(SEED)  # noqa: S311 - it draws houses, and keeps no secret
    jobs = list(problem.jobs)
    random.shuffle(jobs)
    return replace(
        problem, jobs=tuple(_at_another_pace(job, random.uniform(*HOURS)) for job in jobs)
    )


def _at_another_pace(job: Job, factor: float) -> Job:
    slots = [max(1, round(stage.slots * factor)) for stage in job.stages]
    stages = [replace(stage, slots=own) for stage, own in zip(job.stages, slots, strict=True)]
    return replace(job, stages=tuple(stages))


def short_of_people(problem: Problem) -> Problem:
    """Have one person at work, and boards and places enough."""
    return replace(unlike(problem), crew=1, boards=12, out=40)


HOUSES: dict[str, Callable[[Problem], Problem]] = {
    "the demo house's": alike,
    "no two alike": unlike,
    "no two alike, one person, many boards": short_of_people,
}


def main(sizes: tuple[int, ...] = SIZES) -> list[str]:
    """Schedule houses both ways and give the figures as lines of Markdown."""
    lines = [
        "| house | windows | days, ours | none ends before | days, list | ratio "
        "| nights, ours | nights, list | ratio | s, ours | s, list | most MiB |",
        f"| --- |{' ---: |' * 11}",
    ]
    # A process for each question, one after another: the memory is then that question's own.
    with ProcessPoolExecutor(1, get_context("spawn"), max_tasks_per_child=1) as processes:
        for house_name in HOUSES:
            for line in processes.map(_line, [house_name] * len(sizes), sizes):
                lines.append(line)
                print(line, file=sys.stderr, flush=True)
    return [
        *lines,
        "",
        "Days are of the calendar; nights are those that openings are boarded, all together; "
        "seconds are the processor's; memory is that of the whole process. "
        "`evenhung programme` asks three times: with putty and paint at their least and most, too.",
    ]


def _line(house_name: str, windows: int) -> str:
    problem = HOUSES[house_name](_asked(windows))
    ours, bound = _ours(problem)
    peak_mib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    simple = _listed(problem)
    return (
        f"| {house_name} | {windows} | {ours.days} | {bound} | {simple.days} "
        f"| {ours.days / simple.days:.2f} "
        f"| {ours.nights} | {simple.nights} | {ours.nights / simple.nights:.2f} "
        f"| {ours.seconds:.1f} | {simple.seconds:.3f} | {peak_mib:.0f} |"
    )


class _Asked(Exception):
    """Stops a programme at its first question."""


def _asked(windows: int) -> Problem:
    """Give what a programme asks of the solver first: how soon the work can end."""
    survey = house_of(windows)
    del survey["house"]["programme"]["deadline"]
    plan = plan_house(survey_from(survey))
    with mock.patch.object(house, "schedule", side_effect=_Asked) as asked, suppress(_Asked):
        programme_of(plan, today=START)
    problem = asked.call_args.args[0]
    assert isinstance(problem, Problem)
    return problem


def _ours(problem: Problem) -> tuple[Outcome, int]:
    begun = time.process_time()
    found = schedule(problem)
    taken = time.process_time() - begun
    assert isinstance(found, Answer), found
    return _outcome(problem, found.starts, taken), found.bound_day - problem.days[0] + 1


def _listed(problem: Problem) -> Outcome:
    begun = time.process_time()
    starts = ListSchedule(problem).starts()
    return _outcome(problem, starts, time.process_time() - begun)


def _outcome(problem: Problem, starts: tuple[tuple[int, ...], ...], seconds: float) -> Outcome:
    assert not list(broken_rules(problem, starts))
    pairs = list(zip(problem.jobs, starts, strict=True))
    last = max(problem.day(last_slot(job, own)) for job, own in pairs)
    nights = sum(len(nights_of(problem, job, own)) for job, own in pairs)
    return Outcome(last - problem.days[0] + 1, nights, seconds)


class ListSchedule:
    """Half hour by half hour, the opening that is furthest on first, then the next in the survey.

    An opening is begun only while there is a board for it until it is whole again; days on which
    rooms are needed, orders of windows and deadlines are not asked for here.
    """

    def __init__(self, problem: Problem) -> None:
        assert not any(job.barred or job.after or job.begun for job in problem.jobs)
        self._problem = problem
        self._starts: list[list[int]] = [[] for _ in problem.jobs]
        self._ready = [0] * len(problem.jobs)
        self._busy: list[tuple[int, bool]] = []
        """When each that is at work will be free, and whether they are at a bench."""

    def starts(self) -> tuple[tuple[int, ...], ...]:
        """Give the slot at which each stage of each job begins."""
        slot = 0
        while any(self._is_left(job) for job in range(len(self._starts))):
            self._busy = [one for one in self._busy if one[0] > slot]
            for job in sorted(filter(self._is_left, range(len(self._starts))), key=self._turn):
                if self._may_begin(job, slot):
                    self._begin(job, slot)
            slot += 1
        return tuple(map(tuple, self._starts))

    def _is_left(self, job: int) -> bool:
        return len(self._starts[job]) < len(self._problem.jobs[job].stages)

    def _turn(self, job: int) -> tuple[int, int]:
        return -len(self._starts[job]), job

    def _may_begin(self, job: int, slot: int) -> bool:
        problem, stage = self._problem, self._problem.jobs[job].stages[len(self._starts[job])]
        left_today = problem.slots_a_day - slot % problem.slots_a_day
        return (
            slot >= self._ready[job]
            and len(self._busy) < problem.crew
            and not (stage.slots <= problem.slots_a_day and stage.slots > left_today)
            and not (stage.at_bench and sum(bench for _, bench in self._busy) >= problem.benches)
            and (bool(self._starts[job]) or self._may_open(job, slot))
        )

    def _may_open(self, job: int, slot: int) -> bool:
        """Tell whether there are boards and room for one more opening."""
        problem = self._problem
        opened = [
            other
            for other, own in enumerate(self._starts)
            if own and (self._is_left(other) or last_slot(problem.jobs[other], tuple(own)) >= slot)
        ]
        out = sum(problem.jobs[other].pieces for other in opened)
        return len(opened) < problem.boards and out + problem.jobs[job].pieces <= problem.out

    def _begin(self, job: int, slot: int) -> None:
        problem, stage = self._problem, self._problem.jobs[job].stages[len(self._starts[job])]
        self._starts[job].append(slot)
        end = slot + stage.slots
        self._busy.append((end, stage.at_bench))
        waited = bisect_left(problem.days, problem.day(end - 1) + stage.wait)
        self._ready[job] = max(end, waited * problem.slots_a_day if stage.wait else end)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Schedule houses beside a list schedule.")
    parser.add_argument("--sizes", type=int, nargs="+", default=list(SIZES))
    print("\n".join(main(tuple(parser.parse_args().sizes))))
