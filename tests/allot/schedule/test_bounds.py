"""What no schedule goes below, against sums by hand; and conflicts that a sum shows."""

from __future__ import annotations

from dataclasses import replace

import pytest

from evenhung.allot.schedule import Answer, Conflict, Job, Problem, Rule, Stage, schedule
from evenhung.allot.schedule.alone import closings, end_alone, soonest_last_day
from evenhung.allot.schedule.evident import evident_conflict, ring_of
from evenhung.allot.schedule.flow import can_end_by, soonest_by_flow

WEEKDAYS = tuple(day for day in range(200) if day % 7 < 5)
"""Day 0 is a Monday."""


def waiting(name, wait, **more):
    """Two hours' work, so many days left alone, two hours' work."""
    stages = (Stage(name="first", slots=4, wait=wait), Stage(name="last", slots=4))
    return Job(name=name, stages=stages, **{"pieces": 1, **more})


def asked(*jobs, **more):
    fields = {"days": WEEKDAYS, "slots_a_day": 14, "crew": 4, "benches": 4, "out": 9, "boards": 9}
    return Problem(jobs=jobs, **{**fields, **more})


def whole_day(slots):
    return Job(name=f"{slots}", stages=(Stage(name="one", slots=slots),), pieces=1)


def test_a_job_over_a_weekend_takes_longer():
    """Three days alone from Monday end on Thursday; from Wednesday not on Saturday, but Monday."""
    assert closings(asked(), waiting("W1", 3))[:5] == (3, 4, 5, 5, 5)
    assert [WEEKDAYS[place] for place in (3, 4, 5)] == [3, 4, 7]


def test_a_barred_day_leaves_only_what_goes_around_it():
    barred = waiting("W1", 3, barred=frozenset({2, 3}))
    assert closings(asked(), barred)[:5] == (None, None, None, None, 5)
    assert end_alone(asked(), barred) == 7


def test_what_is_begun_is_closed_as_soon_as_its_wait_lets_it():
    begun = waiting("W1", 3, begun=(14,))
    problem = asked(begun, resume=9)
    assert [place for place in closings(problem, begun) if place is not None] == [7]
    whole = replace(begun, begun=(14, 70))
    assert [place for place in closings(problem, whole) if place is not None] == [5]


def test_nothing_is_opened_on_a_day_that_is_over():
    assert closings(asked(resume=2), waiting("W1", 3))[:3] == (None, None, 5)


def test_openings_that_follow_each_other_on_one_board_go_from_weekend_to_weekend():
    """One board, three days alone each: Monday to Thursday, Thursday to Monday, and so on.

    Nights by themselves are three at the least, so five openings would end after fifteen: on the
    third Monday, day 15 being a Tuesday. Two to a week end later: on the Thursday after two weeks.
    """
    problem = asked(*(waiting(f"W{one}", 3) for one in range(5)), boards=1)
    low = soonest_last_day(problem, {"boards"}, len(WEEKDAYS))
    assert WEEKDAYS[low] == 15
    assert WEEKDAYS[soonest_by_flow(problem, low, 40)] == 17
    found = schedule(problem)
    assert isinstance(found, Answer)
    assert (found.last_day, found.bound_day, found.status) == (17, 17, "optimal")


def test_places_for_pieces_bound_as_boards_do():
    """Two windows with two sashes each, and places for three: one after the other."""
    jobs = [waiting(f"W{one}", 3, pieces=2) for one in range(2)]
    assert can_end_by(asked(*jobs, out=4), 3)
    assert not can_end_by(asked(*jobs, out=3), 4)
    assert can_end_by(asked(*jobs, out=3), 5)


@pytest.mark.parametrize(
    ("slots", "days"),
    [
        ([8, 8, 8], 3),
        ([14, 14, 1], 3),
        ([12, 12, 3, 3], 3),
        ([7, 7, 7, 7], 2),
        ([10, 10, 5, 4], 3),
        ([15], 2),
        ([15, 13], 2),
        ([28, 7, 7], 3),
    ],
    ids=str,
)
def test_a_day_is_filled_like_a_bin(slots, days):
    """One person, 14 half hours: what is longer than half a day leaves no room for its like."""
    problem = asked(*map(whole_day, slots), crew=1)
    assert soonest_last_day(problem, {"crew"}, len(WEEKDAYS)) == days - 1


def test_half_the_people_take_twice_as_long():
    problem = asked(*[whole_day(14)] * 8, crew=2)
    assert soonest_last_day(problem, {"crew"}, len(WEEKDAYS)) == 3


ONE, TWO = waiting("W1", 3), waiting("W2", 3)
EVIDENT = {
    "ring": (asked(replace(ONE, after=(1,)), replace(TWO, after=(0,)), ONE), ["after", "after"]),
    "pieces": (asked(replace(ONE, pieces=3), out=2), ["out"]),
    "no boards": (asked(ONE, boards=0), ["boards"]),
    "always needed": (asked(replace(ONE, barred=frozenset(range(200)))), ["barred"]),
    "too soon": (asked(ONE, TWO, deadline=2), ["deadline"]),
    "no day left": (asked(ONE, deadline=-1), ["deadline"]),
    "needed until": (
        asked(replace(ONE, barred=frozenset(range(3))), deadline=4),
        ["barred", "deadline"],
    ),
    "too much work": (asked(*[whole_day(14)] * 3, crew=1, deadline=1), ["crew", "deadline"]),
    "too few boards": (asked(ONE, TWO, boards=1, deadline=4), ["boards", "deadline"]),
    "too few places": (asked(ONE, TWO, out=1, deadline=4), ["out", "deadline"]),
}


@pytest.mark.parametrize("name", EVIDENT)
def test_what_is_evident_is_proved_by_the_solver_too(name, monkeypatch):
    problem, kinds = EVIDENT[name]
    evident = evident_conflict(problem)
    assert evident is not None
    assert [rule.kind for rule in evident.rules] == kinds
    assert (evident.is_minimal, evident.is_proved) == (True, True)
    short = replace(problem, days=WEEKDAYS[:30])
    monkeypatch.setattr("evenhung.allot.schedule.solve.evident_conflict", lambda _: None)
    solved = schedule(short)
    assert isinstance(solved, Conflict)
    assert sorted(rule.kind for rule in solved.rules) == sorted(kinds)


def test_what_can_be_is_no_conflict():
    assert evident_conflict(asked(ONE, replace(TWO, after=(0,)), deadline=30)) is None


def test_a_ring_is_told_from_what_leads_to_it():
    jobs = [waiting(f"W{one}", 1) for one in range(4)]
    after = {0: (1,), 1: (2,), 2: (1,), 3: ()}
    problem = asked(*(replace(jobs[one], after=others) for one, others in after.items()))
    assert sorted(ring_of(problem)) == [1, 2]
    assert evident_conflict(problem).rules == (Rule("after", 1), Rule("after", 2))
