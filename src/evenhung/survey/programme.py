"""When the work is done: days, people, benches, and how long putty and paint are left alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.decision import a_date
from evenhung.survey.fields import (
    Record,
    a_choice,
    a_count,
    a_note,
    a_number,
    assumed,
    optional_part,
    plain,
    required,
    several,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.survey.fields import Refusal

WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
USUAL_WEEK = WEEK[:5]


class Wait(Record):
    """Least, likely and most days that something is left alone."""

    least: int = required(a_count(0, 90), "in warm and dry air")
    likely: int = required(a_count(0, 90), "mostly")
    most: int = required(a_count(0, 90), "in cold or damp air")

    def contradictions(self) -> Iterable[Refusal]:
        """Give days that do not rise."""
        if not self.least <= self.likely <= self.most:
            given = f"{self.least}, {self.likely}, {self.most}"
            yield "likely", given, "least, likely and most in rising order"


class Programme(Record):
    """When and by how many the work is done."""

    start: str | None = plain(a_date(), "first day of work", "the day that is asked")
    deadline: str | None = plain(a_date(), "last day of work", "there is none")
    days: tuple[str, ...] = plain(
        several(a_choice(*WEEK), least=1, most=7), "worked in a week", "Monday to Friday"
    )
    holidays: tuple[str, ...] = plain(
        several(a_date(), most=366), "days on which nobody works", "none"
    )
    lost: tuple[str, ...] = plain(
        several(a_date(), most=366), "days that were to be worked and were not", "none"
    )
    hours_a_day: float | None = assumed(
        a_number(1, 16), "worked by each", "policy/programme/hours_a_day"
    )
    crew: int | None = plain(
        a_count(1, 50), "people at work", "as many as the price's crew, else 1"
    )
    benches: int | None = assumed(
        a_count(1, 100), "windows at the bench at once", "policy/programme/benches"
    )
    sashes_out: int | None = assumed(
        a_count(1, 1000), "sashes out of their frames at once", "policy/programme/sashes_out"
    )
    boards: int | None = assumed(
        a_count(0, 500), "openings that can be boarded at night", "policy/programme/boards"
    )
    coats: int | None = assumed(a_count(1, 6), "of paint", "policy/programme/coats")
    putty_skin: Wait | None = optional_part(
        Wait, "days from glazing to the first coat", "the reference's"
    )
    recoat: Wait | None = optional_part(Wait, "days from coat to coat", "the reference's")

    def contradictions(self) -> Iterable[Refusal]:
        """Give a programme that ends before it begins."""
        if self.start and self.deadline and self.deadline < self.start:
            yield "deadline", repr(self.deadline), f"a day not before the start, {self.start}"

    def wants(self, field: str) -> bool:  # noqa: ARG002 - whichever it is
        """Want nothing: what is assumed here is said where a programme is made."""
        return False


class Needed(Record):
    """Days on which the household needs the room as it is."""

    first: str = required(a_date(), "first day on which the room is needed")
    last: str | None = plain(a_date(), "last day", "the same day")
    note: str | None = plain(a_note(), "what for", "not recorded")

    def contradictions(self) -> Iterable[Refusal]:
        """Give days that end before they begin."""
        if self.last is not None and self.last < self.first:
            yield "last", repr(self.last), f"a day not before the first, {self.first}"
