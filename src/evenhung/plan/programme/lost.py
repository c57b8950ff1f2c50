"""What a lost day does to a programme: nothing if nobody was to work on it, else little.

What was begun before it stays as it was. The rest ends as soon as can be; of all ways to do that
one is taken that moves the fewest windows, and in them the fewest steps.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from evenhung.allot.schedule import Conflict, schedule

if TYPE_CHECKING:
    from evenhung.allot.schedule import Answer, Problem
    from evenhung.plan.programme.task import Task


def replanned(task: Task, problem: Problem, found: Answer) -> tuple[Problem, Answer | Conflict]:
    """Give a programme after all days that were lost, and what was asked for it.

    Parameters
    ----------
    task
        The work, and the days that were lost.
    problem
        What was asked first, as if no day were lost.
    found
        What was answered to it.
    """
    lost = task.settings.lost
    for count, day in enumerate(lost, 1):
        number = day.toordinal()
        if not is_worked(problem, found, number):
            problem, found = _without(problem, found, number)
            continue
        jobs = tuple(
            replace(
                job,
                begun=tuple(slot for slot in own if problem.day(slot) < number),
                wished=tuple(
                    (problem.day(slot), problem.day(slot + stage.slots - 1))
                    for stage, slot in zip(job.stages, own, strict=True)
                ),
            )
            for job, own in zip(problem.jobs, found.starts, strict=True)
        )
        asked = task.problem("likely", lost[:count])
        problem = replace(asked, jobs=jobs, resume=number)
        again = schedule(problem)
        if isinstance(again, Conflict):
            return problem, again
        found = again
    return problem, found


def is_worked(problem: Problem, found: Answer, day: int) -> bool:
    """Tell whether any stage is worked at on a day of the calendar."""
    return (
        any(
            problem.day(slot) <= day <= problem.day(slot + stage.slots - 1)
            for job, own in zip(problem.jobs, found.starts, strict=True)
            for stage, slot in zip(job.stages, own, strict=True)
        )
        and day in problem.days
    )


def _without(problem: Problem, found: Answer, day: int) -> tuple[Problem, Answer]:
    """Take a day out that nobody works on: every stage stays on its own days."""
    if day not in problem.days:
        return problem, found
    place = problem.days.index(day)
    days = (*problem.days[:place], *problem.days[place + 1 :])
    size = problem.slots_a_day
    starts = tuple(
        tuple(slot - size if slot >= place * size else slot for slot in own) for own in found.starts
    )
    return replace(problem, days=days), replace(found, starts=starts)
