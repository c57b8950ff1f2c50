"""Solve: prices, a first draft, then a proof where the house is small or a search where it is not.

What it will take of memory is reckoned first: a problem for which the refinement of prices would
take too much goes without, and one that is too large even so is refused (docs/allot.md).
"""

from __future__ import annotations

from copy import copy
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from evenhung.allot.answer import Answer, Effort, Pair, Status, cost_of, serving_of
from evenhung.allot.ascent import (
    HOUSE,
    NEAR,
    ROOM,
    ascend,
    first_prices,
    last_schedule,
    later_schedule,
    schedule_for,
)
from evenhung.allot.balance import balance
from evenhung.allot.box import most_pairs, refine, refine_needy
from evenhung.allot.chains import Chains
from evenhung.allot.columns import Priced
from evenhung.allot.dive import BLOCK, dive, dive_pairs
from evenhung.allot.draft import Draft, draft_of, serve_rest
from evenhung.allot.market import FINE, Market
from evenhung.allot.memory import ALLOWED, insist, needed
from evenhung.allot.pricing import Block
from evenhung.allot.problem import Problem
from evenhung.allot.search import FAR_NEEDY, LAST_NEEDY, NEEDY, TIDY, Search
from evenhung.allot.watch import Watch
from evenhung.allot.ways import ways_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.ascent import Prices, Schedule
    from evenhung.allot.search import Manner
    from evenhung.allot.ways import Ways

WHOLE = 60
"""Up to so many sashes the whole is solved at once, to a proof."""

MOST_COLUMNS = 200_000
"""Beyond so many columns the whole is searched in neighbourhoods instead."""

PRICED, REFINED, DIVED, NEEDY_SHARE, LAST_SHARE, CHAINED = 0.3, 0.35, 0.5, 0.2, 0.35, 0.2
"""Shares of the time left that prices, their refinement and the first draft may take."""

DIVES = 6
"""Number of dives for a house that is not solved whole."""

REFINABLE = 2000
"""Greatest number of sashes whose prices are refined: beyond, a round would take minutes."""

FAR = 0.0005
"""Share of the bound by which prices that prove less are too far off to search by (measured)."""

CLOSE = 0.002
"""Share of what the served cost, within which the gap is the search's, not the prices'."""

BETWEEN_CHAINS = 5
"""Rounds of search between chains."""

FIRST_ROUNDS = 2
"""Rounds of search before that is asked."""


def allot(
    problem: Problem, watch: Watch | None = None, *, rounds: int = 20, memory: int = ALLOWED
) -> Answer:
    """Give the best use of the weights, as far as effort and time allow, and a proof of how good.

    Parameters
    ----------
    problem
        The problem.
    watch
        Deadline, stop flag and whom to tell; none of these by default.
    rounds
        Effort: a round is as many neighbourhoods as would cover the sashes once.
    memory
        What may be taken of it [B].

    Raises
    ------
    InvalidInstance
        If the problem is too large for the memory.
    """
    insist(problem, _least_pairs(problem), min(len(problem.sashes), BLOCK), memory)
    watch = watch or Watch()
    ways = ways_of(problem)
    whole = _Stage(problem, ways, first_prices(problem), watch, memory)
    watch.tell(bound=whole.prices.bound, cost=whole.search.cost())
    is_small = len(problem.sashes) <= WHOLE
    is_proved = is_small and _solve_whole(whole.search, watch)
    if is_small and not is_proved:
        whole.dive_after_all()
    prices, neighbourhoods, chosen = whole.prices, 0, whole.draft.way
    if not is_proved:
        whole.begin()
        served = np.flatnonzero(chosen[:, 0] >= 0)
        last = whole
        if len(served) and whole.is_worth_another_look() and not watch.is_over():
            last = _among_served(problem, ways, whole, served, watch, memory)
        last.improve(rounds)
        neighbourhoods = whole.search.count + (last.search.count if last is not whole else 0)
        chosen[served] = last.draft.way if last is not whole else chosen[served]
    pairs = _pairs(problem, ways, chosen)
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
    """A problem with its prices, a draft and a search.

    Parameters
    ----------
    problem, ways
        The problem.
    start
        Where its prices start [cent].
    watch
        Knows how much time is left.
    memory
        What may be taken of it; where it is short the prices are not refined [B].
    former
        The draft it had as part of a larger problem; None for the problem itself.
    """

    def __init__(
        self,
        problem: Problem,
        ways: Ways,
        start: NDArray[np.float64],
        watch: Watch,
        memory: int,
        former: NDArray[np.int64] | None = None,
    ) -> None:
        self.problem, self.watch = problem, watch
        pairs = most_pairs(problem)
        size = len(problem.sashes)
        self._can_refine = size <= REFINABLE and needed(problem, pairs, size) <= memory
        market = Market(problem, ways)
        block = Block(problem, market, range(len(problem.sashes)))
        is_part = former is not None
        # Bounds of a part say nothing of the whole: they are not told.
        self._tell = (lambda _: None) if is_part else (lambda bound: watch.tell(bound=bound))
        schedule = later_schedule(problem) if is_part else schedule_for(problem)
        guide, self.prices = self._priced_well(market, block, start, schedule)
        priced = Priced(problem, market, block, guide.price)
        is_solved_whole = size <= WHOLE and not is_part
        self.draft = _plain_draft(priced, watch) if is_solved_whole else self._dived(priced, former)
        self.search = Search(priced, self.draft)

    def _priced_well(
        self, market: Market, block: Block, start: NDArray[np.float64], schedule: Schedule
    ) -> tuple[Prices, Prices]:
        """Give prices to be guided by and prices to prove by: the same for a house.

        Those of a linear program lie in a corner, where much costs the same and little is told
        apart: an estate is searched by its balanced prices and steps, which lie amid such corners,
        unless they prove much less and so are wrong somewhere.
        """
        problem, tell = self.problem, self._tell
        steps = self._first_prices(market, block, start, schedule)
        is_estate = len(problem.sashes) > HOUSE
        if not self._can_refine:
            if is_estate:  # once more, for the pairs that its prices have shown to matter
                limit = self.watch.within(REFINED)
                steps = refine_needy(problem, market, block, steps, limit, tell)
            return steps, steps
        best = steps
        if len(problem.sashes) > ROOM:
            again = steps.price[:-1].astype(float)
            more = ascend(market, block, again, last_schedule(problem), self.watch, tell)
            best = max(steps, more, key=lambda prices: prices.bound)
        fine = refine(problem, market, block, best, self.watch.within(REFINED), tell)
        is_near = fine.bound - best.bound <= FAR * fine.bound
        return (best if is_estate and is_near else fine), fine

    def _first_prices(
        self, market: Market, block: Block, start: NDArray[np.float64], schedule: Schedule
    ) -> Prices:
        """Give prices by steps; for an estate balanced first, which steps alone would not be."""
        watch = self.watch.within(PRICED)
        if len(self.problem.sashes) <= HOUSE:
            return ascend(market, block, start, schedule, watch, self._tell)
        even = balance(self.problem, market, block, start, watch, self._tell)
        near = even.price[:-1].astype(float)
        steps = ascend(market, block, near, NEAR, watch, self._tell)
        best = max(even, steps, key=lambda prices: prices.bound)
        return refine_needy(self.problem, market, block, best, watch, self._tell)

    def dive_after_all(self) -> None:
        """Take a better draft to search from, where the whole could not be solved."""
        priced = self.search.priced
        self.draft = self._dived(priced, self.draft.way)
        self.search = Search(priced, self.draft)

    def _dived(self, priced: Priced, former: NDArray[np.int64] | None) -> Draft:
        """Give the best of the former draft and of some dives; an estate has time for one."""
        watch, size = self.watch.within(DIVED), len(self.problem.sashes)
        dives = DIVES if ROOM < size <= HOUSE else 1
        drafts = [dive(priced, 0, watch)]
        drafts += [dive(priced, seed, watch) for seed in range(1, dives) if not watch.is_over()]
        for draft in drafts if size > WHOLE else ():
            Chains(priced, draft).run(watch)
        if former is not None:
            drafts.append(draft_of(priced, former))
        return min(drafts, key=Draft.gap)

    def begin(self) -> None:
        """Serve those better whom new weights alone cannot serve, then all, for some rounds.

        Which pairs of dear weights are formed first decides how well an estate's draft can end: it
        is begun in two manners, and the better goes on.
        """
        if self._can_refine:
            self._begin(NEEDY)
            return
        first, ends = copy(self.draft), []
        for manner in (NEEDY, FAR_NEEDY):
            self.draft.become(first)
            self._begin(manner)
            ends.append(copy(self.draft))
        self.draft.become(min(ends, key=Draft.gap))
        for manner in LAST_NEEDY:
            self.search.improve_needy(manner, self.watch.within(LAST_SHARE))

    def _begin(self, manner: Manner) -> None:
        self.search.improve_needy(manner, self.watch.within(NEEDY_SHARE))
        self.improve(FIRST_ROUNDS)

    def improve(self, rounds: int) -> None:
        """Search for so many rounds, or as long as there is time, with chains now and then."""
        for number in range(rounds):
            if self.watch.is_over() or not self.draft.gap():
                return
            if number % BETWEEN_CHAINS == 0:
                Chains(self.search.priced, self.draft).run(self.watch.within(CHAINED))
                self.watch.tell(cost=self.search.cost())
            self.search.run(self.neighbourhoods(1), self.watch)

    def is_worth_another_look(self) -> bool:
        """Whether prices prove the draft so little good that others might tell much better.

        With prices as good as an estate's now are, its time is better spent on the search.
        """
        if len(self.problem.sashes) > HOUSE:
            return False
        gap = self.draft.gap() / FINE
        unserved = self.problem.rules.unserved * np.sum(self.draft.way[:, 0] < 0)
        return bool(gap > CLOSE * (self.search.cost() - unserved))

    def neighbourhoods(self, rounds: int) -> int:
        """Give how many neighbourhoods make so many rounds."""
        return -(-rounds * len(self.draft.reduced) // TIDY.size)


def _among_served(
    problem: Problem,
    ways: Ways,
    whole: _Stage,
    served: NDArray[np.intp],
    watch: Watch,
    memory: int,
) -> _Stage:
    """Give the problem of the served sashes alone, from the same draft or a better.

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
    start = whole.prices.price[:-1].astype(float)
    part = _Stage(rest, ways, start, watch, memory, whole.draft.way[served])
    part.search.set_aside = problem.rules.unserved * (len(problem.sashes) - len(served))
    return part


def _plain_draft(priced: Priced, watch: Watch) -> Draft:
    """Give a draft in no time, for a whole program to better."""
    draft = Draft(priced)
    serve_rest(priced, draft, watch)
    return draft


def _least_pairs(problem: Problem) -> int:
    """Give how many pairs may lie in one linear program even where no prices are refined."""
    return MOST_COLUMNS if len(problem.sashes) <= WHOLE else dive_pairs(problem)


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
