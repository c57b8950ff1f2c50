"""Schedules against trying every way, on questions small enough for that.

What is tried are slots for every stage of every job; what a schedule must keep is counted by
`allot.schedule.check`, which itself is held against surveyed cases by hand in `tests/allot`.
"""

from __future__ import annotations

import random
from itertools import product

import pytest

from evenhung.allot.schedule import Answer, Conflict, Job, Problem, Stage, model, schedule, solve
from evenhung.allot.schedule.check import broken_rules, last_slot

pytestmark = pytest.mark.slow  # solves for seconds

SIZE, DAYS = 3, (1, 2, 5, 6)
"""Three slots to a day; between the second and the third day lie two days off."""


def drawn(seed):
    """A question of two or three jobs of one or two stages."""
    draw = random.Random(seed)
    count = draw.choice((2, 2, 3))
    jobs = []
    for number in range(count):
        stages = [
            Stage(
                name="first",
                slots=draw.randint(1, 4 if count == 2 else 2),
                wait=draw.choice((0, 0, 1, 2)),
                at_bench=draw.random() < 0.5,
            )
        ]
        if draw.random() < 0.6:
            stages.append(Stage(name="second", slots=draw.randint(1, 2), at_bench=True))
        jobs.append(
            Job(
                name=f"W{number}",
                stages=tuple(stages),
                pieces=draw.choice((1, 2)),
                barred=frozenset(draw.sample(DAYS, draw.choice((0, 0, 1)))),
                after=(number - 1,) if number and draw.random() < 0.2 else (),
            )
        )
    return Problem(
        jobs=tuple(jobs),
        days=DAYS,
        slots_a_day=SIZE,
        crew=draw.choice((1, 2)),
        benches=1,
        out=draw.choice((2, 3)),
        boards=draw.choice((0, 1, 2)),
        deadline=draw.choice((None, None, 5)),
    )


def ways(job):
    """Every way of beginning a job's stages among the days."""
    spans = [range(SIZE * len(DAYS) - stage.slots + 1) for stage in job.stages]
    return [one for one in product(*spans) if list(one) == sorted(one)]


def every_way(problem):
    """The soonest last day of any schedule that keeps all rules, and its fewest nights."""
    best = None
    apart = [
        [one for one in ways(job) if not list(broken_rules(_alone(problem, job), (one,)))]
        for job in problem.jobs
    ]
    for starts in product(*apart):
        if list(broken_rules(problem, starts)):
            continue
        pairs = list(zip(problem.jobs, starts, strict=True))
        last = max(problem.day(last_slot(job, own)) for job, own in pairs)
        nights = sum(problem.day(last_slot(job, own)) - problem.day(own[0]) for job, own in pairs)
        if best is None or (last, nights) < best:
            best = last, nights
    return best


def _alone(problem, job):
    plain = Job(name=job.name, stages=job.stages, pieces=job.pieces, barred=job.barred)
    return Problem(
        jobs=(plain,), days=problem.days, slots_a_day=SIZE, crew=problem.crew,
        benches=problem.benches, out=problem.out, boards=problem.boards,
        deadline=problem.deadline,
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(60))
def test_no_way_is_better_and_what_cannot_be_cannot(seed):
    problem = drawn(seed)
    best, found = every_way(problem), schedule(problem)
    if best is None:
        assert isinstance(found, Conflict)
        return
    assert isinstance(found, Answer)
    assert list(broken_rules(problem, found.starts)) == []
    assert (found.status, found.nights_are_fewest) == ("optimal", True)
    assert (found.last_day, found.bound_day, found.nights) == (best[0], best[0], best[1])


@pytest.mark.parametrize("seed", range(60))
def test_what_is_solved_in_blocks_is_sound_and_claims_no_more_than_is_true(seed, monkeypatch):
    monkeypatch.setattr(solve, "WHOLE", 0)
    problem = drawn(seed)
    best, found = every_way(problem), schedule(problem)
    if isinstance(found, Conflict):
        assert best is None or not found.is_proved
        return
    assert best is not None
    assert list(broken_rules(problem, found.starts)) == []
    assert found.bound_day <= best[0] <= found.last_day
    assert found.status == ("optimal" if found.last_day == found.bound_day else "feasible")
    assert not found.nights_are_fewest or (found.last_day, found.nights) <= best


def test_both_kinds_of_answer_are_among_them():
    kinds = {every_way(drawn(seed)) is None for seed in range(60)}
    assert kinds == {True, False}


def test_an_error_in_the_model_would_be_noticed(planted, monkeypatch):
    wrong = planted(model, "following.first_day >= ", "following.first_day + 9 >= ")
    monkeypatch.setattr(solve, "Model", wrong.Model)
    stages = (Stage(name="first", slots=1, wait=5), Stage(name="second", slots=1))
    job = Job(name="W0", stages=stages, pieces=1, wished=((1, 1), (2, 2)))
    problem = Problem(
        jobs=(job,), days=DAYS, slots_a_day=SIZE, crew=1, benches=1, out=1, boards=1
    )  # fmt: skip
    with pytest.raises(RuntimeError, match="breaks a rule"):
        schedule(problem)
