"""Small instances, an exhaustive answer to them, and the formal certificate."""

from __future__ import annotations

import copy
import importlib.util
from functools import cache
from pathlib import Path

import pytest

from evenhung.allot.form import solution_of

FORMAL = Path(__file__).with_name("formal")


@cache
def formal(name):
    """A script of the formal problem, as a module."""
    spec = importlib.util.spec_from_file_location(f"formal_{name}", FORMAL / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def make():
    """Gives ``make(sashes, seed, scarce)``: an instance of the formal problem, free to change.

    The generator puts one and the same rules into all that it makes, hence the copy.
    """
    return lambda *arguments: copy.deepcopy(formal("make_instance").make(*arguments))


@pytest.fixture(scope="session")
def verify():
    """The independent checker."""
    return formal("verify")


@pytest.fixture(scope="session")
def certified(verify):
    """Gives ``certified(instance, answer)``: what the checker says of an answer, none of it wrong.

    The percentage is of what the served sashes cost.
    """

    def check(instance, answer):
        solution = solution_of(answer)
        found = verify.check(instance, solution)
        assert found["errors"] == []
        assert found["cost"] == answer.cost
        assert verify.lower_bound(instance, solution["prices"]) == answer.price_bound
        assert answer.price_bound <= answer.bound <= answer.cost
        served = found["cost"] - found["unserved"] * instance["rules"]["unserved"]
        return 100.0 * (answer.cost - answer.price_bound) / max(1, served)

    return check


@pytest.fixture(scope="session")
def least_cost(verify):
    """Gives ``least_cost(instance)`` by looking at everything; shares no code with the solver.

    Every pair of ways of every sash is listed with the checker's own arithmetic, and sash after
    sash is given each of its pairs in turn, the weights used remembered. Nothing is priced or
    bounded. For about five sashes and ten weights.
    """
    return lambda instance: _least_cost(verify, instance)


def _least_cost(verify, instance):
    pairs = [_pairs_of(verify, instance, sash) for sash in range(len(instance["sashes"]))]
    costs = {frozenset(): 0}
    for options in pairs:
        after = {}
        for used, so_far in costs.items():
            for weights, cost in options.items():
                if not used & weights:
                    both = used | weights
                    after[both] = min(after.get(both, so_far + cost), so_far + cost)
        costs = after
    return min(costs.values())


def _pairs_of(verify, instance, sash):
    """Least cost of serving a sash by each set of weights; by none, new ones or not at all."""
    rules = instance["rules"]
    sides = [_ways_of(verify, instance, sash, side) for side in (0, 1)]
    found = {frozenset(): rules["unserved"]}
    for left, left_mass, left_cost in sides[0]:
        for right, right_mass, right_cost in sides[1]:
            if abs(left_mass - right_mass) > rules["max_diff"]:
                continue
            if left is not None and left == right:
                continue
            off = verify.pair_penalty(rules, instance["sashes"][sash], left_mass, right_mass)
            if off is None:
                continue
            key = frozenset(weight for weight in (left, right) if weight is not None)
            cost = left_cost + right_cost + off
            found[key] = min(found.get(key, cost), cost)
    return found


def _ways_of(verify, instance, sash, side):
    """All ways for a side: the weight or None, the mass and the cost."""
    rules, longest = instance["rules"], instance["sashes"][sash]["Lmax"]
    menu = verify.piece_menu(rules)
    ways = {}
    for number, weight in enumerate(instance["weights"]):
        move = 0 if weight["home"] == [sash, side] else rules["move"]
        for mass, length, cost in verify.modes(rules, weight, menu):
            if length <= longest:
                ways[number, mass] = min(ways.get((number, mass), 1 << 40), cost + move)
    for spec in rules["new"].values():
        for mass in range(1, instance["sashes"][sash]["W"]):
            if verify.new_len(spec, mass) <= longest:
                cost = spec["fixed"] + spec["per_tick"] * mass
                ways[None, mass] = min(ways.get((None, mass), 1 << 40), cost)
    return [(weight, mass, cost) for (weight, mass), cost in ways.items()]
