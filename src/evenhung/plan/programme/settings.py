"""The days and the means of a programme: as the survey states them, else the reference's."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed
from evenhung.plan.programme.stages import SLOT_HOURS
from evenhung.survey.programme import USUAL_WEEK, WEEK

if TYPE_CHECKING:
    from collections.abc import Collection
    from typing import Any

    from evenhung.survey.house import House

FIELDS = ("hours_a_day", "benches", "sashes_out", "boards", "coats")


class Settings(NamedTuple):
    """What a programme is made with."""

    start: date
    deadline: date | None
    week: tuple[str, ...]
    holidays: frozenset[date]
    lost: tuple[date, ...]
    """In their order."""
    crew: int
    hours_a_day: float
    benches: int
    sashes_out: int
    boards: int
    coats: int
    granted: tuple[str, ...]
    """What stands in for what the survey leaves open, in words."""

    @property
    def slots_a_day(self) -> int:
        """Half hours of one person in a day."""
        return max(1, int(self.hours_a_day / SLOT_HOURS))

    def working_days(self, count: int, without: Collection[date] = ()) -> tuple[int, ...]:
        """Give the first working days, each by its number in the calendar."""
        found, day = list[int](), self.start
        while len(found) < count:
            is_off = day in self.holidays or day in without
            if WEEK[day.weekday()] in self.week and not is_off:
                found.append(day.toordinal())
            day += timedelta(days=1)
        return tuple(found)


def settings_of(house: House, today: date, lost: Collection[date] = ()) -> Settings:
    """Settle what a programme is made with.

    Parameters
    ----------
    house
        The house; its programme's own figures come first.
    today
        Stands in for a start that is not stated.
    lost
        Days lost besides those that the survey states.
    """
    stated = house.programme
    granted = []
    values: dict[str, Any] = {}
    for field in FIELDS:
        values[field] = getattr(stated, field)
        if values[field] is None:
            row = assumed(f"policy/programme/{field}")
            values[field] = row.value
            says = type(stated).entries[field].says
            granted.append(f"{field.replace('_', ' ')}: {row.printed}, {says} ({row.source})")
    people = sum(hand.count or 1 for hand in house.price.crew)
    all_lost = {*map(date.fromisoformat, stated.lost or ()), *lost}
    return Settings(
        start=date.fromisoformat(stated.start) if stated.start else today,
        deadline=date.fromisoformat(stated.deadline) if stated.deadline else None,
        week=stated.days or USUAL_WEEK,
        holidays=frozenset(map(date.fromisoformat, stated.holidays or ())),
        lost=tuple(sorted(all_lost)),
        crew=stated.crew or people or 1,
        hours_a_day=float(values["hours_a_day"]),
        benches=int(values["benches"]),
        sashes_out=int(values["sashes_out"]),
        boards=int(values["boards"]),
        coats=int(values["coats"]),
        granted=tuple(granted),
    )
