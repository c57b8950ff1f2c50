"""The next looks at a house once it is hung: on its record, and as a calendar (RFC 5545)."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING, NamedTuple

from icalendar import Calendar, Event

from evenhung.plan.assumed import assumed, source_of

if TYPE_CHECKING:
    from evenhung.sheets.pack.house import PackHouse

NEW_CORDS, EVERY_WINDOW, PAINT = "new cords", "every window", "paint"


class Look(NamedTuple):
    """One look, or one that comes again."""

    key: str
    what: str
    how: str
    first: date
    every_years: int
    """0: it comes once."""
    source: str


def looks_of(house: PackHouse) -> list[Look]:
    """Give the looks at a house, the first one first."""
    on = house.edition.on
    settle = int(assumed("policy/upkeep/settle").value)
    yearly = int(assumed("policy/upkeep/look_years").value)
    repaint = int(assumed("policy/upkeep/repaint_years").value)
    return [
        Look(
            NEW_CORDS,
            "Look at the new cords",
            "Run each sash to both ends. A new cord creeps and its knot draws down: if a weight "
            "touches the bottom of its box, have the cord shortened.",
            on + timedelta(days=settle),
            0,
            source_of("policy/upkeep/settle"),
        ),
        Look(
            EVERY_WINDOW,
            "Look over every window",
            "Run each sash, look at cords, putty, paint, joints and sills, clear the drip groove, "
            "and see that each sash stays where it is put.",
            _years_on(on, yearly),
            yearly,
            source_of("policy/upkeep/look_years"),
        ),
        Look(
            PAINT,
            "Repaint outside",
            "Bring the paint a little over the glass; keep it off cords, wheels and the faces "
            "that slide. Treat old paint as lead until a test says otherwise.",
            _years_on(on, repaint),
            repaint,
            source_of("policy/upkeep/repaint_years"),
        ),
    ]


def _years_on(on: date, years: int) -> date:
    """Give the same day so many years on; the last of February where there is no such day.

    Examples
    --------
    >>> _years_on(date(2028, 2, 29), 1)
    datetime.date(2029, 2, 28)
    """
    try:
        return on.replace(year=on.year + years)
    except ValueError:
        return on.replace(year=on.year + years, day=28)


def calendar_of(house: PackHouse) -> bytes:
    """Give the next looks as a calendar file; the same looks keep their identities."""
    calendar = Calendar()
    calendar.add("prodid", "-//Evenhung//Next looks//EN")
    calendar.add("version", "2.0")
    stamp = datetime.combine(house.edition.on, time(), UTC)
    for look in looks_of(house):
        event = Event()
        event.add("uid", f"{look.key.replace(' ', '-')}.{house.edition.revision}@evenhung.invalid")
        event.add("dtstamp", stamp)
        event.add("dtstart", look.first)
        event.add("dtend", look.first + timedelta(days=1))
        event.add("summary", f"{house.name}: {look.what}")
        event.add("description", look.how)
        event.add("transp", "TRANSPARENT")
        if look.every_years:
            event.add("rrule", {"freq": "yearly", "interval": look.every_years})
        calendar.add_component(event)
    made: bytes = calendar.to_ical()
    return made
