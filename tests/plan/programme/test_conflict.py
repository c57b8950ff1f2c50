"""Why work cannot be scheduled: each reason names the windows it stops, as the survey does."""

from __future__ import annotations

from datetime import date

import pytest

from evenhung.errors import InvalidSurvey
from evenhung.plan import plan_house
from evenhung.plan.programme import programme_document, programme_of
from evenhung.survey import survey_from

ALL_DAYS = {"first": "2026-01-01", "last": "2036-12-31"}


def test_windows_that_wait_for_each_other_are_named(set_into_days):
    found = set_into_days(windows={"W2": {"after": "W3"}, "W3": {"after": "W2"}})
    assert found.conflict == (
        "W2 is begun only when W3 is back in",
        "W3 is begun only when W2 is back in",
    )
    assert found.visits == ()
    document = programme_document(found)
    assert (document["status"], document["conflict"]["is_minimal"]) == ("infeasible", True)


def test_a_ring_of_windows_is_named_by_tag_where_it_is_given_by_id(set_into_days):
    ids = {"W2": {"id": "a2"}, "W3": {"id": "b3", "after": "a2"}}
    ids["W2"]["after"] = "b3"
    assert set_into_days(windows=ids).conflict == (
        "W2 is begun only when W3 is back in",
        "W3 is begun only when W2 is back in",
    )


def test_a_deadline_too_soon_for_one_window_names_it_and_its_waits(set_into_days):
    found = set_into_days({"deadline": "2026-03-12"})
    assert found.conflict == (
        "the work shall end by 2026-03-12, which leaves 4 days from 2026-03-09: W2 needs 10 days "
        "on end (of them 7 for putty to skin and 2 for paint to dry); W3 cannot be done either",
    )
    assert found.without_deadline == set_into_days().end


def test_a_deadline_too_soon_for_all_of_them_says_what_is_short(set_into_days):
    programme = {"deadline": "2026-03-20", "boards": 1, "crew": 2}
    found = set_into_days(programme)
    assert "at most 1 opening boarded at night" in found.conflict
    assert found.conflict[-1].startswith(
        "the work shall end by 2026-03-20, which leaves 12 days from 2026-03-09: the longest, W2, "
        "needs 10 days on end (of them 7 for putty to skin"
    )


def test_too_few_hours_before_the_deadline_are_counted(set_into_days):
    programme = {"deadline": "2026-03-10", "crew": 1, "hours_a_day": 3}
    found = set_into_days(programme, with_bench=())
    assert any(one.startswith("1 person at work, 3 h a day: 6 h to") for one in found.conflict)


def test_no_working_day_before_the_deadline_is_said(set_into_days):
    found = set_into_days({"start": "2026-03-14", "deadline": "2026-03-15"})
    assert found.conflict == (
        "the work shall end by 2026-03-15: from 2026-03-14 on no working day is left",
    )


def test_a_room_that_is_needed_on_all_days_names_its_window(set_into_days):
    found = set_into_days(windows={"W2": {"needed": [ALL_DAYS]}})
    assert found.conflict == (
        "W2 is needed whole from 2026-01-01 to 2036-12-31, and needs 10 days on end (of them 7 for "
        "putty to skin and 2 for paint to dry)",
    )


def test_a_room_that_is_needed_now_and_then_has_its_days_named(set_into_days):
    needed = [{"first": "2026-03-18"}, {"first": "2026-03-30", "last": "2036-12-31"}]
    (said,) = set_into_days(windows={"W2": {"needed": needed}}).conflict
    assert said.startswith("W2 is needed whole on 2026-03-18 and from 2026-03-30 to 2036-12-31, ")


def test_sashes_out_below_what_a_window_needs_names_it(set_into_days):
    found = set_into_days({"sashes_out": 1}, with_bench=("W2",))
    (said,) = found.conflict
    assert said.startswith("at most 1 sash out at once, and 2 are out of ")
    assert "W2" in said


def test_without_boards_the_windows_that_cannot_be_shut_at_night_are_named(set_into_days):
    assert set_into_days({"boards": 0}).conflict == (
        "no opening can be boarded at night, and W2 and W3 cannot be done within a day",
    )
    assert set_into_days({"boards": 0}, with_bench=()).conflict == ()


@pytest.mark.slow
def test_two_windows_with_days_that_cannot_be_are_both_named(set_into_days):
    """W3 cannot begin before W2 is back in, W2 not before April, and W3 is needed from April on."""
    windows = {
        "W2": {"needed": [{"first": "2026-03-01", "last": "2026-03-31"}]},
        "W3": {"after": "W2", "needed": [{"first": "2026-04-10", "last": "2036-12-31"}]},
    }
    found = set_into_days(windows=windows)
    starts = [one.split(", ")[0] for one in found.conflict]
    assert starts == [
        "W2 is needed whole from 2026-03-01 to 2026-03-31",
        "W3 is needed whole from 2026-04-10 to 2036-12-31",
        "W3 is begun only when W2 is back in",
    ]


def test_what_was_begun_names_its_window_and_day(set_into_days):
    """The day before the deadline is lost: what was begun cannot be ended by it."""
    end = set_into_days().end
    found = set_into_days({"deadline": end.isoformat()}, lost=[end])
    assert any(one.startswith("what was begun at W") for one in found.conflict) or (
        f"the work shall end by {end}: from {end} on no working day is left" in found.conflict
    )


@pytest.mark.parametrize("field", ["crew", "benches", "sashes_out"])
def test_none_at_work_is_refused_by_its_name(field):
    document = {"form": 1, "house": {"name": "Alder Row", "programme": {field: 0}}}
    with pytest.raises(InvalidSurvey, match=f"house.programme.{field}: 0"):
        survey_from(document)


def test_nothing_to_do_is_no_conflict():
    plan = plan_house(survey_from({"form": 1, "house": {"name": "Alder Row"}}))
    assert programme_of(plan, today=date(2026, 3, 9)).conflict == ()
