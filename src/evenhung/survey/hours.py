"""Hours of work: how long an operation takes here, and how long it took."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.reference import keys
from evenhung.survey.decision import a_date
from evenhung.survey.fields import (
    Record,
    a_choice,
    a_name,
    a_note,
    a_number,
    a_text,
    either,
    plain,
    required,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pydantic_core import CoreSchema

    from evenhung.survey.fields import Refusal

MOST_HOURS = 1000


def an_operation() -> CoreSchema:
    """Accept one of the operations that the labour table knows."""
    return a_name(lambda: keys("labour"), "an operation")


class Hours(Record):
    """Least, likely and most hours."""

    least: float = required(a_number(0, MOST_HOURS), "the least it takes, where all goes well")
    likely: float = required(a_number(0, MOST_HOURS), "what it takes mostly")
    most: float = required(a_number(0, MOST_HOURS), "the most, where it goes badly")

    def contradictions(self) -> Iterable[Refusal]:
        """Give hours that do not rise, or that are none."""
        given = f"{self.least}, {self.likely}, {self.most}"
        if not self.least <= self.likely <= self.most:
            yield "likely", given, "least, likely and most in rising order"
        elif self.most == 0:
            yield "most", given, "more than no hours at all"


class Rate(Record):
    """How long one operation takes here."""

    operation: str = required(an_operation(), "which operation")
    hours: float | Hours = required(
        either(Hours, a_number(0.01, MOST_HOURS)),
        "of one person for one of it, or a metre, or a square metre; one value may stand alone",
        Hours,
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")


class Booked(Record):
    """Hours that were worked."""

    id: str | None = plain(a_text(), "given on the first save and never changed", "not yet saved")
    window: str = required(a_text(), "tag or id of the window")
    operation: str = required(an_operation(), "what was done")
    hours: float = required(a_number(0.01, MOST_HOURS), "of all who worked at it, together")
    quantity: float | None = plain(
        a_number(0.01, 10_000), "how many, or how many metres or square metres, were done", "1"
    )
    on: str | None = plain(a_date(), "the day, year first", "not recorded")
    by: str | None = plain(a_text(), "who worked", "not recorded")
    removed: str | None = plain(
        a_choice("no", "yes"),
        "whether that window has been taken out of the house since: its hours are kept as history",
        "no",
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")
