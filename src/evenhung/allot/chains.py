"""Chains: a sash takes a weight, its holder takes another's, and so on to one that is idle or new.

What it costs to set a weight free is nothing if it is idle, less its price: else the least that its
holder pays more for another in its place, that other set free in turn. So every weight knows the
cheapest chain that begins with it, found for all at once in as many rounds as the longest has
links. Sashes that are badly served, and idle weights that are dear, are helped by the chains that
gain most.

Source: R. Bellman, On a routing problem, Quarterly of Applied Mathematics 16 (1958) 87-90, for
cheapest paths by rounds; from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from evenhung.allot.exchange import Exchange, Move
from evenhung.allot.market import DEAR, FINE
from evenhung.allot.shortlist import Shortlists

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from evenhung.allot.columns import Columns, Priced
    from evenhung.allot.draft import Draft
    from evenhung.allot.watch import Watch

LINKS = 100
"""Greatest number of links of a chain."""

LINK = FINE // 8
"""What a link is reckoned to cost besides: of two chains that cost the same the shorter is better
[1/FINE cent]."""

NOISE = 1 * FINE
"""Greatest that is added to a link, so that another chain is tried where one has failed
[1/FINE cent]."""

CAP = 200 * FINE
"""What an idle weight is reckoned to earn at most at first: so that not all chains make for the
dearest [1/FINE cent]."""

GAIN = 2 * FINE
"""Least that a chain must promise [1/FINE cent]."""

AMISS = 16 * FINE
"""A sash whose reduced cost is greater asks for another pair, not only for another weight
[1/FINE cent]."""

PAIRS, ASKERS = 200, 400
"""Greatest number of pairs that it asks for, and of sashes that ask so in a round."""

FAILURES = 4
"""After so many rounds in which no chain gained, one after another, there is none."""


class _Freeing(NamedTuple):
    """What it costs to set each weight free, and how that is begun."""

    cost: NDArray[np.int64]
    """0 for a new one after the last [1/FINE cent]."""
    place: NDArray[np.intp]
    """Of a held weight: where its holder's side finds the next in the table of exchanges."""


class _Ask(NamedTuple):
    """A move that a sash would gain by, if chains set its weights free."""

    gain: int
    """Negative [1/FINE cent]."""
    move: Move


class Chains:
    """Chains that improve a draft in place.

    Parameters
    ----------
    priced, draft
        The problem under prices, and its answer so far.
    """

    def __init__(self, priced: Priced, draft: Draft) -> None:
        self._priced, self._draft = priced, draft
        self._random = np.random.default_rng(0)
        self._lists = Shortlists(priced, priced.block, np.ones(priced.nobody, dtype=bool))
        self._exchange = Exchange(priced, draft, self._lists)

    def run(self, watch: Watch) -> None:
        """Carry out chains while some gain and time is left."""
        failures = 0
        while failures < FAILURES and not watch.is_over():
            cap = DEAR if failures % 2 else CAP
            freeing = self._freeing(cap)
            changed = self._carry_out(self._asks(freeing), freeing)
            if changed:
                failures = 0
                self._exchange.look(np.array(sorted(changed)))
            else:
                failures += 1
                if failures % 2 == 0:
                    self._exchange.look_afresh()

    def refresh(self) -> None:
        """Take notice of what others changed in the draft."""
        self._exchange.look_afresh()

    def _freeing(self, cap: int) -> _Freeing:
        draft, nobody = self._draft, self._priced.nobody
        held = np.flatnonzero(draft.holder[:-1] >= 0)
        holder = draft.holder[held]
        side = (draft.weight[holder, 1] == held).astype(np.intp)
        to = self._exchange.to[holder, side]
        link = LINK + self._random.integers(0, NOISE, to.shape)
        # Were a link to cost less than nothing, a chain could earn by going round in circles.
        more = np.maximum(self._exchange.more[holder, side], 0) + link
        cost = -np.minimum(draft.idle(), cap)
        cost[held] = DEAR
        for _ in range(LINKS):
            best = np.minimum((more + cost[to]).min(axis=1), cost[held])
            if (best == cost[held]).all():
                break
            cost[held] = best
        place = np.zeros(nobody, dtype=np.intp)
        place[held] = (more + cost[to]).argmin(axis=1)
        return _Freeing(cost, place)

    def _asks(self, freeing: _Freeing) -> list[_Ask]:
        """Give what promises to gain, most first."""
        asks = [*self._asks_for_one(freeing), *self._asks_for_pair(freeing)]
        return sorted(asks, key=lambda ask: (ask.gain, ask.move.sash))

    def _asks_for_one(self, freeing: _Freeing) -> list[_Ask]:
        """Let each side ask for another weight and leave its own idle."""
        exchange, draft = self._exchange, self._draft
        left = self._priced.price[draft.weight]
        gain = exchange.more + freeing.cost[exchange.to] + left[:, :, None]
        best = gain.argmin(axis=2)
        gain = np.take_along_axis(gain, best[:, :, None], axis=2)[:, :, 0]
        return [
            _Ask(int(gain[sash, side]), exchange.move(sash, side, int(best[sash, side])))
            for sash, side in np.argwhere(gain < -GAIN).tolist()
        ]

    def _asks_for_pair(self, freeing: _Freeing) -> list[_Ask]:
        """Let each badly served sash ask for another pair."""
        reduced = self._draft.reduced
        bad = np.argsort(-reduced, kind="stable")[:ASKERS]
        bad = bad[reduced[bad] > AMISS]
        if not len(bad):
            return []
        found = self._lists.columns(bad, reduced[bad], PAIRS)
        asks = [
            self._ask_for_pair(sash, columns, freeing)
            for sash, columns in zip(bad.tolist(), found, strict=True)
            if len(columns.reduced)
        ]
        return [ask for ask in asks if ask.gain < -GAIN]

    def _ask_for_pair(self, sash: int, columns: Columns, freeing: _Freeing) -> _Ask:
        price, held = self._priced.price, self._draft.weight[sash]
        own = np.isin(columns.weight, held) & (columns.weight < self._priced.nobody)
        cost = np.where(own, -price[columns.weight], freeing.cost[columns.weight]).sum(axis=1)
        gain = columns.reduced - self._draft.reduced[sash] + price[held].sum() + cost
        at = int(gain.argmin())
        move = Move(sash, columns.way[at], columns.weight[at], int(columns.reduced[at]))
        return _Ask(int(gain[at]), move)

    def _carry_out(self, asks: list[_Ask], freeing: _Freeing) -> set[int]:
        """Carry out chains that change no sash twice, if they gain; give the sashes changed."""
        changed: set[int] = set()
        for ask in asks:
            if ask.move.sash in changed:
                continue
            moves = self._chain(ask.move, freeing)
            if moves and changed.isdisjoint(moves) and self._gains(moves):
                changed |= set(moves)
        return changed

    def _chain(self, first: Move, freeing: _Freeing) -> dict[int, Move] | None:
        """Follow what a move sets off, by sash; None where it ends in a pair not accepted."""
        draft, moves, gone = self._draft, {first.sash: first}, set(first.weight.tolist())
        own = set(draft.weight[first.sash].tolist())
        waiting = sorted(gone - own - {draft.nobody})
        while waiting:
            weight = waiting.pop()
            holder = int(draft.holder[weight])
            if holder < 0:
                continue
            side, place = int(draft.weight[holder, 1] == weight), int(freeing.place[weight])
            move = self._exchange.move(holder, side, place)
            if holder in moves:
                move = self._both(moves[holder], move, side)
            after = int(move.weight[side])
            if move.reduced >= DEAR // 2 or (after in gone and after < draft.nobody):
                return None
            moves[holder] = move
            gone.add(after)
            if after < draft.nobody:
                waiting.append(after)
        return moves

    def _both(self, one: Move, other: Move, side: int) -> Move:
        """Give the move that changes both sides of a sash; one for `DEAR` if it cannot be."""
        way, weight = one.way.copy(), one.weight.copy()
        way[side], weight[side] = other.way[side], other.weight[side]
        apart = self._priced.block.penalty.shape[2] // 2
        left, right = self._priced.market.ways.mass[way].tolist()
        is_one = weight[0] == weight[1] < self._draft.nobody
        if is_one or abs(right - left) > apart:
            return Move(one.sash, way, weight, DEAR)
        return Move(one.sash, way, weight, self._priced.reduced(one.sash, way))

    def _gains(self, moves: dict[int, Move]) -> bool:
        """Put moves in place, and what was there back if that is no better."""
        draft = self._draft
        former = {
            sash: Move(
                sash, draft.way[sash].copy(), draft.weight[sash].copy(), int(draft.reduced[sash])
            )
            for sash in moves
        }
        before = draft.gap()
        if self._put(moves) and draft.gap() < before:
            return True
        self._put(former)
        return False

    def _put(self, moves: dict[int, Move]) -> bool:
        """Put pairs in place of what their sashes have; give whether no weight hung twice."""
        draft = self._draft
        for sash in moves:
            draft.clear(sash)
        for sash, move in moves.items():
            if (draft.holder[move.weight] >= 0).any():
                return False
            if move.way[0] >= 0:
                draft.put(sash, move.way, move.weight, move.reduced)
        return True
