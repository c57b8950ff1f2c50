"""Whole answers: against looking at everything, run after run, and when they are cut short."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenhung.allot.answer import Serving, cost_of
from evenhung.allot.form import problem_of
from evenhung.allot.solve import allot
from evenhung.allot.watch import Watch


@pytest.mark.parametrize("scarce", [False, True], ids=["plain", "scarce"])
@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("sashes", [1, 2, 4])
def test_an_answer_is_the_best_there_is(make, least_cost, certified, sashes, seed, scarce):
    instance = make(sashes, seed, scarce)
    answer = allot(problem_of(instance))
    certified(instance, answer)
    assert answer.status == "optimal"
    assert answer.cost == answer.bound == least_cost(instance)


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    sashes=st.integers(1, 4),
    apart=st.integers(0, 8),
    move=st.integers(0, 900),
    unserved=st.integers(0, 20000),
    pieces=st.integers(0, 2),
)
def test_under_other_rules_too(make, least_cost, seed, sashes, apart, move, unserved, pieces):
    instance = make(sashes, seed)
    instance["rules"] |= {
        "max_diff": apart,
        "move": move,
        "unserved": unserved,
        "max_pieces": pieces,
        # A short, dear size beside a long, cheap one of the same mass: neither beats the other.
        "pieces": [[10, 30, 60], [10, 8, 140], [25, 20, 200]],
    }
    answer = allot(problem_of(instance))
    assert answer.cost == answer.bound == least_cost(instance)


def test_a_house_too_dense_to_solve_whole_is_searched_instead(make, certified, monkeypatch):
    problem = problem_of(instance := make(20, 3))
    best = allot(problem)
    monkeypatch.setattr("evenhung.allot.solve.MOST_COLUMNS", 0)
    searched = allot(problem)
    certified(instance, searched)
    assert (best.status, searched.status) == ("optimal", "feasible")
    assert searched.effort.neighbourhoods > 0 == best.effort.neighbourhoods
    assert best.cost <= searched.cost <= 1.01 * best.cost


def test_without_weights_or_without_anything(make, least_cost, certified):
    instance = make(3, 1)
    instance["weights"] = []
    answer = allot(problem_of(instance))
    certified(instance, answer)
    assert answer.cost == least_cost(instance)
    instance["rules"]["new"] = {}
    answer = allot(problem_of(instance))
    assert answer.pairs == (None, None, None)
    assert (answer.cost, answer.status) == (150_000, "optimal")


def test_many_sashes_that_nobody_can_serve(make, certified):
    instance = make(70, 1)
    for sash in instance["sashes"]:
        sash["Lmax"] = 1
    answer = allot(problem_of(instance), rounds=1)
    certified(instance, answer)
    assert answer.pairs == (None,) * 70


@pytest.mark.parametrize("sashes", [12, pytest.param(70, marks=pytest.mark.slow)])
def test_the_same_problem_has_the_same_answer(make, sashes):
    problem = problem_of(make(sashes, 3))
    first, second = (allot(problem, rounds=2) for _ in range(2))
    assert first.pairs == second.pairs
    assert first.prices == second.prices


@pytest.mark.parametrize("sashes", [12, 70])
def test_a_stopped_solve_gives_what_it_has(make, certified, sashes):
    instance = make(sashes, 2)
    asked = []

    def is_stopped():
        asked.append(True)
        return len(asked) > 30

    answer = allot(problem_of(instance), Watch(is_stopped=is_stopped))
    assert answer.status == "feasible"
    assert answer.effort.epochs == 31
    certified(instance, answer)


@pytest.fixture(scope="module")
def asks_of_70(make):
    """How often a solve of 70 sashes asks whether to stop, from its start to its end."""
    asked = []
    allot(problem_of(make(70, 2, True)), Watch(is_stopped=lambda: asked.append(True)), rounds=1)
    return len(asked)


@pytest.mark.slow
@pytest.mark.parametrize("share", [0.02, 0.2, 0.4, 0.6, 0.8, 0.95])
def test_a_stop_is_heeded_wherever_it_comes(make, certified, asks_of_70, share):
    instance, at, asked = make(70, 2, True), int(share * asks_of_70), []

    def is_stopped():
        asked.append(True)
        return len(asked) > at

    certified(instance, allot(problem_of(instance), Watch(is_stopped=is_stopped), rounds=1))
    # Every part that is still entered asks once or a few times, and then gives up.
    assert at < len(asked) < at + 40


def test_no_time_at_all_still_gives_an_answer(make, certified):
    instance = make(30, 1)
    certified(instance, allot(problem_of(instance), Watch(0.0)))


@pytest.mark.slow
def test_progress_closes_in(make):
    told = []
    answer = allot(problem_of(make(70, 1)), Watch(report=told.append), rounds=5)
    costs = [one.cost for one in told if one.cost is not None]
    bounds = [one.bound for one in told if one.bound is not None]
    assert costs == sorted(costs, reverse=True)
    assert bounds == sorted(bounds)
    assert bounds[-1] == answer.price_bound
    assert costs[-1] >= answer.cost >= bounds[-1]


def test_the_reckoning_refuses_what_breaks_a_rule(make):
    problem = problem_of(make(2, 1))
    pairs = allot(problem).pairs
    left, right = pairs[0]
    heavy = Serving(None, left.mass + 100, left.length, left.cost)
    long = Serving(None, left.mass, 10_000, left.cost)
    for pair, wrong in (
        ((heavy, right), "not accepted"),
        ((long, right), "too long"),
    ):
        with pytest.raises(ValueError, match=wrong):
            cost_of(problem, (pair, pairs[1]))
    twice = Serving(0, left.mass, left.length, 0), Serving(0, right.mass, right.length, 0)
    with pytest.raises(ValueError, match="hangs twice"):
        cost_of(problem, (twice, pairs[1]))
