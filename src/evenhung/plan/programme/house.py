"""The programme of a house: begin here. Work in; days out, or what cannot be kept together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.schedule import Answer, Conflict, Job, Problem, schedule
from evenhung.plan.job import job_of
from evenhung.plan.price.hours import hours_of
from evenhung.plan.price.house import seen_in
from evenhung.plan.price.pace import learnt_from
from evenhung.plan.programme.conflict import because
from evenhung.plan.programme.settings import Settings, settings_of
from evenhung.plan.programme.stages import SLOT_HOURS, stages_of, waits_of

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence

    from evenhung.plan.house import HousePlan
    from evenhung.plan.programme.stages import Guess
    from evenhung.plan.work import Operation, Work
    from evenhung.survey.window import Window

MOST_DAYS = 750
"""Working days looked ahead at the most: three years."""

PLACES = ("upper", "lower")

SPARE_DAYS = 80
"""Working days looked ahead besides what the work and its waits come to."""


class Step(NamedTuple):
    """One stage at one window."""

    name: str
    first: date
    last: date
    hours: float
    """Of one person, in half hours [h]."""
    is_begun: bool
    """Whether it was begun before the last day that was lost, and so is not moved."""


class Visit(NamedTuple):
    """One window, from when it is taken apart until it is whole again."""

    window: Window
    sashes: int
    """That are out of the frame."""
    steps: tuple[Step, ...]

    @property
    def first(self) -> date:
        """The day on which it is taken apart."""
        return self.steps[0].first

    @property
    def last(self) -> date:
        """The day on which it is whole again."""
        return self.steps[-1].last

    @property
    def nights(self) -> int:
        """Nights on which it is boarded."""
        return (self.last - self.first).days


class Change(NamedTuple):
    """A step that a lost day has moved."""

    window: str
    step: str
    was: date
    now: date


class Programme(NamedTuple):
    """When everything is done."""

    plan: HousePlan
    settings: Settings
    visits: tuple[Visit, ...]
    """In the order in which windows are begun; none where there is a conflict."""
    answer: Answer | None
    conflict: tuple[str, ...]
    """Why it cannot be scheduled; empty where it can."""
    is_whole_reason: bool
    """Whether every part of that is needed, proved."""
    without_deadline: date | None
    """Where the deadline is part of a conflict: when the work could end without it."""
    earliest: date | None
    """The end where putty and paint need their least; None where nothing waits for them."""
    latest: date | None
    """The end where they need their most."""
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
        The same for the same survey: the solver works by a set effort. Where days were lost, what
        was begun before each of them stays as it was, and of the rest little is moved.
    """
    settings = settings_of(plan.survey.house, today, lost)
    task = _Task(plan, job_of(plan).work if work is None else work, settings)
    problem = task.problem("likely", settings.lost[:0])
    found = schedule(problem)
    first = found
    for count, day in enumerate(settings.lost, 1):
        if isinstance(found, Conflict):
            break
        begun, wished = _begun(problem, found, day), _first_days(problem, found)
        problem = task.problem("likely", settings.lost[:count], begun, wished)
        found = schedule(problem)
    if isinstance(found, Conflict):
        return _cannot(task, problem, found)
    was = () if isinstance(first, Conflict) else _visits(task, task.problem("likely", ()), first)
    visits = _visits(task, problem, found)
    ends = [task.end("least", problem), task.end("most", problem)] if task.waits else [None, None]
    return Programme(
        plan, settings, visits, found, (), True, None, ends[0], ends[1], _changes(was, visits)
    )


def _cannot(task: _Task, problem: Problem, found: Conflict) -> Programme:
    """Say why; where the deadline has part in it, when the work could end without it."""
    reasons = tuple(because(rule, problem, task.windows, task.settings) for rule in found.rules)
    could = None
    if any(rule.kind == "deadline" for rule in found.rules):
        free = schedule(replace(problem, deadline=None), is_rough=True)
        could = None if isinstance(free, Conflict) else date.fromordinal(free.last_day)
    plan, settings = task.plan, task.settings
    return Programme(plan, settings, (), None, reasons, found.is_minimal, could, None, None, ())


class _Task:
    """The work of a house by its windows, ready to be asked in several ways."""

    def __init__(self, plan: HousePlan, work: Sequence[Work], settings: Settings) -> None:
        self.plan, self.settings = plan, settings
        self._work: dict[str, list[Work]] = {}
        for one in work:
            if one.quantity > 0.0:
                self._work.setdefault(one.window, []).append(one)
        self.windows = [one for one in plan.survey.window if one.tag in self._work]
        self._hours = _expected_hours(plan, work)

    @property
    def waits(self) -> bool:
        """Whether anything waits for putty or paint."""
        jobs = self.problem("most", ()).jobs
        return any(stage.wait for job in jobs for stage in job.stages)

    def problem(
        self,
        guess: Guess,
        lost: Collection[date],
        begun: Mapping[str, tuple[int, ...]] | None = None,
        wished: Mapping[str, tuple[int, ...]] | None = None,
    ) -> Problem:
        """Give what is asked of the solver, putty and paint taken at a guess."""
        settings = self.settings
        waits = waits_of(self.plan.survey.house.programme, guess)
        places = {one.tag: place for place, one in enumerate(self.windows)}
        places |= {one.id: place for place, one in enumerate(self.windows) if one.id}
        jobs = tuple(
            Job(
                name=window.tag,
                stages=stages_of(self._work[window.tag], self._hours, waits, settings.coats),
                pieces=sashes_out(self._work[window.tag]),
                barred=frozenset(_barred(window)),
                after=(places[window.after],) if window.after in places else (),
                begun=(begun or {}).get(window.tag, ()),
                wished=(wished or {}).get(window.tag, ()),
            )
            for window in self.windows
        )
        return Problem(
            jobs=jobs,
            days=settings.working_days(_days_ahead(jobs, settings), lost),
            slots_a_day=settings.slots_a_day,
            crew=settings.crew,
            benches=settings.benches,
            out=settings.sashes_out,
            boards=settings.boards,
            deadline=settings.deadline.toordinal() if settings.deadline else None,
            resume=max(lost).toordinal() if lost else None,
        )

    def end(self, guess: Guess, problem: Problem) -> date | None:
        """Give the end if putty and paint take as much as a guess says, the deadline apart."""
        begun = {job.name: job.begun for job in problem.jobs}
        asked = self.problem(guess, self.settings.lost, begun)
        found = schedule(replace(asked, deadline=None), is_rough=True)
        return None if isinstance(found, Conflict) else date.fromordinal(found.last_day)


def _expected_hours(plan: HousePlan, work: Sequence[Work]) -> dict[Operation, float]:
    """Give the hours to be expected for one of each operation, as the price has them."""
    house, pace = plan.survey.house, learnt_from(seen_in([plan.survey]))
    operations = dict.fromkeys(one.operation for one in work)
    return {one: hours_of(house, one).hours.mean * pace.factor(one) for one in operations}


def sashes_out(work: Sequence[Work]) -> int:
    """Give how many sashes of a window are out of it at once: those that anything is done to."""
    return max(1, sum(any(one.part.startswith(place) for one in work) for place in PLACES))


def _barred(window: Window) -> Iterator[int]:
    """Give the days on which a window must be whole."""
    for one in window.needed:
        first = date.fromisoformat(one.first)
        last = date.fromisoformat(one.last) if one.last else first
        yield from range(first.toordinal(), last.toordinal() + 1)


def _days_ahead(jobs: Sequence[Job], settings: Settings) -> int:
    """Give working days enough for every job by itself, one after another."""
    slots = sum(stage.slots for job in jobs for stage in job.stages)
    waits = sum(stage.wait for job in jobs for stage in job.stages)
    needed = {day for job in jobs for day in job.barred if day >= settings.start.toordinal()}
    ahead = SPARE_DAYS + slots // settings.slots_a_day + waits + len(needed)
    return min(MOST_DAYS, ahead + len(settings.lost))


def _begun(problem: Problem, found: Answer, lost: date) -> dict[str, tuple[int, ...]]:
    """Give what was begun before a day that was lost, by window."""
    return {
        job.name: tuple(slot for slot in own if problem.day(slot) < lost.toordinal())
        for job, own in zip(problem.jobs, found.starts, strict=True)
    }


def _first_days(problem: Problem, found: Answer) -> dict[str, tuple[int, ...]]:
    """Give the day on which each stage was to begin, by window."""
    return {
        job.name: tuple(problem.day(slot) for slot in own)
        for job, own in zip(problem.jobs, found.starts, strict=True)
    }


def _visits(task: _Task, problem: Problem, found: Answer) -> tuple[Visit, ...]:
    visits = []
    for window, job, own in zip(task.windows, problem.jobs, found.starts, strict=True):
        steps = tuple(
            Step(
                stage.name,
                date.fromordinal(problem.day(slot)),
                date.fromordinal(problem.day(slot + stage.slots - 1)),
                stage.slots * SLOT_HOURS,
                number < len(job.begun),
            )
            for number, (stage, slot) in enumerate(zip(job.stages, own, strict=True))
        )
        visits.append((own[0], Visit(window, job.pieces, steps)))
    return tuple(visit for _, visit in sorted(visits, key=lambda one: one[0]))


def _changes(was: Sequence[Visit], now: Sequence[Visit]) -> tuple[Change, ...]:
    """Give the steps that do not begin on the day they would have begun on."""
    before = {(one.window.tag, step.name): step.first for one in was for step in one.steps}
    return tuple(
        Change(one.window.tag, step.name, before[one.window.tag, step.name], step.first)
        for one in now
        for step in one.steps
        if before[one.window.tag, step.name] != step.first
    )
