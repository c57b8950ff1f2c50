"""The work of a house by its windows, put to the solver in several ways."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

from evenhung.allot.schedule import Conflict, Job, Problem, schedule
from evenhung.plan.price.hours import hours_of
from evenhung.plan.price.house import seen_in
from evenhung.plan.price.pace import learnt_from
from evenhung.plan.programme.stages import stages_of, waits_of

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from evenhung.allot.schedule import Stage
    from evenhung.plan.house import HousePlan
    from evenhung.plan.programme.settings import Settings
    from evenhung.plan.programme.stages import Guess
    from evenhung.plan.work import Operation, Work
    from evenhung.survey.window import Window

MOST_DAYS = 750
"""Working days looked ahead at the most: three years."""

PLACES = ("upper", "lower")

SPARE_DAYS = 80
"""Working days looked ahead besides what the work and its waits come to."""


class Task:
    """The work of a house by its windows."""

    def __init__(self, plan: HousePlan, work: Sequence[Work], settings: Settings) -> None:
        self.plan, self.settings = plan, settings
        self._work: dict[str, list[Work]] = {}
        for one in work:
            if one.quantity > 0.0:
                self._work.setdefault(one.window, []).append(one)
        self.windows = [one for one in plan.survey.window if one.tag in self._work]
        self._hours = _expected_hours(plan, work)

    @property
    def has_waits(self) -> bool:
        """Whether anything waits for putty or paint."""
        jobs = self.problem("most").jobs
        return any(stage.wait for job in jobs for stage in job.stages)

    def problem(self, guess: Guess, lost: Collection[date] = ()) -> Problem:
        """Give what is asked of the solver, putty and paint taken at a guess.

        Parameters
        ----------
        guess
            How long putty and paint are left alone.
        lost
            Days that are not worked, besides days off and holidays.
        """
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
        )

    def end(self, guess: Guess, likely: Problem) -> date | None:
        """Give the end if putty and paint take as much as a guess says, the deadline apart.

        Parameters
        ----------
        guess
            How long putty and paint are left alone from now on.
        likely
            What was asked last: what it says is begun went as it went, whatever the guess.

        Returns
        -------
        datetime.date or None
            None where the other rules cannot all be kept then.
        """
        asked = self.problem(guess, self.settings.lost)
        jobs = tuple(
            replace(job, begun=now.begun, stages=_as_they_went(job, now.begun, likely))
            for job, now in zip(asked.jobs, likely.jobs, strict=True)
        )
        found = schedule(
            replace(asked, jobs=jobs, resume=likely.resume, deadline=None), is_rough=True
        )
        return None if isinstance(found, Conflict) else date.fromordinal(found.last_day)


def _as_they_went(job: Job, begun: tuple[int, ...], likely: Problem) -> tuple[Stage, ...]:
    """Give the stages of a job; where the next is begun, no longer wait is asked than there was."""
    stages = list(job.stages)
    for number, (start, following) in enumerate(pairwise(begun)):
        stage = stages[number]
        waited = likely.day(following) - likely.day(start + stage.slots - 1)
        stages[number] = replace(stage, wait=min(stage.wait, waited))
    return tuple(stages)


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
