"""Solve: prices, a first draft, then a proof where the house is small or a search where it is not.

Memory: some 40 bytes for each way and 10 kB for each sash, and what HiGHS takes for a neighbourhood
or, up to `WHOLE` sashes, for the columns of the whole: under 1 GiB for 20,000 sashes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.allot.answer import Answer, Effort, Pair, Status, cost_of, serving_of
from evenhung.allot.ascent import ascend, first_prices, schedule_for
from evenhung.allot.box import refine
from evenhung.allot.columns import Priced
from evenhung.allot.draft import first_draft
from evenhung.allot.market import FINE, Market
from evenhung.allot.pricing import Block
from evenhung.allot.search import Manner, Search
from evenhung.allot.watch import Watch
from evenhung.allot.ways import ways_of

if TYPE_CHECKING:
    from evenhung.allot.draft import Draft
    from evenhung.allot.problem import Problem

WHOLE = 60
"""Up to so many sashes the whole is solved at once, to a proof."""

MOST_COLUMNS = 200_000
"""Beyond so many columns the whole is searched in neighbourhoods instead."""

REFINED = 400
"""Up to so many sashes the price bound is raised to its last cents."""


def allot(problem: Problem, watch: Watch | None = None, *, rounds: float = 4.0) -> Answer:
    """Give the best use of the weights, as far as effort and time allow, and a proof of how good.

    Parameters
    ----------
    problem
        The problem.
    watch
        Deadline, stop flag and whom to tell; none of these by default.
    rounds
        How many neighbourhoods are solved for each neighbourhood that would cover the sashes once.
    """
    watch = watch or Watch()
    ways = ways_of(problem)
    market = Market(problem, ways)
    block = Block(problem, market, range(len(problem.sashes)))
    prices = ascend(market, block, first_prices(problem), schedule_for(problem), watch)
    if len(problem.sashes) <= REFINED:
        prices = refine(problem, market, block, prices, watch)
    priced = Priced(problem, market, block, prices.price)
    draft = first_draft(priced)
    watch.tell(bound=prices.bound, cost=(priced.bound + draft.gap()) // FINE)
    manner, is_proved, neighbourhoods = Manner(), False, 0
    search = Search(priced, draft, manner)
    if len(problem.sashes) <= WHOLE:
        is_proved = _solve_whole(search, watch)
    if not is_proved:
        search.run(int(rounds * len(problem.sashes) / manner.size) + 1, watch)
        neighbourhoods = search.neighbourhoods
    pairs = _pairs(problem, market, draft)
    cost = cost_of(problem, pairs)
    if FINE * cost != priced.bound + draft.gap():
        raise AssertionError(f"{cost} is not {(priced.bound + draft.gap()) / FINE}")
    status: Status = "optimal" if is_proved or cost == prices.bound else "feasible"
    return Answer(
        pairs,
        cost,
        status,
        cost if status == "optimal" else prices.bound,
        tuple(prices.price[:-1].tolist()),
        prices.bound,
        Effort(prices.epochs, neighbourhoods, watch.seconds),
    )


def _solve_whole(search: Search, watch: Watch) -> bool:
    """Take in columns of ever greater reduced cost, until all within the gap are in: a proof."""
    draft, slack = search.draft, 4 * FINE
    while not watch.is_over():
        slack = min(slack, draft.gap())
        if not search.improve_whole(slack, MOST_COLUMNS, watch):
            return False
        watch.tell(cost=(search.priced.bound + draft.gap()) // FINE)
        if draft.gap() <= slack:
            return True
        slack *= 4
    return False


def _pairs(problem: Problem, market: Market, draft: Draft) -> tuple[Pair | None, ...]:
    return tuple(
        None
        if left < 0
        else (serving_of(problem, market.ways, left), serving_of(problem, market.ways, right))
        for left, right in draft.way.tolist()
    )
