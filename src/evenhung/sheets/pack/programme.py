"""The programme on paper: a chart of windows against days, five weeks to a chart."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import TYPE_CHECKING

from evenhung.sheets.pack.cautions import DEFERENCE, rules
from evenhung.sheets.pack.figures import breakable, shortened
from evenhung.sheets.pack.typesetting import MONTHS, typeset, written_day
from evenhung.survey.programme import WEEK

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.programme.house import Programme
    from evenhung.plan.programme.visits import Change, Visit
    from evenhung.sheets.pack.house import PackHouse

DAYS_A_CHART = 35
"""Five weeks: a day is then wide enough for a figure of 9 points."""

LEAST_WEEKS = 2
"""Drawn even where the work is done sooner, so that a day keeps a fair width."""

LETTERS = {"take out": "O", "frame": "F", "bench": "B", "refit": "R", "in place": "P"}
"""What stands in the chart for a stage; a coat has its number."""

BOARDED = "·"


def programme_sheet(house: PackHouse, programme: Programme) -> bytes:
    """Give the programme of a house as PDF.

    Parameters
    ----------
    house
        The house.
    programme
        What is done when.
    """
    first, last = _span(programme)
    data = {
        "start": written_day(programme.settings.start),
        "end": None if programme.end is None else written_day(programme.end),
        "is_proved": programme.end == programme.soonest,
        "soonest": None if programme.soonest is None else written_day(programme.soonest),
        "has_waits": programme.has_waits,
        "earliest": None if programme.earliest is None else written_day(programme.earliest),
        "latest": None if programme.latest is None else written_day(programme.latest),
        "has_work": bool(programme.visits),
        "conflict": [_days_written(breakable(one)) for one in programme.conflict],
        "is_proved_conflict": programme.is_proved_conflict,
        "is_whole_reason": programme.is_whole_reason,
        "without_deadline": None
        if programme.without_deadline is None
        else written_day(programme.without_deadline),
        "charts": [_chart(programme, days) for days in _charts(first, last)],
        "visits": [_visit(one) for one in programme.visits],
        "changes": [_change(one) for one in programme.changes],
        "granted": [breakable(one) for one in programme.settings.granted],
        "rules": rules(("open at night",)),
        "deference": DEFERENCE,
    }
    return typeset("programme", data, house=house.name, edition=house.edition)


_DAY = re.compile(r"\b(\d{4}-\d{2}-\d{2})\b")


def _days_written(text: str) -> str:
    """Give a text with its days as they are written on the rest of the sheet.

    Examples
    --------
    >>> _days_written("by 2026-03-09, which")
    'by 9 March 2026, which'
    """
    return _DAY.sub(lambda found: written_day(date.fromisoformat(found[1])), text)


def _span(programme: Programme) -> tuple[date, date]:
    """Give the first and the last day that is drawn: a Monday, and the end."""
    days = [step.last for visit in programme.visits for step in visit.steps]
    start = min((visit.first for visit in programme.visits), default=programme.settings.start)
    return start - timedelta(days=start.weekday()), max(days, default=start)


def _charts(first: date, last: date) -> Iterator[list[date]]:
    weeks = (last - first).days // len(WEEK) + 1
    count = min(DAYS_A_CHART, max(LEAST_WEEKS, weeks) * len(WEEK))
    while first <= last:
        yield [first + timedelta(days=one) for one in range(count)]
        first += timedelta(days=count)


def _chart(programme: Programme, days: Sequence[date]) -> dict[str, object]:
    settings = programme.settings
    off = [
        WEEK[day.weekday()] not in settings.week or day in settings.holidays or day in settings.lost
        for day in days
    ]
    months: list[list[object]] = []
    for day in days:
        name = f"{MONTHS[day.month - 1]} {day.year}"
        if not months or months[-1][0] != name:
            months.append([name, 0])
        months[-1][1] = int(str(months[-1][1])) + 1
    return {
        "months": months,
        "days": [
            {"number": day.day, "letter": WEEK[day.weekday()][0], "is_off": is_off}
            for day, is_off in zip(days, off, strict=True)
        ],
        "rows": [
            {
                "tag": shortened(visit.window.tag, 24),
                "cells": [_cell(visit, day) for day in days],
            }
            for visit in programme.visits
            if visit.first <= days[-1] and visit.last >= days[0]
        ],
    }


def _cell(visit: Visit, day: date) -> str:
    """Give what is done at a window on a day; where several things are, all of them."""
    done = [
        LETTERS.get(step.name, step.name.rpartition(" ")[2])
        for step in visit.steps
        if step.first <= day <= step.last
    ]
    if done:
        return "".join(done)
    return BOARDED if visit.first < day < visit.last else ""


def _visit(visit: Visit) -> dict[str, object]:
    return {
        "tag": shortened(visit.window.tag, 40),
        "room": shortened(visit.window.room or "", 60),
        "out": written_day(visit.first),
        "in": written_day(visit.last),
        "nights": visit.nights,
        "hours": f"{sum(step.hours for step in visit.steps):g}",
    }


def _change(change: Change) -> dict[str, str]:
    return {
        "window": shortened(change.window, 40),
        "step": change.step,
        "was": _days(change.was, change.was_last),
        "now": _days(change.now, change.now_last),
    }


def _days(first: date, last: date) -> str:
    return written_day(first) if first == last else f"{written_day(first)} to {written_day(last)}"
