"""The programme of a house: days that are worked, rooms that are needed, days that are lost."""

from __future__ import annotations

import tomllib
from datetime import date, timedelta

from evenhung.plan import plan_house
from evenhung.plan.programme import programme_of
from evenhung.plan.programme.stages import PHASES
from evenhung.plan.work import UNITS
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

TODAY = date(2026, 3, 9)


def test_every_operation_has_its_place_in_the_order_of_work():
    assert list(PHASES) == list(UNITS)


def test_work_is_on_working_days_only(set_into_days):
    holidays = ["2026-03-16", "2026-03-17"]
    found = set_into_days({"days": ["Mon", "Tue", "Thu"], "holidays": holidays})
    days = {
        day for visit in found.visits for step in visit.steps for day in (step.first, step.last)
    }
    assert {f"{day:%a}" for day in days} <= {"Mon", "Tue", "Thu"}
    assert not days & {date(2026, 3, 16), date(2026, 3, 17)}
    assert found.end == found.soonest


def test_putty_and_paint_are_left_alone(set_into_days):
    waits = {"putty_skin": {"least": 2, "likely": 5, "most": 9}, "coats": 3}
    found = set_into_days(waits)
    (visit,) = [one for one in found.visits if one.window.tag == "W2"]
    steps = {step.name: step for step in visit.steps}
    assert list(steps) == ["take out", "bench", "coat 1", "coat 2", "coat 3", "refit"]
    assert steps["coat 1"].first - steps["bench"].last >= timedelta(days=5)
    assert steps["coat 2"].first - steps["coat 1"].last >= timedelta(days=1)
    assert found.earliest < found.end < found.latest


def test_a_window_that_goes_to_no_bench_is_hung_in_one_visit(set_into_days):
    found = set_into_days(with_bench=())
    assert {step.name for visit in found.visits for step in visit.steps} == {"in place"}
    assert {visit.nights for visit in found.visits} == {0}
    assert (found.earliest, found.latest) == (None, None)


def test_a_room_that_is_needed_is_left_alone(set_into_days):
    free = set_into_days()
    day = next(one.first for one in free.visits if one.window.tag == "W2")
    needed = {"first": day.isoformat(), "last": (day + timedelta(days=6)).isoformat()}
    found = set_into_days(windows={"W2": {"needed": [needed]}})
    (visit,) = [one for one in found.visits if one.window.tag == "W2"]
    assert visit.last < day or visit.first > day + timedelta(days=6)


def test_a_window_follows_another(set_into_days):
    found = set_into_days(windows={"W2": {"after": "W3"}})
    order = {visit.window.tag: visit for visit in found.visits}
    assert order["W2"].first >= order["W3"].last


def test_more_people_are_no_slower(set_into_days):
    assert set_into_days({"crew": 3}).end <= set_into_days({"crew": 1}).end


def test_without_a_start_it_begins_today():
    document = tomllib.loads(SURVEY.read_text(encoding="utf-8"))
    document["house"].pop("programme", None)
    found = programme_of(plan_house(survey_from(document)), today=TODAY)
    assert found.settings.start == TODAY
    assert len(found.settings.granted) == 5


def test_nothing_to_do_takes_no_day():
    plan = plan_house(survey_from({"form": 1, "house": {"name": "Alder Row"}}))
    found = programme_of(plan, today=TODAY)
    assert (found.visits, found.conflict) == ((), ())
