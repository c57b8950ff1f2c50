"""Dive: a first draft from relaxed packings, the surest choices kept, the rest relaxed again.

Where a packing is relaxed, most sashes lean to one pair. Those that lean most have it; then the
others look for pairs among what is left, and so on until all are settled. Prices say what a weight
is worth to the sashes of other blocks, so a house too large for one packing is gone through in
blocks of like sashes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from evenhung.allot.columns import NOTHING, joined
from evenhung.allot.draft import Draft, serve_rest
from evenhung.allot.market import FINE
from evenhung.allot.packing import lean
from evenhung.allot.shortlist import Shortlists

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.allot.columns import Columns, Priced
    from evenhung.allot.packing import Leaning
    from evenhung.allot.problem import Problem
    from evenhung.allot.watch import Watch

BLOCK = 1000
"""Greatest number of sashes relaxed together."""
SLACK = 10 * FINE
"""Greatest reduced cost of a column [1/FINE cent]."""
MOST_COLUMNS = 40
"""Greatest number of columns of a sash."""
SURE = 0.9
"""Share from which a sash has what it leans to."""
AT_LEAST, AT_LEAST_OF_MANY = 8, 4
"""One in so many sashes is settled each time, however little it leans; of many, so many more."""
COSTLY = 1000 * FINE
"""Reduced cost of a choice that is put off while it is not sure [1/FINE cent]."""
FEWEST_COLUMNS = 12
"""With fewer than so many columns of a sash, dearer ones are taken in."""
NOISE = 0.3
"""Greatest that is added to a column, to tell equals apart [cent]."""
WHIM = 5000 * FINE
"""Greatest that leaving a sash unserved seems to cost more in any but the first dive: where several
contend and one must go without, the program cannot tell which [1/FINE cent]."""


def dive(priced: Priced, seed: int, watch: Watch) -> Draft:
    """Give a draft; where time is up the rest is served by what is idle, one after another.

    Parameters
    ----------
    priced
        The problem under good prices.
    seed
        Of what is left to chance; 0 leaves little.
    watch
        Knows how much time is left.
    """
    draft, random = Draft(priced), np.random.default_rng(seed)
    unserved = draft.unserved + random.integers(0, WHIM if seed else 1, len(draft.unserved))
    masses = [sash.mass for sash in priced.problem.sashes]
    only_new = priced.only_new()
    order = np.argsort(-np.array(masses), kind="stable")
    for block in np.array_split(order, -(-len(order) // BLOCK)):
        waiting = block.tolist()
        while waiting and not watch.is_over():
            columns = _columns(priced, draft, waiting, only_new, watch)
            if columns is None:
                break
            noise = NOISE * random.random(sum(len(found.reduced) for found in columns))
            leanings = lean(columns, unserved[waiting], draft.price, noise, watch)
            if leanings is None:
                break
            at_least = AT_LEAST if len(order) <= BLOCK else AT_LEAST_OF_MANY
            settled = _settle(draft, waiting, columns, leanings, at_least)
            waiting = [sash for sash in waiting if sash not in settled]
    serve_rest(priced, draft, watch)
    return draft


def dive_pairs(problem: Problem) -> int:
    """Give how many pairs are relaxed together at most."""
    return min(len(problem.sashes), BLOCK) * (MOST_COLUMNS + 1)


def _columns(
    priced: Priced, draft: Draft, sashes: Sequence[int], only_new: Sequence[Columns], watch: Watch
) -> list[Columns] | None:
    """Give columns of idle weights for each sash, and the best of new ones; None if late."""
    if watch.is_over():
        return None
    waiting = np.array(sashes)
    lists = Shortlists(priced, priced.block.part(waiting), draft.holder[:-1] < 0)
    slack, found = np.full(len(waiting), SLACK), [NOTHING] * len(waiting)
    again = np.arange(len(waiting))
    while len(again) and not watch.is_over():
        listed = lists.columns(again, slack[again], MOST_COLUMNS)
        for place, some in zip(again.tolist(), listed, strict=True):
            found[place] = some
        few = np.array([len(some.reduced) < FEWEST_COLUMNS for some in found])
        again = np.flatnonzero(few & (slack < draft.unserved[waiting]))
        slack[again] *= 4
    return [joined([some, only_new[sash]]) for some, sash in zip(found, sashes, strict=True)]


def _settle(
    draft: Draft,
    waiting: list[int],
    columns: list[Columns],
    leanings: list[Leaning],
    at_least: int,
) -> set[int]:
    """Let the surest have what they lean to; give those that are settled, one at least."""
    settled: set[int] = set()
    shares = np.array([leaning.share for leaning in leanings])
    for place in np.argsort(-shares, kind="stable").tolist():
        sash, found, chosen = waiting[place], columns[place], leanings[place].chosen
        if shares[place] < SURE and len(settled) >= max(1, len(waiting) // at_least):
            break
        if chosen is not None:
            weight, reduced = found.weight[chosen], int(found.reduced[chosen])
            is_taken = (draft.holder[weight] >= 0).any()
            if is_taken or (shares[place] < SURE and reduced > COSTLY and settled):
                continue
            draft.put(sash, found.way[chosen], weight, reduced)
        settled.add(sash)
    return settled
