"""Search: better answers by solving neighbourhoods of sashes exactly, one after another.

A neighbourhood grows from what adds to the gap: a sash whose pair is not its cheapest, or an idle
weight with a price. It takes in the sashes that hold what its sashes could use at a small reduced
cost, and the dearest idle weights among those. All else stays as it is.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.columns import Columns, joined
from evenhung.allot.market import FINE
from evenhung.allot.packing import pack
from evenhung.allot.shortlist import Shortlists

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from evenhung.allot.columns import Priced
    from evenhung.allot.draft import Draft
    from evenhung.allot.watch import Watch


class Manner(NamedTuple):
    """How a neighbourhood is made."""

    size: int
    """Sashes in it."""
    slack: int
    """Greatest reduced cost of a column, above that of the pair it replaces [1/FINE cent]."""
    columns: int
    """Greatest number of columns of a sash."""
    with_new: int = 0
    """Greatest number of columns with a new weight besides, of whatever reduced cost."""


TIDY = Manner(80, 5 * FINE, 30)
"""Where little is amiss: far and shallow."""

RESCUE = Manner(40, 30 * FINE, 40, 10)
"""Where a sash is badly served or a dear weight idle: near and deep."""

NEEDY = Manner(200, 1000 * FINE, 60, 10)
"""Where sashes have no room for new weights and contend for a few: all of them, and deep."""

FAR_NEEDY = Manner(320, 8000 * FINE, 60, 10)
"""The same of an estate, where prices of dear weights are far off: nearly all, and deeper."""

LAST_NEEDY = Manner(320, 8000 * FINE, 120, 10), Manner(100, 8000 * FINE, 120, 10)
"""Once more in turn, with twice as many pairs of each: in full, and in smaller parts."""

AMISS = 16 * FINE
"""What adds more than this to the gap calls for a rescue [1/FINE cent]."""

FIRST_COLUMNS = 60
"""Greatest number of columns of the badly served sash itself, of whatever reduced cost."""

REACH = 16 * FINE
"""Greatest reduced cost at which a sash is said to care for a weight [1/FINE cent]."""

CARES = 40
"""Greatest number of weights that a sash is said to care for."""

IDLE = 60
"""Greatest number of idle weights offered to a neighbourhood."""

NODES = 50
"""Greatest number of nodes that HiGHS may branch to in a neighbourhood."""

CAPS = (500 * FINE, 20 * FINE)
"""In turn, what counts at most when it is drawn where to try: first what is worst, then all."""


class _Cares(NamedTuple):
    """Which weights each sash cares for, and which sashes care for each weight, most first."""

    weights: list[NDArray[np.int64]]
    sashes: list[NDArray[np.int64]]


class Search:
    """A search from one draft, which it improves in place."""

    def __init__(self, priced: Priced, draft: Draft) -> None:
        self.priced, self.draft = priced, draft
        self._random = np.random.default_rng(0)
        self._everything = priced.stock(np.arange(priced.nobody))
        self._tries = np.zeros(len(priced.least) + priced.nobody)
        self.set_aside = 0
        """Cost of sashes outside this problem [cent]."""
        self.count = 0
        """Neighbourhoods solved so far."""

    def run(self, neighbourhoods: int, watch: Watch) -> None:
        """Solve so many neighbourhoods, or as many as time allows; stop where no gap is left."""
        for _ in range(neighbourhoods):
            weight = self._where_the_gap_is()
            if watch.is_over() or not weight.any():
                break
            seed = int(self._random.choice(len(weight), p=weight / weight.sum()))
            self._try(seed, watch)

    def _try(self, seed: int, watch: Watch) -> None:
        """Solve the neighbourhood of a sash or, counted after the sashes, of an idle weight."""
        self._tries[seed] += 1
        manner = RESCUE if self._parts()[seed] > AMISS else TIDY
        sashes, idle = self._grown_from(seed, manner)
        if sashes:
            self.improve(sashes, idle, manner, watch)
        self.count += 1
        if self.count % 20 == 0:
            watch.tell(cost=self.cost())

    def cost(self) -> int:
        """Give what the draft costs, the sashes included that were set aside [cent]."""
        return self.set_aside + (self.priced.bound + self.draft.gap()) // FINE

    def improve(self, sashes: list[int], idle: list[int], manner: Manner, watch: Watch) -> None:
        """Solve a neighbourhood of its first sash with some idle weights; take a better answer."""
        draft = self.draft
        held = draft.weight[sashes].reshape(-1)
        weights = np.unique(np.concatenate([held[held < draft.nobody], np.array(idle, dtype=int)]))
        gap = int(draft.reduced[sashes].sum() + draft.idle()[weights].sum())
        slacks = np.minimum(gap, manner.slack + draft.reduced[sashes])
        stock = self.priced.stock(weights)
        most = [manner.columns] * len(sashes)
        most[0] = max(FIRST_COLUMNS, manner.columns)
        columns = []
        for sash, slack, many in zip(sashes, slacks, most, strict=True):
            if watch.is_over():
                return
            some = self.priced.columns(stock, sash, int(slack), many)
            if manner.with_new:
                new = self.priced.beside_new(stock, sash, gap, manner.with_new)
                some = joined([some, new])
            columns.append(some)
        self._solve(sashes, columns, NODES, watch)

    def improve_needy(self, manner: Manner, watch: Watch) -> None:
        """Solve the neighbourhood of all sashes that new weights alone cannot serve.

        With them go the sashes that hold what is so dear that only those would pay for it. Many
        are taken in overlapping parts by mass: the light ones and the heavy do not contend.

        Parameters
        ----------
        manner
            `NEEDY`, `FAR_NEEDY` or one of `LAST_NEEDY`.
        watch
            Knows how much time is left.
        """
        draft, problem = self.draft, self.priced.problem
        dear = np.flatnonzero(self.priced.dear())
        holders = draft.holder[dear]
        sashes = np.union1d(np.flatnonzero(self.priced.needy()), holders[holders >= 0])
        masses = np.array([problem.sashes[sash].mass for sash in sashes.tolist()])
        sashes = sashes[np.argsort(masses, kind="stable")]
        firsts = range(0, max(1, len(sashes) - manner.size // 2), manner.size // 2)
        parts = [sashes[first : first + manner.size] for first in firsts]
        for some in sorted(parts, key=lambda part: -int(draft.reduced[part].sum())):
            if watch.is_over() or not len(some):
                return
            worst = some[np.argsort(-draft.reduced[some], kind="stable")]
            idle = dear[draft.holder[dear] < 0]
            self.improve(worst.tolist(), idle.tolist(), manner, watch)
            watch.tell(cost=self.cost())

    def improve_whole(self, slack: int, most: int, watch: Watch) -> bool:
        """Solve the whole with every column within a slack; give whether that was done to the end.

        Parameters
        ----------
        slack
            Greatest reduced cost of a column [1/FINE cent].
        most
            Greatest number of columns; with more nothing is done.
        watch
            Knows how much time is left.
        """
        sashes = list(range(len(self.draft.reduced)))
        columns, left = [], most
        for sash in sashes:
            columns.append(self.priced.columns(self._everything, sash, slack, left + 1))
            left -= len(columns[-1].reduced)
            if left < 0 or watch.is_over():
                return False
        return self._solve(sashes, columns, 2**31 - 1, watch)

    def _solve(self, sashes: list[int], columns: list[Columns], nodes: int, watch: Watch) -> bool:
        draft = self.draft
        starting = [
            self._with_present(found, sash) for found, sash in zip(columns, sashes, strict=True)
        ]
        columns, start = [found for found, _ in starting], [at for _, at in starting]
        packed = pack(columns, draft.unserved[sashes], draft.price, start, nodes, watch)
        self._take(sashes, columns, start, packed.chosen)
        return packed.is_optimal

    def _with_present(self, found: Columns, sash: int) -> tuple[Columns, int | None]:
        """Add the pair that serves the sash now; give its position."""
        draft = self.draft
        if draft.way[sash, 0] < 0:
            return found, None
        columns = (draft.way, draft.weight, draft.reduced)
        pairs = zip(found, (column[sash : sash + 1] for column in columns), strict=True)
        return Columns(*(np.concatenate(pair) for pair in pairs)), len(found.reduced)

    def _take(
        self,
        sashes: list[int],
        columns: list[Columns],
        before: list[int | None],
        after: Iterable[int | None],
    ) -> None:
        """Put an answer to a neighbourhood in place, and the former one back if it is no better."""
        former = self.draft.gap()
        for choice in (after, before):
            for sash in sashes:
                self.draft.clear(sash)
            for sash, column, chosen in zip(sashes, columns, choice, strict=True):
                if chosen is not None:
                    pair = (column.way[chosen], column.weight[chosen])
                    self.draft.put(sash, *pair, int(column.reduced[chosen]))
            if self.draft.gap() <= former:
                return

    def _parts(self) -> NDArray[np.int64]:
        """Give what each sash, then each weight, adds to the gap [1/FINE cent]."""
        return np.concatenate([self.draft.reduced, self.draft.idle()[:-1]])

    def _where_the_gap_is(self) -> NDArray[np.float64]:
        """Give how much each sash, then each weight, deserves a try."""
        cap = CAPS[self.count % len(CAPS)]
        worth: NDArray[np.float64] = np.minimum(self._parts(), cap) / (1.0 + self._tries) ** 2
        return worth

    def _grown_from(self, seed: int, manner: Manner) -> tuple[list[int], list[int]]:
        """Give the sashes of the neighbourhood of a sash or idle weight, and the idle weights."""
        draft = self.draft
        sashes: dict[int, None] = {}
        idle: dict[int, None] = {}
        if seed < len(draft.reduced):
            sashes[seed] = None
            if draft.reduced[seed] > AMISS:
                self._ask_more(seed, sashes, idle, manner)
        else:
            weight = seed - len(draft.reduced)
            idle[weight] = None
            sashes |= dict.fromkeys(self._cares.sashes[weight][: manner.size // 4].tolist())
        queue = list(sashes)
        for sash in queue:
            cared = self._cares.weights[sash]
            idle |= dict.fromkeys(cared[draft.holder[cared] < 0].tolist())
            nearest = draft.holder[cared[:12][self._random.permutation(len(cared[:12]))[:6]]]
            for other in nearest[nearest >= 0].tolist():
                if other not in sashes and len(sashes) < manner.size:
                    sashes[other] = None
                    queue.append(other)
        dearest = sorted(idle, key=lambda weight: (-draft.price[weight], weight))
        return list(sashes), dearest[:IDLE]

    def _ask_more(
        self, sash: int, sashes: dict[int, None], idle: dict[int, None], manner: Manner
    ) -> None:
        """Add the holders of what a badly served sash could use at any reduced cost it now has."""
        reduced = int(self.draft.reduced[sash])
        wanted, _ = self.priced.interest(self._everything, sash, reduced)
        for weight in wanted[: 2 * manner.size].tolist():
            holder = int(self.draft.holder[weight])
            if holder < 0:
                idle[weight] = None
            elif len(sashes) < manner.size // 2:
                sashes[holder] = None

    @cached_property
    def _cares(self) -> _Cares:
        """Found once a neighbourhood is grown: a house that is solved whole asks for none."""
        priced = self.priced
        lists = Shortlists(priced, priced.block, np.ones(priced.nobody, dtype=bool))
        weights, ends = zip(*lists.interest(REACH, CARES), strict=True)
        asker = np.repeat(np.arange(len(weights)), [len(wanted) for wanted in weights])
        weight, cost = np.concatenate(weights), np.concatenate(ends)
        order = np.lexsort((asker, cost, weight))
        starts = np.searchsorted(weight[order], np.arange(1, priced.nobody))
        return _Cares(list(weights), np.split(asker[order], starts))
