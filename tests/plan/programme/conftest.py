"""The demo house set into days, with a programme and windows of a test's own."""

from __future__ import annotations

import copy
import tomllib
from datetime import date

import pytest

from evenhung.plan import plan_house
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.programme import programme_of
from evenhung.plan.work import Work
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

DEMO = tomllib.loads(SURVEY.read_text(encoding="utf-8"))
TODAY = date(2026, 3, 9)
AT_THE_BENCH = (("strip a sash", 1.0), ("re-bed a pane", 2.0), ("prime and paint", 0.8))


@pytest.fixture
def set_into_days():
    """Give ``set_into_days(programme, windows={tag: fields}, **options)`` for the demo house."""

    def make(programme=(), windows=(), with_bench=("W2", "W3"), **options):
        document = copy.deepcopy(DEMO)
        document["house"].pop("price", None)
        document.pop("booked", None)
        document["house"]["programme"] = {"start": "2026-03-09", **dict(programme)}
        for window in document["window"]:
            for field in ("needed", "after"):
                window.pop(field, None)
            window.update(dict(windows).get(window["tag"], {}))
        plan = plan_house(survey_from(document))
        bench = [
            Work(operation=operation, window=tag, part=place, quantity=quantity, why="old putty")
            for tag in with_bench
            for place in ("upper", "lower")
            for operation, quantity in AT_THE_BENCH
        ]
        return programme_of(plan, work=[*hanging_work(plan), *bench], today=TODAY, **options)

    return make
