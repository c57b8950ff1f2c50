"""A programme as a calendar (RFC 5545): a day-long event for every step at every window."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime, time, timedelta
from typing import TYPE_CHECKING

from icalendar import Calendar, Event

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from evenhung.plan.programme.house import Programme
    from evenhung.plan.programme.visits import Step, Visit


def programme_calendar(programme: Programme, *, on: date) -> bytes:
    """Give a programme as a calendar file.

    Parameters
    ----------
    programme
        What is done when; a programme that cannot be made gives an empty calendar.
    on
        The day it is written.

    Returns
    -------
    bytes
        Days are dates without a clock, so that no time zone moves them. A step keeps its identity
        when it is moved, so a diary that reads the file again moves it, too.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//Evenhung//Programme//EN")
    calendar.add("version", "2.0")
    for event in _events(programme):
        event.add("dtstamp", datetime.combine(on, time(), UTC))
        calendar.add_component(event)
    made: bytes = calendar.to_ical()
    return made


def _events(programme: Programme) -> Iterator[Event]:
    house = programme.plan.survey.house.name
    for visit in programme.visits:
        for step in visit.steps:
            yield _event(house, visit, step)


def _event(house: str, visit: Visit, step: Step) -> Event:
    event = Event()
    name = f"{house}/{visit.window.id or visit.window.tag}/{step.name}"
    event.add("uid", f"{hashlib.sha256(name.encode()).hexdigest()[:20]}@evenhung.invalid")
    event.add("dtstart", step.first)
    event.add("dtend", step.last + timedelta(days=1))
    event.add("summary", f"{visit.window.tag}: {step.name}")
    if visit.window.room:
        event.add("location", f"{house}, {visit.window.room}")
    event.add("description", f"{step.hours:g} h of one person")
    return event
