"""A day that is lost: what was done stays, little moves, and what moved is exactly what is said."""

from __future__ import annotations

import random
from datetime import date, timedelta

import pytest

from evenhung.plan.programme import programme_document

START = date(2026, 3, 9)


def steps_of(found):
    return {(one.window.tag, step.name): step for one in found.visits for step in one.steps}


def drawn(seed):
    """A programme, and one or two lost days of the six weeks around it."""
    draw = random.Random(seed)
    programme = {
        "crew": draw.choice((1, 2)),
        "boards": draw.choice((1, 2, 3)),
        "holidays": ["2026-03-12"] if draw.random() < 0.3 else [],
        "putty_skin": {"least": 1, "likely": draw.choice((2, 5)), "most": 9},
    }
    count = draw.choice((1, 1, 2))
    return programme, [START + timedelta(days=draw.randint(-4, 24)) for _ in range(count)]


@pytest.mark.slow  # plans 48 programmes
@pytest.mark.parametrize("seed", range(24))
def test_what_moved_is_the_difference_and_nothing_is_left_out(set_into_days, seed):
    programme, lost = drawn(seed)
    before, after = set_into_days(programme), set_into_days(programme, lost=lost)
    was, now = steps_of(before), steps_of(after)
    assert now.keys() == was.keys()
    assert (after.has_waits, after.earliest is None) == (True, False)
    said = {
        (one.window, one.step): (one.was, one.was_last, one.now, one.now_last)
        for one in after.changes
    }
    assert len(said) == len(after.changes)
    assert said == {
        key: (old.first, old.last, now[key].first, now[key].last)
        for key, old in was.items()
        if (old.first, old.last) != (now[key].first, now[key].last)
    }
    worked = [day for day in lost if any(one.first <= day <= one.last for one in was.values())]
    for key, old in was.items():
        assert not now[key].first == now[key].last in lost
        if worked and old.last < min(lost):
            assert (now[key].first, now[key].last) == (old.first, old.last)


@pytest.mark.parametrize(
    "day",
    ["2026-03-14", "2026-03-15", "2026-03-08", "2026-03-02", "2026-03-12"],
    ids=["Saturday", "Sunday", "the day before", "the week before", "a holiday"],
)
def test_a_day_that_is_not_worked_changes_nothing_at_all(set_into_days, day):
    programme = {"holidays": ["2026-03-12"]}
    before = programme_document(set_into_days(programme))
    after = programme_document(set_into_days(programme, lost=[date.fromisoformat(day)]))
    assert after == before
    assert after["changes"] == []


def test_a_working_day_on_which_nobody_has_a_step_moves_nothing(set_into_days):
    before = set_into_days(with_bench=("W2",))
    busy = steps_of(before).values()
    idle = next(
        day
        for day in (before.visits[0].first + timedelta(days=n) for n in range(20))
        if day.weekday() < 5 and not any(one.first <= day <= one.last for one in busy)
    )
    assert before.visits[0].first < idle < before.end
    after = set_into_days(with_bench=("W2",), lost=[idle])
    assert (after.changes, after.visits) == ((), before.visits)


def test_what_was_begun_before_the_day_is_not_moved(set_into_days):
    before = set_into_days()
    lost = before.visits[0].first + timedelta(days=1)
    was, now = steps_of(before), steps_of(set_into_days(lost=[lost]))
    for key, old in was.items():
        if old.first < lost:
            assert (now[key].is_begun, now[key].first) == (True, old.first)
        else:
            assert now[key].first > lost


def test_no_more_windows_are_moved_than_must_be(set_into_days):
    """The last day is lost: whatever was to begin before it stays, begun or not."""
    before = set_into_days()
    days = sorted({step.first for step in steps_of(before).values()})
    after = set_into_days(lost=[days[-1]])
    assert {change.was for change in after.changes} == {days[-1]}
    assert all(change.now > change.was for change in after.changes)


def test_waits_that_were_shorter_than_their_most_are_not_asked_for_afterwards(set_into_days):
    """Had putty needed its most, the coat that is done could not have been: it was done."""
    programme = {"putty_skin": {"least": 1, "likely": 2, "most": 9}}
    before = set_into_days(programme)
    after = set_into_days(programme, lost=[before.end])
    assert None not in (after.earliest, after.latest)
    assert after.earliest <= after.end <= after.latest


def test_where_the_most_cannot_be_kept_the_line_says_so(set_into_days):
    """W2 is apart when the day is lost, and needed whole soon after its likely end."""
    before = set_into_days(with_bench=("W2",))
    (visit,) = [one for one in before.visits if one.window.tag == "W2"]
    needed = {"first": (visit.last + timedelta(days=4)).isoformat(), "last": "2028-12-31"}
    day = visit.steps[1].last + timedelta(days=1)
    found = set_into_days(
        windows={"W2": {"needed": [needed]}}, with_bench=("W2",), lost=[visit.steps[2].first]
    )
    assert day <= visit.steps[2].first
    assert (found.conflict, found.has_waits, found.latest) == ((), True, None)
