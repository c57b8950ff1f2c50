"""What serves estates: softened demand, balanced prices, shortlists, exchanges and chains."""

from __future__ import annotations

from copy import copy

import numpy as np
import pytest

from evenhung.allot.ascent import bound_of, first_prices
from evenhung.allot.balance import balance
from evenhung.allot.box import refine_needy
from evenhung.allot.chains import Chains
from evenhung.allot.columns import Priced
from evenhung.allot.draft import Draft, serve_rest
from evenhung.allot.exchange import Exchange
from evenhung.allot.form import problem_of
from evenhung.allot.market import DEAR, FINE, Market
from evenhung.allot.pricing import Block
from evenhung.allot.search import FAR_NEEDY, NEEDY, Search
from evenhung.allot.shortlist import Shortlists
from evenhung.allot.softening import SoftDemand
from evenhung.allot.watch import Watch
from evenhung.allot.ways import ways_of

pytestmark = pytest.mark.slow  # solves or sets for seconds


@pytest.fixture
def parts(make):
    """Gives the problem of an instance, its market and all its sashes."""

    def build(*arguments):
        problem = problem_of(make(*arguments))
        market = Market(problem, ways_of(problem))
        return problem, market, Block(problem, market, range(len(problem.sashes)))

    return build


@pytest.fixture
def drafted(parts):
    """Gives a problem under balanced prices and a poor answer to it."""

    def build(*arguments):
        problem, market, block = parts(*arguments)
        prices = balance(problem, market, block, first_prices(problem), Watch(), lambda _: None)
        priced = Priced(problem, market, block, prices.price)
        draft = Draft(priced)
        serve_rest(priced, draft, Watch())
        return priced, draft

    return build


def test_cold_demand_is_what_sashes_choose(parts):
    problem, market, block = parts(60, 3)
    price = np.random.default_rng(1).uniform(0, 3000, len(problem.weights))
    fine = np.rint(FINE * np.append(price, 0)).astype(np.int64)
    _, choices = bound_of(market, block, fine)
    hard = np.bincount(choices.weight.reshape(-1), minlength=len(price) + 1)[:-1]
    soft = SoftDemand(problem, market, block).of(fine[:-1] / FINE, 0.01)
    alike = np.abs(soft - hard) < 0.01
    # Where two pairs cost nearly the same both are wanted in part, whatever the temperature; and a
    # weight that is best at both sides of a sash is wanted twice.
    assert alike.mean() > 0.8
    assert abs(soft.sum() - hard.sum()) < 3


def test_what_becomes_dearer_is_wanted_less(parts):
    problem, market, block = parts(40, 2, True)
    demand = SoftDemand(problem, market, block)
    price = first_prices(problem)
    before = demand.of(price, 50.0)
    for weight in np.argsort(-before)[:5]:
        dearer = price.copy()
        dearer[weight] += 25.0
        after = demand.of(dearer, 50.0)
        assert after[weight] < before[weight]
        assert after.sum() - after[weight] > before.sum() - before[weight] - 1e-9


@pytest.mark.parametrize("scarce", [False, True], ids=["plain", "scarce"])
def test_balanced_prices_prove_nearly_all(parts, verify, make, scarce):
    problem, market, block = parts(120, 1, scarce)
    told = []
    prices = balance(problem, market, block, first_prices(problem), Watch(), told.append)
    assert told == sorted(told)
    instance = make(120, 1, scarce)
    assert prices.bound == verify.lower_bound(instance, prices.price[:-1].tolist())
    start = np.rint(FINE * np.append(first_prices(problem), 0)).astype(np.int64)
    assert prices.bound > bound_of(market, block, start)[0] / FINE
    wanted = SoftDemand(problem, market, block).of(prices.price[:-1].astype(float), 4.0)
    assert np.median(wanted[prices.price[:-1] > 0]) == pytest.approx(1.0, abs=0.1)


def test_a_shortlist_has_the_cheapest_pairs(parts):
    problem, market, block = parts(40, 1)
    prices = np.append(np.random.default_rng(5).integers(0, 2000, len(problem.weights)), 0)
    priced = Priced(problem, market, block, prices)
    usable = np.random.default_rng(6).random(priced.nobody) < 0.7
    stock = priced.stock(np.flatnonzero(usable))
    lists = Shortlists(priced, block, usable)
    places = np.arange(40)
    found = lists.columns(places, np.full(40, 300 * FINE), 20)
    for sash, some in zip(places, found, strict=True):
        full = priced.columns(stock, sash, 300 * FINE, 20)
        assert some.reduced.tolist() == full.reduced.tolist()
        for way, reduced in zip(some.way, some.reduced, strict=True):
            assert priced.reduced(sash, way) == reduced


def test_a_shortlist_of_none_is_empty(parts):
    problem, market, block = parts(12, 1)
    priced = Priced(problem, market, block, np.zeros(len(problem.weights) + 1, dtype=np.int64))
    lists = Shortlists(priced, block, np.ones(priced.nobody, dtype=bool))
    assert lists.columns(np.arange(0), np.zeros(0, dtype=np.int64), 5) == []


def test_an_exchange_costs_what_it_says(drafted):
    priced, draft = drafted(60, 1)
    lists = Shortlists(priced, priced.block, np.ones(priced.nobody, dtype=bool))
    exchange = Exchange(priced, draft, lists)
    places = np.argwhere(exchange.more < DEAR // 2)
    assert len(places) > 1000
    for sash, side, which in places[:: len(places) // 300].tolist():
        move = exchange.move(sash, side, which)
        assert move.reduced == priced.reduced(sash, move.way)
        assert move.way[1 - side] == draft.way[sash, 1 - side]
        assert move.weight[side] not in draft.weight[sash] or move.weight[side] == priced.nobody


@pytest.mark.parametrize("scarce", [False, True], ids=["plain", "scarce"])
def test_chains_improve_and_hang_no_weight_twice(drafted, scarce):
    priced, draft = drafted(150, 2, scarce)
    before = draft.gap()
    Chains(priced, draft).run(Watch())
    assert draft.gap() < before
    held = draft.weight[draft.weight < priced.nobody]
    assert len(np.unique(held)) == len(held)
    for sash in np.flatnonzero(draft.way[:, 0] >= 0).tolist():
        assert draft.reduced[sash] == priced.reduced(sash, draft.way[sash])
        assert (draft.holder[draft.weight[sash][draft.weight[sash] < priced.nobody]] == sash).all()


def test_chains_leave_alone_what_no_chain_betters(drafted):
    priced, draft = drafted(60, 2)
    Chains(priced, draft).run(Watch())
    way = draft.way.copy()
    Chains(priced, draft).run(Watch(0.0))
    assert (draft.way == way).all()


def test_prices_of_the_needy_prove_more(parts, verify, make):
    problem, market, block = parts(250, 1)
    start = first_prices(problem)
    even = balance(problem, market, block, start, Watch(), lambda _: None)
    found = refine_needy(problem, market, block, even, Watch(), lambda _: None)
    assert found.bound > even.bound
    assert found.bound == verify.lower_bound(make(250, 1), found.price[:-1].tolist())


def test_they_prove_more_where_those_whom_a_dear_weight_tempts_have_a_say(parts, monkeypatch):
    problem, market, block = parts(250, 1, True)
    start = first_prices(problem)
    even = balance(problem, market, block, start, Watch(), lambda _: None)
    among_all = refine_needy(problem, market, block, even, Watch(), lambda _: None)
    monkeypatch.setattr("evenhung.allot.box.TEMPTING", -1_000_000)  # so much dearer tempts nobody
    alone = refine_needy(problem, market, block, even, Watch(), lambda _: None)
    assert alone.bound < among_all.bound


def test_the_needy_get_more_where_more_is_looked_at(drafted):
    """Under prices that are not refined what serves them best lies far from what is cheapest."""
    gaps = []
    for manner in (NEEDY, FAR_NEEDY):
        priced, draft = drafted(250, 1)
        before = draft.gap()
        Search(priced, draft).improve_needy(manner, Watch())
        assert draft.gap() < before
        gaps.append(draft.gap())
    assert gaps[1] < gaps[0]


def test_a_copy_of_a_draft_goes_its_own_way(drafted):
    priced, draft = drafted(40, 2)
    twin, gap = copy(draft), draft.gap()
    served = int(np.flatnonzero(draft.way[:, 0] >= 0)[0])
    twin.clear(served)
    assert (draft.gap(), draft.way[served, 0] >= 0) == (gap, True)
    assert twin.gap() > gap
    twin.become(draft)
    Chains(priced, twin).run(Watch())
    assert twin.gap() <= gap == draft.gap()
