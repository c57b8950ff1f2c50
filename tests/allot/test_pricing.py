"""Prices: what the solver reckons under any prices is what the independent checker reckons."""

from __future__ import annotations

import numpy as np
import pytest

from evenhung.allot.ascent import bound_of
from evenhung.allot.columns import Priced
from evenhung.allot.draft import Draft, serve_rest
from evenhung.allot.form import problem_of
from evenhung.allot.market import FINE, Market
from evenhung.allot.pricing import Block
from evenhung.allot.solve import allot
from evenhung.allot.watch import Watch
from evenhung.allot.ways import ways_of


@pytest.fixture
def parts():
    """Gives the problem, its market and all its sashes."""

    def build(instance):
        problem = problem_of(instance)
        market = Market(problem, ways_of(problem))
        return problem, market, Block(problem, market, range(len(problem.sashes)))

    return build


@pytest.mark.parametrize("most", [1, 300, 3000, 40_000])
@pytest.mark.parametrize(("sashes", "seed"), [(1, 1), (10, 2), (40, 3), (120, 4)])
def test_the_price_bound_is_the_checkers(make, verify, parts, sashes, seed, most):
    instance = make(sashes, seed, seed % 2 == 0)
    _, market, block = parts(instance)
    prices = np.random.default_rng(seed).integers(0, most, len(instance["weights"]))
    bound, _ = bound_of(market, block, FINE * np.append(prices, 0))
    assert bound == FINE * verify.lower_bound(instance, prices.tolist())


def test_the_cheapest_column_is_the_choice_and_none_is_cheaper(make, parts):
    problem, market, block = parts(make(40, 1))
    prices = np.append(np.random.default_rng(5).integers(0, 2000, len(problem.weights)), 0)
    priced = Priced(problem, market, block, prices)
    everything = priced.stock(np.arange(priced.nobody))
    for sash in range(40):
        columns = priced.columns(everything, sash, 300 * FINE, 10**6)
        assert (np.diff(columns.reduced) >= 0).all()
        assert len({tuple(sorted(pair)) for pair in columns.weight.tolist()}) == len(columns.way)
        for way, reduced in zip(columns.way[:50], columns.reduced[:50], strict=True):
            assert priced.reduced(sash, way) == reduced
        if priced.least[sash] < FINE * problem.rules.unserved:
            assert columns.reduced[0] == 0


@pytest.mark.parametrize("most", [1, 30, 400])
def test_columns_are_the_same_where_a_smaller_slack_has_enough(make, parts, monkeypatch, most):
    problem, market, block = parts(make(120, 4))
    prices = np.append(np.random.default_rng(5).integers(0, 2000, len(problem.weights)), 0)
    priced = Priced(problem, market, block, prices)
    everything = priced.stock(np.arange(priced.nobody))
    for find in (priced.columns, priced.beside_new):
        for slack in (60 * FINE, 3000 * FINE):
            found = [find(everything, sash, slack, most) for sash in range(10)]
            with monkeypatch.context() as at_once:
                at_once.setattr("evenhung.allot.columns.DIVISORS", (1,))
                full = [find(everything, sash, slack, most) for sash in range(10)]
            for some, all_ in zip(found, full, strict=True):
                assert [part.tolist() for part in some] == [part.tolist() for part in all_]


def test_columns_beside_new_ones_are_those_columns_and_no_others(make, parts):
    problem, market, block = parts(make(12, 1))
    prices = np.append(np.random.default_rng(6).integers(0, 2000, len(problem.weights)), 0)
    priced = Priced(problem, market, block, prices)
    everything = priced.stock(np.arange(priced.nobody))
    seen = 0
    for sash in range(12):
        every = priced.columns(everything, sash, 3000 * FINE, 10**6)
        has_new = (every.weight == priced.nobody).any(axis=1)
        found = priced.beside_new(everything, sash, 3000 * FINE, 10**6)
        assert {frozenset(pair) for pair in found.weight.tolist()} == {
            frozenset(pair) for pair in every.weight[has_new].tolist()
        }
        assert sorted(found.reduced.tolist()) == sorted(every.reduced[has_new].tolist())
        seen += len(found.reduced)
    assert seen > 0


def test_what_a_sash_cares_for_is_what_its_columns_use(make, parts):
    problem, market, block = parts(make(12, 1))
    prices = np.append(np.random.default_rng(6).integers(0, 2000, len(problem.weights)), 0)
    priced = Priced(problem, market, block, prices)
    everything = priced.stock(np.arange(priced.nobody))
    for sash in range(12):
        columns = priced.columns(everything, sash, 200 * FINE, 10**6)
        used = set(columns.weight.reshape(-1).tolist()) - {priced.nobody}
        wanted, least = priced.interest(everything, sash, 200 * FINE)
        assert used <= set(wanted.tolist())
        for weight, reduced in zip(wanted.tolist(), least.tolist(), strict=True):
            own = columns.reduced[(columns.weight == weight).any(axis=1)]
            assert own.min(initial=10**9) >= reduced


def test_the_gap_is_the_cost_less_the_bound(make, parts):
    problem, market, block = parts(make(60, 2, True))
    prices = np.append(np.random.default_rng(7).integers(0, 2000, len(problem.weights)), 0)
    priced = Priced(problem, market, block, prices)
    draft = Draft(priced)
    serve_rest(priced, draft, Watch())
    held = draft.weight[draft.weight < priced.nobody]
    assert len(np.unique(held)) == len(held)
    own = FINE * market.ways.cost[draft.way].sum(axis=1, where=draft.way >= 0)
    assert (own <= draft.reduced + priced.least).all()
    assert draft.gap() > 0


def test_an_answer_does_not_depend_on_the_order_of_the_weights(make):
    instance = make(12, 4)
    turned = instance | {"weights": instance["weights"][::-1]}
    assert allot(problem_of(instance)).cost == allot(problem_of(turned)).cost
