"""Solve: prices, a first draft, then a proof where the house is small or a search where it is not.

Memory is not capped: an estimated 40 bytes for each way and 10 kB for each sash, and what HiGHS
takes for a neighbourhood or, up to `REFINED` sashes, for the columns of the whole (docs/allot.md).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from evenhung.allot.answer import Answer, Effort, Pair, Status, cost_of, serving_of
from evenhung.allot.ascent import ascend, first_prices, later_schedule, schedule_for
from evenhung.allot.box import refine
from evenhung.allot.columns import Priced
from evenhung.allot.draft import draft_of, first_draft
from evenhung.allot.market import FINE, Market
from evenhung.allot.pricing import Block
from evenhung.allot.problem import Problem
from evenhung.allot.search import Manner, Search
from evenhung.allot.watch import Watch
from evenhung.allot.ways import ways_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from evenhung.allot.ways import Ways

WHOLE = 60
"""Up to so many sashes the whole is solved at once, to a proof."""

MOST_COLUMNS = 200_000
"""Beyond so many columns the whole is searched in neighbourhoods instead."""

REFINED = 400
"""Up to so many sashes the price bound is raised to its last cents."""

RESCUES = 3
"""Times that each badly served sash is tried before it is settled which are left unserved."""

FIRST_ROUNDS = 2
"""Rounds of search after which it is settled which sashes are left unserved."""


def allot(problem: Problem, watch: Watch | None = None, *, rounds: int = 20) -> Answer:
    """Give the best use of the weights, as far as effort and time allow, and a proof of how good.

    Parameters
    ----------
    problem
        The problem.
    watch
        Deadline, stop flag and whom to tell; none of these by default.
    rounds
        Effort: a round is as many neighbourhoods as would cover the sashes once.
    """
    watch = watch or Watch()
    ways = ways_of(problem)
    stage = _Stage(
        problem, ways, first_prices(problem), watch, lambda bound: watch.tell(bound=bound)
    )
    watch.tell(bound=stage.prices.bound, cost=stage.search.cost())
    prices, draft, neighbourhoods = stage.prices, stage.draft, 0
    is_proved = len(problem.sashes) <= WHOLE and _solve_whole(stage.search, watch)
    if not is_proved:
        stage.search.run(stage.neighbourhoods(FIRST_ROUNDS), watch)
        stage.search.rescue(RESCUES, watch)
        neighbourhoods = stage.search.count
    served = np.flatnonzero(draft.way[:, 0] >= 0)
    if len(served) and not is_proved:
        later = _among_served(problem, ways, stage, served, watch)
        later.search.run(later.neighbourhoods(rounds), watch)
        neighbourhoods += later.search.count
        draft.way[served] = later.draft.way
    pairs = _pairs(problem, ways, draft.way)
    cost = cost_of(problem, pairs)
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


def cheapest_pair(problem: Problem) -> Pair | None:
    """Serve a sash that is the only one of its problem; None where nothing serves it."""
    ways = ways_of(problem)
    market = Market(problem, ways)
    free = np.zeros(len(problem.weights) + 1, dtype=np.int64)
    found = Block(problem, market, (0,)).choices(market.offers(free), free)
    return _pairs(problem, ways, found.way.astype(np.int64))[0]


class _Stage:
    """A problem with its prices, a draft and a search."""

    def __init__(
        self,
        problem: Problem,
        ways: Ways,
        start: NDArray[np.float64],
        watch: Watch,
        tell_bound: Callable[[float], None],
        former: NDArray[np.int64] | None = None,
    ) -> None:
        market = Market(problem, ways)
        block = Block(problem, market, range(len(problem.sashes)))
        schedule = schedule_for(problem) if former is None else later_schedule(problem)
        self.prices = ascend(market, block, start, schedule, watch, tell_bound)
        if len(problem.sashes) <= REFINED:
            self.prices = refine(problem, market, block, self.prices, watch)
        priced = Priced(problem, market, block, self.prices.price)
        self.draft = first_draft(priced) if former is None else draft_of(priced, former)
        self.search = Search(priced, self.draft, Manner())

    def neighbourhoods(self, rounds: int) -> int:
        """Give how many neighbourhoods make so many rounds."""
        return -(-rounds * len(self.draft.reduced) // self.search.manner.size)


def _among_served(
    problem: Problem, ways: Ways, stage: _Stage, served: NDArray[np.intp], watch: Watch
) -> _Stage:
    """Give the problem of the served sashes alone, from the same draft.

    Where it is settled that a sash gets no pair, its claim no longer bends the prices: they tell
    better what is worth trying. The proof keeps the prices of the whole.
    """
    number = {int(sash): position for position, sash in enumerate(served)}
    weights = tuple(
        replace(weight, home=(number[weight.home[0]], weight.home[1]))
        if weight.home and weight.home[0] in number
        else replace(weight, home=None)
        for weight in problem.weights
    )
    rest = Problem(problem.rules, tuple(problem.sashes[sash] for sash in served), weights)
    start = stage.prices.price[:-1].astype(float)
    # Bounds of a part say nothing of the whole: they are not told.
    later = _Stage(rest, ways, start, watch, lambda _: None, stage.draft.way[served])
    later.search.set_aside = problem.rules.unserved * (len(problem.sashes) - len(served))
    return later


def _solve_whole(search: Search, watch: Watch) -> bool:
    """Take in columns of ever greater reduced cost, until all within the gap are in: a proof."""
    draft, slack = search.draft, 4 * FINE
    while not watch.is_over():
        slack = min(slack, draft.gap())
        if not search.improve_whole(slack, MOST_COLUMNS, watch):
            return False
        watch.tell(cost=search.cost())
        if draft.gap() <= slack:
            return True
        slack *= 4
    return False


def _pairs(problem: Problem, ways: Ways, chosen: NDArray[np.int64]) -> tuple[Pair | None, ...]:
    return tuple(
        None if left < 0 else (serving_of(problem, ways, left), serving_of(problem, ways, right))
        for left, right in chosen.tolist()
    )
