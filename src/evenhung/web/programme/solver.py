"""What runs in the solver's own process: a survey comes in, a programme and its calendar come out.

A programme cannot be looked into while it is worked out, so it is ended from outside where somebody
wants it to stop.
"""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from evenhung.store.files import write_whole
from evenhung.survey.programme import WEEK
from evenhung.web.errand.running import run
from evenhung.web.errand.standing import READY, ErrandFolder, Standing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.programme import Programme

PROGRAMME, CALENDAR = "programme.json", "programme.ics"
"""The files that the last programme lies in."""


def main() -> None:
    """Work out what is asked."""
    run(_make, is_cut_short=True)


def _make(folder: ErrandFolder, standing: Standing, asked: dict[str, Any]) -> Standing:
    from evenhung.plan import plan_house
    from evenhung.plan.programme import programme_document, programme_of
    from evenhung.sheets.pack.programme_calendar import programme_calendar
    from evenhung.survey import survey_from

    today = date.fromisoformat(asked["on"])
    found = programme_of(plan_house(survey_from(asked["survey"])), today=today)
    ids = [visit.window.id for visit in found.visits]
    told = {**programme_document(found), "ids": ids, "off": list(_days_off(found))}
    write_whole(folder.path / CALENDAR, programme_calendar(found, on=today))
    write_whole(folder.path / PROGRAMME, json.dumps(told).encode())
    return replace(standing, state=READY)


def _days_off(found: Programme) -> Iterator[str]:
    """Give the days, in whole weeks, on which nobody works."""
    settings, end = found.settings, found.end
    day = settings.start - timedelta(days=settings.start.weekday())
    while end is not None and (day <= end or day.weekday()):
        if (
            WEEK[day.weekday()] not in settings.week
            or day in settings.holidays
            or day in settings.lost
        ):
            yield day.isoformat()
        day += timedelta(days=1)


if __name__ == "__main__":
    main()
