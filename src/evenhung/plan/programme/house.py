"""The programme of a house: begin here. Work in; days out, or what cannot be kept together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.schedule import Answer, Conflict, Problem, schedule
from evenhung.plan.job import job_of
from evenhung.plan.programme.conflict import reasons
from evenhung.plan.programme.lost import replanned
from evenhung.plan.programme.settings import Settings, settings_of
from evenhung.plan.programme.task import Task
from evenhung.plan.programme.visits import changes_between, visits_of

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from evenhung.plan.house import HousePlan
    from evenhung.plan.programme.visits import Change, Visit
    from evenhung.plan.work import Work


class Programme(NamedTuple):
    """When everything is done."""

    plan: HousePlan
    settings: Settings
    visits: tuple[Visit, ...]
    """In the order in which windows are begun; none where there is a conflict."""
    answer: Answer | None
    conflict: tuple[str, ...]
    """Why it cannot be scheduled; empty where it can."""
    is_proved_conflict: bool
    """Whether it cannot, proved; else no programme that keeps all rules was found."""
    is_whole_reason: bool
    """Whether every part of that is needed, proved."""
    without_deadline: date | None
    """Where the deadline is part of a conflict: when the work could end without it."""
    has_waits: bool
    """Whether anything waits for putty or paint."""
    earliest: date | None
    """The end where putty and paint need their least; None where nothing waits for them, or where
    the other rules cannot all be kept then."""
    latest: date | None
    """The end where they need their most; None likewise."""
    changes: tuple[Change, ...]
    """What lost days have moved."""

    @property
    def end(self) -> date | None:
        """The last day of work."""
        return None if self.answer is None else date.fromordinal(self.answer.last_day)

    @property
    def soonest(self) -> date | None:
        """No programme ends before this day."""
        return None if self.answer is None else date.fromordinal(self.answer.bound_day)


def programme_of(
    plan: HousePlan,
    *,
    work: Sequence[Work] | None = None,
    today: date,
    lost: Collection[date] = (),
) -> Programme:
    """Set the work on a house into days.

    Parameters
    ----------
    plan
        The plan of the house.
    work
        What is done; None takes the whole job, hang and overhaul.
    today
        Stands in for a start that the survey does not state.
    lost
        Days lost besides those that the survey states.

    Returns
    -------
    Programme
        The same for the same survey: the solver works by a set effort. Where days were lost on
        which somebody was to work, what was begun before each of them stays as it was, and of the
        rest as few windows as can be are moved. Any other lost day moves nothing.
    """
    settings = settings_of(plan.survey.house, today, lost)
    task = Task(plan, job_of(plan).work if work is None else work, settings)
    first_asked = task.problem("likely")
    first = schedule(first_asked)
    if isinstance(first, Conflict):
        return _cannot(task, first_asked, first)
    problem, found = replanned(task, first_asked, first)
    if isinstance(found, Conflict):
        return _cannot(task, problem, found)
    was = visits_of(task.windows, first_asked, first)
    order = {one.window.tag: place for place, one in enumerate(was)}
    visits = visits_of(task.windows, problem, found, order)
    has_waits = task.has_waits
    return Programme(
        plan=plan,
        settings=settings,
        visits=visits,
        answer=found,
        conflict=(),
        is_proved_conflict=True,
        is_whole_reason=True,
        without_deadline=None,
        has_waits=has_waits,
        earliest=task.end("least", problem) if has_waits else None,
        latest=task.end("most", problem) if has_waits else None,
        changes=changes_between(was, visits),
    )


def _cannot(task: Task, problem: Problem, found: Conflict) -> Programme:
    """Say why; where the deadline has part in it, when the work could end without it."""
    because = reasons(found, problem, task.windows, task.settings)
    could = None
    if any(rule.kind == "deadline" for rule in found.rules):
        free = schedule(replace(problem, deadline=None), is_rough=True)
        could = None if isinstance(free, Conflict) else date.fromordinal(free.last_day)
    return Programme(
        plan=task.plan,
        settings=task.settings,
        visits=(),
        answer=None,
        conflict=because,
        is_proved_conflict=found.is_proved,
        is_whole_reason=found.is_minimal,
        without_deadline=could,
        has_waits=False,
        earliest=None,
        latest=None,
        changes=(),
    )
