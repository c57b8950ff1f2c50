"""Many jobs: a good draft, a bound close to it, and blocks that better it and break nothing."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from evenhung.allot.schedule import Answer, Conflict, Job, Problem, Stage, schedule, solve
from evenhung.allot.schedule.blocks import blocks_of, cut_out
from evenhung.allot.schedule.check import broken_rules, moved
from evenhung.allot.schedule.dispatch import drafted

pytestmark = pytest.mark.slow  # solves for seconds

WEEKDAYS = tuple(day for day in range(1400) if day % 7 < 5)


def overhauls(count, **more):
    jobs = tuple(
        Job(
            name=f"W{number}",
            stages=(
                Stage(name="out", slots=2),
                Stage(name="bench", slots=8 + number * 7 % 17, wait=7, at_bench=True),
                Stage(name="coat 1", slots=3, wait=1, at_bench=True),
                Stage(name="in", slots=4),
            ),
            pieces=2,
        )
        for number in range(count)
    )
    fields = {"days": WEEKDAYS, "slots_a_day": 14, "crew": 2, "benches": 3, "out": 8, "boards": 4}
    return Problem(jobs=jobs, **{**fields, **more})


@pytest.fixture
def in_blocks(monkeypatch):
    """Has every question solved block by block, however few jobs it has."""
    monkeypatch.setattr(solve, "WHOLE", 0)


def test_sixty_windows_end_near_their_bound():
    """Boards and places are short together here; the demo house's are within a twentieth."""
    problem = overhauls(60)
    found = schedule(problem)
    assert isinstance(found, Answer)
    assert list(broken_rules(problem, found.starts)) == []
    assert found.bound_day <= found.last_day <= 1.08 * found.bound_day


def test_the_end_of_what_waits_for_boards_is_proved():
    """The draft ends later: the solver finds in its set effort what the bound allows."""
    problem = overhauls(28, boards=3)
    found = schedule(problem, is_rough=True)
    assert found.status == "optimal"
    assert found.last_day < problem.day(
        max(own[-1] for own in drafted(problem, lambda _: 0).starts)
    )


@pytest.mark.usefixtures("in_blocks")
def test_blocks_leave_the_end_and_take_nights_away():
    problem = overhauls(20, boards=6, out=14)
    draft = drafted(problem, lambda _: 0).starts
    rough, found = schedule(problem, is_rough=True), schedule(problem)
    assert rough.last_day <= problem.day(max(own[-1] for own in draft))
    assert list(broken_rules(problem, found.starts)) == []
    assert found.last_day <= rough.last_day
    assert found.nights < rough.nights


@pytest.mark.usefixtures("in_blocks")
def test_the_same_question_has_the_same_answer_in_blocks():
    problem = overhauls(12)
    assert schedule(problem) == schedule(problem)


def test_blocks_overlap_and_leave_nobody_out():
    starts = tuple((7 * number % 40, 100) for number in range(37))
    blocks = list(blocks_of(starts))
    assert {number for block in blocks for number in block} == set(range(37))
    for one, following in pairwise(blocks):
        assert set(one) & set(following)


def test_a_block_keeps_to_what_others_hold():
    """Set anew on its own, a block breaks nothing of the whole, whatever it follows outside."""
    problem = overhauls(12)
    jobs = list(problem.jobs)
    jobs[7] = replace(jobs[7], after=(2,))
    jobs[9] = replace(jobs[9], after=(7,))
    problem = replace(problem, jobs=tuple(jobs))
    starts = drafted(problem, lambda _: 0).starts
    block = cut_out(problem, solve.rules_of(problem), starts, (6, 7, 8))
    assert block.put_back(block.starts, starts) == starts
    model = block.model()
    model.program.maximize(sum(own[0].start for own in model.jobs))
    solver, status = solve._solved(model, 5.0)
    assert status == solve.cp_model.OPTIMAL
    again = block.put_back(solve._starts(model, solver), starts)
    assert again != starts
    assert list(broken_rules(problem, again)) == []


def test_a_deadline_that_many_cannot_keep_is_proved_or_said_to_be_open(monkeypatch):
    monkeypatch.setattr(solve, "WHOLE", 0)
    problem = overhauls(12)
    free = schedule(problem, is_rough=True)
    late = schedule(replace(problem, deadline=free.bound_day - 3))
    assert isinstance(late, Conflict)
    assert late.is_proved
    assert "deadline" in {rule.kind for rule in late.rules}
    monkeypatch.setattr(solve, "_bound", lambda *_: 0)
    monkeypatch.setattr(solve, "evident_conflict", lambda _: None)
    late = schedule(replace(problem, deadline=free.bound_day - 3))
    assert (late.is_proved, late.is_minimal) == (False, False)


@pytest.mark.parametrize("whole", [0, 40])
def test_a_day_lost_among_many_moves_few(monkeypatch, whole):
    """The day before the last is lost: what begins before it stays."""
    monkeypatch.setattr(solve, "WHOLE", whole)
    problem = overhauls(12)
    first = schedule(problem)
    lost = problem.days[problem.days.index(first.last_day) - 1]
    jobs = tuple(
        replace(
            job,
            begun=tuple(slot for slot in own if problem.day(slot) < lost),
            wished=tuple(
                (problem.day(slot), problem.day(slot + stage.slots - 1))
                for stage, slot in zip(job.stages, own, strict=True)
            ),
        )
        for job, own in zip(problem.jobs, first.starts, strict=True)
    )
    days = tuple(day for day in problem.days if day != lost)
    asked = replace(problem, jobs=jobs, days=days, resume=lost)
    again = schedule(asked)
    assert isinstance(again, Answer)
    assert list(broken_rules(asked, again.starts)) == []
    late = [job for job in jobs if any(last >= lost for _, last in job.wished)]
    assert 0 < moved(asked, again.starts)[0] <= len(late)
