"""The programme of a house: days that are worked, rooms that are needed, days that are lost."""

from __future__ import annotations

import copy
import tomllib
from datetime import date, timedelta

import pytest

from evenhung.plan import plan_house
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.programme import programme_document, programme_of
from evenhung.plan.programme.stages import PHASES
from evenhung.plan.work import UNITS, Work
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
    assert {step.name for visit in found.visits for step in visit.steps} == {"hang"}
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


def test_windows_that_wait_for_each_other_cannot_be_scheduled(set_into_days):
    found = set_into_days(windows={"W2": {"after": "W3"}, "W3": {"after": "W2"}})
    assert found.conflict == (
        "W2 is begun only when W3 is back in",
        "W3 is begun only when W2 is back in",
    )
    assert found.visits == ()
    document = programme_document(found)
    assert (document["status"], document["conflict"]["is_minimal"]) == ("infeasible", True)


def test_a_deadline_that_cannot_be_kept_is_named_with_the_day_that_could(set_into_days):
    found = set_into_days({"deadline": "2026-03-12"})
    assert "the work shall end by 2026-03-12" in found.conflict
    assert found.without_deadline == set_into_days().end


def test_without_boards_nothing_can_be_left_open_at_night(set_into_days):
    assert "no opening can be boarded at night" in set_into_days({"boards": 0}).conflict
    assert set_into_days({"boards": 0}, with_bench=()).conflict == ()


def test_a_lost_day_moves_what_was_not_begun_and_nothing_else(set_into_days):
    before = set_into_days()
    lost = before.visits[0].first + timedelta(days=1)
    after = set_into_days(lost=[lost])
    was = {(one.window.tag, step.name): step.first for one in before.visits for step in one.steps}
    moved = {(one.window, one.step) for one in after.changes}
    for visit in after.visits:
        for step in visit.steps:
            key = visit.window.tag, step.name
            assert (was[key] != step.first) == (key in moved)
            assert not (step.first <= lost <= step.last and step.first == step.last)
            if was[key] < lost:
                assert (step.is_begun, step.first) == (True, was[key])
            else:
                assert step.first > lost
    assert moved


def test_a_lost_day_moves_no_more_than_it_must(set_into_days):
    """The last day but one is lost: whatever was to begin before it stays, begun or not."""
    before = set_into_days()
    days = sorted({step.first for visit in before.visits for step in visit.steps})
    after = set_into_days(lost=[days[-1]])
    assert {change.was for change in after.changes} == {days[-1]}
    assert all(change.now > change.was for change in after.changes)


def test_a_day_that_nobody_would_have_worked_moves_nothing(set_into_days):
    assert set_into_days(lost=[date(2026, 3, 14)]).changes == ()


def test_more_people_are_no_slower(set_into_days):
    assert set_into_days({"crew": 3}).end <= set_into_days({"crew": 1}).end


def test_without_a_start_it_begins_today():
    document = copy.deepcopy(DEMO)
    document["house"].pop("programme", None)
    found = programme_of(plan_house(survey_from(document)), today=TODAY)
    assert found.settings.start == TODAY
    assert len(found.settings.granted) == 5


def test_nothing_to_do_takes_no_day():
    plan = plan_house(survey_from({"form": 1, "house": {"name": "Alder Row"}}))
    found = programme_of(plan, today=TODAY)
    assert (found.visits, found.conflict) == ((), ())
