"""Why work cannot be scheduled, in the words of the survey: the one place that says it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from evenhung.allot.schedule.alone import end_alone, least_of, nights_are_needed

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Sequence

    from evenhung.allot.schedule import Conflict, Job, Problem
    from evenhung.plan.programme.settings import Settings
    from evenhung.survey.window import Window

MOST_NAMED = 4
"""Windows that are named one by one; of more, the others are counted."""


def reasons(
    conflict: Conflict, problem: Problem, windows: Sequence[Window], settings: Settings
) -> tuple[str, ...]:
    """Say every rule that has part in a conflict, and which windows it stops.

    Parameters
    ----------
    conflict
        The rules.
    problem
        What was asked.
    windows
        The windows whose jobs it has, in their order.
    settings
        The days and the means.
    """
    kinds = {rule.kind for rule in conflict.rules}
    said: dict[str, Callable[[], str]] = {
        "deadline": lambda: _deadline(problem, settings),
        "crew": lambda: _crew(problem, settings, is_late="deadline" in kinds),
        "benches": lambda: _benches(problem, settings),
        "out": lambda: _out(problem, settings),
        "boards": lambda: _boards(problem, settings),
    }
    return tuple(
        said[rule.kind]() if rule.job is None else _of_window(rule.kind, rule.job, problem, windows)
        for rule in conflict.rules
    )


def _deadline(problem: Problem, settings: Settings) -> str:
    """Say the deadline; which windows need more days than it leaves, or which needs most."""
    ends = f"the work shall end by {settings.deadline}"
    begins = max(settings.start.toordinal(), problem.resume or 0)
    last = problem.deadline or 0
    left = [day for day in problem.days if begins <= day <= last]
    if not left:
        return f"{ends}: from {_date(begins)} on no working day is left"
    leaves = f"{ends}, which leaves {_count(last - left[0] + 1, 'day')} from {_date(left[0])}"
    late = [job for job in problem.jobs if (end_alone(problem, job) or last + 1) > last]
    longest, *others = sorted(late or problem.jobs, key=lambda job: -_days_alone(problem, job))
    if not late:
        return f"{leaves}: the longest, {longest.name}, needs {_needs(problem, longest)}"
    too = f"; {listed([job.name for job in others])} cannot be done either" if others else ""
    return f"{leaves}: {longest.name} needs {_needs(problem, longest)}{too}"


def _needs(problem: Problem, job: Job) -> str:
    """Say the days on end that a window needs at the least, and what of them only waits."""
    days = f"{_count(_days_alone(problem, job), 'day')} on end"
    putty = sum(stage.wait for stage in job.stages if not _is_coat(stage.name))
    paint = sum(stage.wait for stage in job.stages if _is_coat(stage.name))
    both = ((putty, "for putty to skin"), (paint, "for paint to dry"))
    waits = [f"{number} {what}" for number, what in both if number]
    return f"{days} (of them {' and '.join(waits)})" if waits else days


def _is_coat(name: str) -> bool:
    return name.startswith("coat ")


def _days_alone(problem: Problem, job: Job) -> int:
    return least_of(problem, job, len(problem.days)).nights + 1


def _crew(problem: Problem, settings: Settings, *, is_late: bool) -> str:
    people = _count(settings.crew, "person", "people")
    said = f"{people} at work, {settings.hours_a_day:g} h a day"
    if not is_late or problem.deadline is None:
        return said
    free = problem.days[problem.first_free_slot // problem.slots_a_day :]
    days = sum(day <= problem.deadline for day in free)
    has = days * problem.slots_a_day * problem.crew / 2
    needs = sum(stage.slots for job in problem.jobs for stage in job.stages[len(job.begun) :]) / 2
    return f"{said}: {has:g} h to the last day, where the work takes {needs:g} h"


def _benches(problem: Problem, settings: Settings) -> str:
    hours = sum(stage.slots for job in problem.jobs for stage in job.stages if stage.at_bench) / 2
    most = f"at most {_count(settings.benches, 'window')} at the bench at once"
    return f"{most}, where the work takes {hours:g} h at a bench"


def _out(problem: Problem, settings: Settings) -> str:
    most = f"at most {_count(settings.sashes_out, 'sash', 'sashes')} out at once"
    more = [job.name for job in problem.jobs if job.pieces > problem.out]
    if not more:
        return most
    pieces = max(job.pieces for job in problem.jobs)
    return f"{most}, and {pieces} are out of {listed(more)}"


def _boards(problem: Problem, settings: Settings) -> str:
    if settings.boards:
        return f"at most {_count(settings.boards, 'opening')} boarded at night"
    open_at_night = [job.name for job in problem.jobs if nights_are_needed(problem, job)]
    said = "no opening can be boarded at night"
    if not open_at_night:
        return said
    return f"{said}, and {listed(open_at_night)} cannot be done within a day"


def _of_window(kind: str, number: int, problem: Problem, windows: Sequence[Window]) -> str:
    job, tag = problem.jobs[number], windows[number].tag
    if kind == "after":
        others = listed([windows[other].tag for other in job.after])
        return f"{tag} is begun only when {others} is back in"
    if kind == "barred":
        return f"{tag} is needed whole {spans(job.barred)}, and needs {_needs(problem, job)}"
    return f"what was begun at {tag} on {_date(problem.day(job.begun[0]))} is not moved"


def spans(days: Collection[int]) -> str:
    """Say days of the calendar, those that follow each other together.

    Examples
    --------
    >>> spans({739684, 739685, 739690})
    'from 2026-03-09 to 2026-03-10 and on 2026-03-15'
    """
    found: list[list[int]] = []
    for day in sorted(days):
        if found and day == found[-1][1] + 1:
            found[-1][1] = day
        else:
            found.append([day, day])
    said = [
        f"on {_date(first)}" if first == last else f"from {_date(first)} to {_date(last)}"
        for first, last in found
    ]
    return listed(said)


def listed(names: Iterable[str]) -> str:
    """Name some things; where there are many, the first of them, and how many others.

    Examples
    --------
    >>> listed(["W1", "W2", "W3"])
    'W1, W2 and W3'
    >>> listed(["W1", "W2", "W3", "W4", "W5", "W6"])
    'W1, W2, W3, W4 and 2 others'
    """
    names = list(names)
    if len(names) > MOST_NAMED + 1:
        rest = len(names) - MOST_NAMED
        return f"{', '.join(names[:MOST_NAMED])} and {rest} others"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1]))) if names else ""


def _date(day: int) -> date:
    return date.fromordinal(day)


def _count(number: int, one: str, several: str = "") -> str:
    return f"{number} {one if number == 1 else several or f'{one}s'}"
