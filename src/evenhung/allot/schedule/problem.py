"""The problem of a schedule as plain items, and its answer.

Work is counted in slots, so many to a working day; working days are strung together without the
nights and the days off between them. What has to be left alone is counted in days of the calendar,
which pass at night and on days off, too.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, TypeAlias

RuleKind: TypeAlias = Literal[
    "deadline", "crew", "benches", "out", "boards", "barred", "after", "done"
]
Status: TypeAlias = Literal["optimal", "feasible"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A part of a job that one person does without leaving it for another."""

    name: str
    slots: int
    """At least 1; what fits into a day is done within one."""
    wait: int = 0
    """Days of the calendar from its last day to the next stage's first; 0: on the same day."""
    at_bench: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One opening: from the start of its first stage to the end of its last it is taken apart."""

    name: str
    stages: tuple[Stage, ...]
    pieces: int
    """How many are out of their place meanwhile."""
    barred: frozenset[int] = frozenset()
    """Days of the calendar on which it must be whole and left alone."""
    after: tuple[int, ...] = ()
    """Jobs that must have ended before it begins."""
    begun: tuple[int, ...] = ()
    """Slots at which its first stages began already, which nothing changes."""
    wished: tuple[tuple[int, int], ...] = ()
    """First and last day of the calendar on which each stage was to be done: as few jobs as can be
    are moved to other days, and in them as few stages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """All jobs, the days, and what there is to do them with."""

    jobs: tuple[Job, ...]
    days: tuple[int, ...]
    """Working days as numbers of the calendar, rising, as many as could be needed."""
    slots_a_day: int
    crew: int
    benches: int
    out: int
    """Pieces that may be out of their places at once."""
    boards: int
    """Openings that may be left open at night: so many can be boarded."""
    deadline: int | None = None
    """The last day of the calendar on which work may end."""
    resume: int | None = None
    """What is not begun yet begins on this day of the calendar or later."""
    effort: float = 5.0
    """Deterministic effort of the solver for each question that it is asked."""

    @property
    def first_free_slot(self) -> int:
        """The first slot at which anything that is not begun yet may begin."""
        if self.resume is None:
            return 0
        return bisect_left(self.days, self.resume) * self.slots_a_day

    def day(self, slot: int) -> int:
        """Give the day of the calendar of a slot."""
        return self.days[slot // self.slots_a_day]


class Rule(NamedTuple):
    """One thing that a schedule must keep to."""

    kind: RuleKind
    job: int | None = None
    """Whose rule it is; None where it is everybody's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A schedule, and how good it is proved to be."""

    starts: tuple[tuple[int, ...], ...]
    """Slot at which each stage of each job begins."""
    last_day: int
    """Day of the calendar on which the last stage ends."""
    bound_day: int
    """No schedule ends before this day."""
    nights: int
    """Nights that openings are boarded, all together."""
    status: Status
    """Whether no schedule ends sooner, proved."""
    nights_are_fewest: bool
    """Whether no schedule that ends as soon has openings boarded for less, proved; never where
    days were wished for, for then as few stages as can be are moved first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Rules that cannot all be kept."""

    rules: tuple[Rule, ...] = field(default=())
    is_minimal: bool = True
    """Whether any of them, left out, would let the others be kept; proved."""
    is_proved: bool = True
    """Whether they cannot be kept; else no schedule that keeps them was found."""
