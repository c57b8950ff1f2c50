"""The last of the price bound: prices from a linear program over the pairs that matter.

The program knows only pairs found so far. Its prices show at which other pairs it should have
looked; with those it is solved again, and so on. So that the prices do not jump about meanwhile,
a weight may be used a tenth of a time too often, or too seldom, for its best price met so far and
a radius more, or less: within a box about that price it is free to move, beyond it hardly.

Of an estate, only the sashes that have no room for new weights go into the program, and those that
would take a dear weight if it were a little cheaper: what the others pay is known already, and no
weight may become cheaper than what they would pay for it.

Source: O. du Merle, D. Villeneuve, J. Desrosiers, P. Hansen, Stabilized column generation,
Discrete Mathematics 194 (1999) 229-237; from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import highspy
import numpy as np

from evenhung.allot.ascent import HOUSE, ROOM, Prices, in_whole_cents
from evenhung.allot.columns import Priced
from evenhung.allot.market import FINE
from evenhung.allot.program import INNER, matrix, solve
from evenhung.allot.shortlist import Shortlists

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from evenhung.allot.columns import Columns
    from evenhung.allot.market import Market
    from evenhung.allot.pricing import Block
    from evenhung.allot.problem import Problem
    from evenhung.allot.watch import Watch

RADII = (100.0, 100.0, 50.0, 30.0, 20.0, 10.0, 5.0, 5.0, 3.0, 3.0, 2.0, 2.0)
"""Radius of the box in each round: the first gather pairs, the last raise the bound [cent]."""
WIDE_RADII = (3000.0, 1000.0, 300.0, 100.0, 50.0, 20.0, 10.0, 5.0, 3.0, 2.0, 1.0)
"""The same for a few sashes, whose program is solved in no time: fewer steps come before it."""
SPARE = 0.1
"""How much too often or too seldom a weight may be used."""
SLACK = 3 * FINE
"""Greatest reduced cost of a pair that is taken in [1/FINE cent]."""
MOST_COLUMNS = 30
"""Greatest number of pairs that a sash names in a round."""
STALE = 60.0
"""Pairs that the program's prices make so much dearer than the best are dropped [cent]."""
NEEDY_RADII = (3000.0, 1000.0, 1000.0, 300.0, 300.0, 100.0, 100.0, 30.0, 30.0, 10.0)
"""The same for a few sashes that contend for dear weights."""
NEEDY_AT_ONCE = 400
"""Greatest number of them in a program."""
TEMPTING = 60
"""How much cheaper a dear weight must be for those who count as tempted by it [cent]."""
NEEDY_SLACK, NEEDY_COLUMNS = 60 * FINE, 80
"""The same as `SLACK` and `MOST_COLUMNS` for them."""
SHARES = (1.0, 0.5, 0.2)
"""How far towards the program's prices we go: each is tried."""
CENT = 1.0
"""Once the program promises no more than this over the best bound, we stop [cent]."""


def refine(
    problem: Problem,
    market: Market,
    block: Block,
    prices: Prices,
    watch: Watch,
    tell_bound: Callable[[float], None],
) -> Prices:
    """Raise the price bound until it no longer rises, or until time is up."""
    floor = np.zeros(len(problem.weights))
    pool = _Pool(problem, np.arange(len(problem.sashes)), floor, SLACK, MOST_COLUMNS)
    radii = WIDE_RADII if len(problem.sashes) <= ROOM else RADII
    return _closed_in(pool, problem, market, block, prices, radii, watch, tell_bound)


def refine_needy(
    problem: Problem,
    market: Market,
    block: Block,
    prices: Prices,
    watch: Watch,
    tell_bound: Callable[[float], None],
) -> Prices:
    """Raise the price bound by the prices for which only sashes without another way contend.

    With them go those whom a dear weight tempts, else its price could not fall. Many are taken in
    parts by mass, so that where one part goes astray the others need not.
    """
    new = np.array([problem.rules.dearest_new(weight.mass) for weight in problem.weights])
    sashes = _contenders(problem, market, block, prices)
    masses = np.array([problem.sashes[sash].mass for sash in sashes.tolist()])
    sashes = sashes[np.argsort(masses, kind="stable")]
    for part in np.array_split(sashes, -(-len(sashes) // NEEDY_AT_ONCE)) if len(sashes) else ():
        chosen = _chosen(market, block, prices.price)
        # What those of other parts choose they would choose all the more at lower prices.
        others = np.setdiff1d(chosen[np.setdiff1d(sashes, part)], [len(new)])
        floor = np.minimum(prices.price[:-1], new).astype(float)
        floor[others] = prices.price[others]
        pool = _Pool(problem, part, floor, NEEDY_SLACK, NEEDY_COLUMNS)
        prices = _closed_in(pool, problem, market, block, prices, NEEDY_RADII, watch, tell_bound)
    return prices


def _contenders(problem: Problem, market: Market, block: Block, prices: Prices) -> NDArray[np.intp]:
    """Give the sashes that new weights alone cannot serve, and those that a dear one tempts."""
    priced = Priced(problem, market, block, prices.price)
    is_dear = priced.dear()
    cheaper = prices.price - TEMPTING * is_dear
    is_tempted = is_dear[_chosen(market, block, cheaper)].any(axis=1)
    return np.flatnonzero(priced.needy() | is_tempted)


def _chosen(market: Market, block: Block, price: NDArray[np.int64]) -> NDArray[np.int32]:
    """Give the two weights of every sash's cheapest pair at prices in cents."""
    return block.choices(market.offers(FINE * price), FINE * price).weight


def _closed_in(
    pool: _Pool,
    problem: Problem,
    market: Market,
    block: Block,
    prices: Prices,
    radii: Sequence[float],
    watch: Watch,
    tell_bound: Callable[[float], None],
) -> Prices:
    """Go towards the program's prices within ever smaller boxes."""
    best, latest = prices, prices.price
    for radius in radii:
        if not pool.take_in(Priced(problem, market, block, latest), watch):
            break
        aim = pool.aim(best.price[:-1].astype(float), radius, watch)
        if aim is None:
            break
        tried = []
        for share in SHARES:
            fine = np.rint(FINE * (latest[:-1] + share * (aim.price - latest[:-1])))
            fine = np.append(fine, 0).astype(np.int64)
            tried.append(in_whole_cents(market, block, fine, prices.epochs))
        latest = tried[0].price
        best = max(best, *tried, key=lambda one: one.bound)
        tell_bound(best.bound)
        if pool.is_whole and aim.promise <= best.bound + CENT:
            break
    return best


def most_pairs(problem: Problem) -> int:
    """Give how many pairs the program may come to know in all its rounds."""
    return len(problem.sashes) * MOST_COLUMNS * len(RADII)


class _Aim(NamedTuple):
    """What the program says of the pairs that it knows."""

    price: NDArray[np.float64]
    """Of each weight [cent]."""
    promise: float
    """The bound that these prices would prove were there no other pairs [cent]."""


class _Pool:
    """The pairs that the program knows: sash, two weights, what it costs without prices."""

    def __init__(
        self,
        problem: Problem,
        sashes: NDArray[np.intp],
        floor: NDArray[np.float64],
        slack: int,
        most: int,
    ) -> None:
        self._problem, self._sashes, self._floor = problem, sashes, floor
        self._slack, self._most = slack, most
        self.is_whole = len(sashes) == len(problem.sashes)
        self._nobody = len(problem.weights)
        self._rows = np.empty((0, 4), dtype=np.int64)

    def take_in(self, priced: Priced, watch: Watch) -> bool:
        """Let every sash name its cheapest pairs; give whether time was left for all."""
        parts = [self._rows]
        if watch.is_over():
            return False
        for place, found in enumerate(self._listed(priced)):
            least = priced.least[self._sashes[place]]
            own = found.reduced + least - priced.price[found.weight].sum(axis=1)
            pair = np.sort(found.weight, axis=1)
            parts.append(np.column_stack([np.full(len(own), place), pair, own]))
        rows = np.concatenate(parts)
        rows = rows[np.lexsort(rows.T[::-1])]
        is_first = np.ones(len(rows), dtype=bool)
        is_first[1:] = (rows[1:, :3] != rows[:-1, :3]).any(axis=1)
        self._rows = rows[is_first]
        return True

    def _listed(self, priced: Priced) -> list[Columns]:
        """Give the cheapest pairs of every sash: of a house in full, else from shortlists."""
        every = np.ones(self._nobody, dtype=bool)
        if len(priced.least) <= HOUSE:
            stock = priced.stock(np.flatnonzero(every))
            return [
                priced.columns(stock, s, self._slack, self._most) for s in self._sashes.tolist()
            ]
        lists = Shortlists(priced, priced.block.part(self._sashes), every)
        slack = np.full(len(self._sashes), self._slack)
        return lists.columns(np.arange(len(self._sashes)), slack, self._most)

    def aim(self, centre: NDArray[np.float64], radius: float, watch: Watch) -> _Aim | None:
        """Give the best prices for these pairs; None if time is up."""
        model = self._model(centre, radius)
        found = solve(model, INNER, watch)
        if found.is_cut_short or len(found.values) == 0:
            return None
        least, price = np.split(found.duals, [len(self._sashes)])
        price = np.append(np.maximum(-price, 0.0), 0.0)
        reduced = self._rows[:, 3] / FINE + price[self._rows[:, 1:3]].sum(axis=1)
        self._rows = self._rows[reduced - least[self._rows[:, 0]] <= STALE]
        return _Aim(price[:-1], float(np.dot(model.col_cost_, found.values)))

    def _model(self, centre: NDArray[np.float64], radius: float) -> highspy.HighsLp:
        sashes, weights = len(self._sashes), self._nobody
        unserved = np.full(sashes, float(self._problem.rules.unserved))
        own = self._rows[:, 3] / FINE
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = sashes + len(own) + 2 * weights, sashes + weights
        lowest = np.maximum(centre - radius, self._floor)
        too_often, too_seldom = centre + radius, -lowest
        model.col_cost_ = np.concatenate([unserved, own, too_often, too_seldom])
        model.col_lower_ = np.zeros(model.num_col_)
        free = np.full(sashes + len(own), highspy.kHighsInf)
        is_floor = (self._floor > 0.0) & (lowest <= self._floor)
        unused = np.where(is_floor, highspy.kHighsInf, SPARE)
        model.col_upper_ = np.concatenate([free, np.full(weights, SPARE), unused])
        # Every sash is served or left unserved; every weight is used once, or a little off that.
        is_sash = np.arange(model.num_row_) < sashes
        model.row_lower_ = np.where(is_sash, 1.0, -highspy.kHighsInf)
        model.row_upper_ = np.ones(model.num_row_)
        pair = np.where(self._rows[:, 1:3] < weights, sashes + self._rows[:, 1:3], -1)
        every, each = np.arange(sashes)[:, None], sashes + np.arange(weights)[:, None]
        rows = np.column_stack([self._rows[:, :1], pair])
        matrix(model, [every, rows, each, each], [1.0, 1.0, -1.0, 1.0])
        return model
