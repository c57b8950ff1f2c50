"""Sides that bar sources, ready-made weights and weights with a cost: against trying everything."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product

import pytest

from evenhung.allot.answer import Serving, cost_of
from evenhung.allot.form import problem_of
from evenhung.allot.problem import Problem, ReadyMade, penalty
from evenhung.allot.solve import allot
from evenhung.allot.ways import ways_of


def drawn(make, seed, sashes=3):
    """Draw a small problem in which some sides bar some sources."""
    draw = random.Random(seed)
    problem = problem_of(make(sashes, seed))
    halves = [(one.mass + one.ideal.least) // 2 for one in problem.sashes]
    ready = tuple(
        ReadyMade(f"ready {n}", draw.choice(halves), draw.randint(90, 400), draw.randint(0, 1500))
        for n in range(2)
    )
    rules = replace(problem.rules, ready=ready)
    weights = tuple(replace(one, cost=draw.choice([-300, 0, 0, 400])) for one in problem.weights)
    sources = len(weights) + len(rules.metals) + len(ready)

    def some():
        return frozenset(n for n in range(sources) if draw.random() < draw.choice([0.0, 0.3, 0.9]))

    barred = [(some(), some()) for _ in problem.sashes]
    chosen = [replace(one, barred=both) for one, both in zip(problem.sashes, barred, strict=True)]
    return Problem(rules, tuple(chosen), weights)


def least_cost(problem):
    """Give the least cost by listing every pair of ways of every sash, none left out."""
    costs = {frozenset(): 0}
    for number in range(len(problem.sashes)):
        options, after = pairs_of(problem, number), {}
        for (used, so_far), (taken, cost) in product(costs.items(), options.items()):
            if not used & taken:
                both = used | taken
                after[both] = min(after.get(both, 10**9), so_far + cost)
        costs = after
    return min(costs.values())


def pairs_of(problem, number):
    """Give the least cost of serving a sash with each set of weights; new ones are no weight."""
    options = {frozenset(): problem.rules.unserved}
    sides = [ways_at(problem, number, side) for side in (0, 1)]
    for (one, light, low), (other, heavy, high) in product(*sides):
        off = penalty(problem.rules, problem.sashes[number], light, heavy)
        if off is not None and (one is None or one != other):
            key = frozenset({one, other} - {None})
            options[key] = min(options.get(key, 10**9), low + high + off)
    return options


def ways_at(problem, number, side):
    """List the ways that a side admits: the weight or None, the mass, the cost."""
    table, nobody, sash = ways_of(problem), len(problem.weights), problem.sashes[number]
    for row in map(table.row, range(len(table.weight))):
        is_new = row.weight == nobody
        source = nobody + row.detail if is_new else row.weight
        if row.length <= sash.longest[side] and source not in sash.barred[side]:
            at_home = is_new or problem.weights[row.weight].home == (number, side)
            move = 0 if at_home else problem.rules.move
            yield None if is_new else row.weight, row.mass, row.cost + move


@pytest.mark.parametrize("seed", range(8))
def test_the_best_there_is_is_found(make, seed):
    problem = drawn(make, seed)
    answer = allot(problem)
    assert answer.status == "optimal"
    assert answer.cost == cost_of(problem, answer.pairs) == least_cost(problem)
    assert answer.price_bound <= answer.cost


@pytest.mark.slow
def test_some_of_them_are_bought_and_some_are_barred(make):
    """The draw above does exercise what it is for."""
    bought, moved = 0, 0
    for seed in range(8):
        problem = drawn(make, seed)
        free = replace(
            problem,
            sashes=tuple(replace(s, barred=(frozenset(), frozenset())) for s in problem.sashes),
        )
        answer = allot(problem)
        sides = [serving for pair in answer.pairs if pair for serving in pair]
        bought += sum((one.new or "").startswith("ready") for one in sides)
        moved += allot(free).cost < answer.cost
    assert bought >= 2
    assert moved >= 2


def test_the_reckoning_refuses_what_is_barred(make):
    problem = problem_of(make(2, 1))
    pairs = allot(problem).pairs
    source = pairs[0][0].source(problem)
    sash = replace(problem.sashes[0], barred=(frozenset({source}), frozenset()))
    with pytest.raises(ValueError, match="sash 0, side 0: barred"):
        cost_of(replace(problem, sashes=(sash, problem.sashes[1])), pairs)


def test_a_new_weight_is_known_by_its_source(make):
    problem = problem_of(make(2, 1))
    rules = replace(problem.rules, ready=(ReadyMade("ready", 100, 100, 0),))
    problem = replace(problem, rules=rules)
    count = len(problem.weights) + len(rules.metals)
    assert Serving(None, 100, 100, 0, new="ready").source(problem) == count
    assert Serving(3, 100, 100, 0).source(problem) == 3
