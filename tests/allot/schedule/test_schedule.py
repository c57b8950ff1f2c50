"""Schedules: what is proved, what is named where nothing will do, and that reruns agree."""

from __future__ import annotations

from dataclasses import replace

import pytest

from evenhung.allot.schedule import Answer, Conflict, Job, Problem, Rule, Stage, schedule
from evenhung.allot.schedule.check import broken_rules

pytestmark = pytest.mark.slow  # solves for seconds

WEEKDAYS = tuple(day for day in range(400) if day % 7 < 5)


def overhaul(name, bench=14, **more):
    stages = (
        Stage(name="out", slots=2),
        Stage(name="bench", slots=bench, wait=7, at_bench=True),
        Stage(name="coat", slots=3, wait=1, at_bench=True),
        Stage(name="in", slots=4),
    )
    return Job(name=name, stages=stages, pieces=2, **more)


@pytest.fixture
def three():
    jobs = (overhaul("W1"), overhaul("W2"), overhaul("W3"))
    return Problem(jobs=jobs, days=WEEKDAYS, slots_a_day=14, crew=2, benches=2, out=8, boards=4)


def test_three_windows_end_as_soon_as_can_be(three):
    found = schedule(three)
    assert isinstance(found, Answer)
    assert list(broken_rules(three, found.starts)) == []
    assert found.status == "optimal"
    assert found.last_day == found.bound_day


def test_the_same_question_has_the_same_answer(three):
    assert schedule(three) == schedule(three)


def test_nothing_to_do_is_an_answer(three):
    found = schedule(replace(three, jobs=()))
    assert (found.starts, found.last_day, found.status) == ((), 0, "optimal")


@pytest.mark.parametrize(
    ("change", "rules"),
    [
        ({"boards": 0}, ["boards"]),
        ({"out": 1}, ["out"]),
        ({"deadline": 8}, ["deadline"]),
        ({"deadline": 12, "boards": 1}, ["boards", "deadline"]),
    ],
    ids=str,
)
def test_a_conflict_names_what_it_takes_and_no_more(three, change, rules):
    found = schedule(replace(three, **change))
    assert isinstance(found, Conflict)
    assert found.is_minimal
    assert sorted({rule.kind for rule in found.rules}) == rules


def test_windows_that_wait_for_each_other_are_named(three):
    jobs = (overhaul("W1", after=(1,)), overhaul("W2", after=(0,)), overhaul("W3"))
    found = schedule(replace(three, jobs=jobs, days=WEEKDAYS[:60]))
    assert found == Conflict(rules=(Rule("after", 0), Rule("after", 1)))


def test_a_room_that_is_always_needed_is_named(three):
    jobs = (overhaul("W1", barred=frozenset(range(0, 400, 5))), overhaul("W2"))
    found = schedule(replace(three, jobs=jobs, days=WEEKDAYS[:60]))
    assert found == Conflict(rules=(Rule("barred", 0),))


def test_what_was_begun_stays(three):
    first = schedule(three)
    jobs = tuple(
        replace(job, begun=own[:2]) for job, own in zip(three.jobs, first.starts, strict=True)
    )
    again = schedule(replace(three, jobs=jobs, days=tuple(d for d in WEEKDAYS if d != 9)))
    for before, after in zip(first.starts, again.starts, strict=True):
        assert before[:2] == after[:2]


def test_nothing_is_begun_on_a_day_that_is_over(three):
    found = schedule(replace(three, resume=9))
    assert min(three.day(own[0]) for own in found.starts) == 9
    early = ((0, 2, 112, 130),) * 3
    broken = list(broken_rules(replace(three, resume=9), early))
    assert any(one.endswith("is begun on a day that is over") for one in broken)


def test_of_all_that_end_as_soon_the_one_that_moves_least_is_given(three):
    first = schedule(three)
    wished = tuple(
        replace(
            job,
            wished=tuple(
                (three.day(slot), three.day(slot + stage.slots - 1))
                for stage, slot in zip(job.stages, own, strict=True)
            ),
        )
        for job, own in zip(three.jobs, first.starts, strict=True)
    )
    again = schedule(replace(three, jobs=wished))
    assert [[three.day(slot) for slot in own] for own in again.starts] == [
        [three.day(slot) for slot in own] for own in first.starts
    ]


def test_what_was_begun_too_soon_is_named(three):
    jobs = (replace(three.jobs[0], begun=(0, 2, 20)), *three.jobs[1:])
    found = schedule(replace(three, jobs=jobs, days=WEEKDAYS[:60]))
    assert isinstance(found, Conflict)
    assert found.rules == (Rule("done", 0),)


BROKEN = {
    "overnight": (((13,),), "left overnight"),
    "deadline": (((28,),), "after the deadline"),
    "barred": (((14,),), "must be whole"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_the_check_finds_what_is_wrong(name):
    starts, words = BROKEN[name]
    job = Job(name="W1", stages=(Stage(name="hang", slots=3),), pieces=1, barred=frozenset({1}))
    problem = Problem(
        jobs=(job,), days=WEEKDAYS, slots_a_day=14, crew=1, benches=1, out=1, boards=0, deadline=1
    )
    assert any(words in one for one in broken_rules(problem, starts))


def test_the_check_counts_people_benches_pieces_and_boards(three):
    at_once = ((0, 2, 112, 126),) * 3
    found = list(broken_rules(replace(three, boards=2, out=5), at_once))
    for words in ("3 people", "3 benches", "6 pieces out", "3 boards"):
        assert any(one.startswith(words) for one in found), words
