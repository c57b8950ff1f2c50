"""The steps of a programme by their windows, and what of them has moved."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.programme.stages import SLOT_HOURS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from evenhung.allot.schedule import Answer, Problem
    from evenhung.survey.window import Window


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
    """A step that is done on other days than it was to be, for a day was lost."""

    window: str
    step: str
    was: date
    was_last: date
    now: date
    now_last: date


def visits_of(
    windows: Sequence[Window],
    problem: Problem,
    found: Answer,
    order: Mapping[str, int] | None = None,
) -> tuple[Visit, ...]:
    """Give the windows of an answer in the order in which they are begun.

    Parameters
    ----------
    windows
        The windows whose jobs the problem has, in their order.
    problem
        What was asked.
    found
        What was answered.
    order
        Which of those that are begun on one day comes first, by tag; None: that is begun first.
    """
    visits = []
    for window, job, own in zip(windows, problem.jobs, found.starts, strict=True):
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
        turn = own[0] if order is None else order[window.tag]
        visits.append((steps[0].first, turn, Visit(window, job.pieces, steps)))
    return tuple(visit for _, _, visit in sorted(visits, key=lambda one: one[:2]))


def changes_between(was: Sequence[Visit], now: Sequence[Visit]) -> tuple[Change, ...]:
    """Give every step whose first or last day is another one, and no other, in their new order."""
    before = {(one.window.tag, step.name): step for one in was for step in one.steps}
    pairs = [
        (one.window.tag, before[one.window.tag, step.name], step)
        for one in now
        for step in one.steps
    ]
    return tuple(
        Change(window, step.name, old.first, old.last, step.first, step.last)
        for window, old, step in pairs
        if (old.first, old.last) != (step.first, step.last)
    )
