"""Dive: a first draft from relaxed packings, the surest choices kept, the rest relaxed again.

Where a packing is relaxed, most sashes lean to one pair. Those that lean most have it; then the
others look for pairs among what is left, and so on until all are settled. Prices say what a weight
is worth to the sashes of other blocks, so a house too large for one packing is gone through in
blocks of like sashes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from evenhung.allot.columns import Columns
from evenhung.allot.draft import Draft, serve_rest
from evenhung.allot.market import FINE
from evenhung.allot.packing import lean

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.allot.columns import Priced
    from evenhung.allot.watch import Watch

BLOCK = 1000
"""Greatest number of sashes relaxed together."""
SLACK = 10 * FINE
"""Greatest reduced cost of a column [1/FINE cent]."""
MOST_COLUMNS = 60
"""Greatest number of columns of a sash."""
SURE = 0.9
"""Share from which a sash has what it leans to."""
AT_LEAST = 8
"""One in so many sashes is settled each time, however little it leans."""
NOISE = 0.3
"""[cent]"""


def dive(priced: Priced, watch: Watch) -> Draft:
    """Give a draft; where time is up the rest is served by what is idle, one after another."""
    draft, random = Draft(priced), np.random.default_rng(0)
    masses = [sash.mass for sash in priced.problem.sashes]
    order = np.argsort(-np.array(masses), kind="stable")
    for block in np.array_split(order, -(-len(order) // BLOCK)):
        waiting = block.tolist()
        while waiting and not watch.is_over():
            columns = _columns(priced, draft, waiting, watch)
            if columns is None:
                break
            noise = NOISE * random.random(sum(len(found.reduced) for found in columns))
            leanings = lean(columns, draft.unserved[waiting], draft.price, noise, watch)
            if leanings is None:
                break
            shares = np.array([leaning.share for leaning in leanings])
            settled: set[int] = set()
            for place in np.argsort(-shares, kind="stable").tolist():
                if shares[place] < SURE and len(settled) >= max(1, len(waiting) // AT_LEAST):
                    break
                if _settle(draft, waiting[place], columns[place], leanings[place].chosen):
                    settled.add(waiting[place])
            waiting = [sash for sash in waiting if sash not in settled]
    serve_rest(priced, draft)
    return draft


def _columns(
    priced: Priced, draft: Draft, sashes: Sequence[int], watch: Watch
) -> list[Columns] | None:
    """Give columns of idle weights for each sash, the best of new ones besides; None if late."""
    idle, new = priced.stock(np.flatnonzero(draft.holder[:-1] < 0)), priced.stock(np.arange(0))
    found = []
    for sash in sashes:
        if watch.is_over():
            return None
        some = priced.columns(idle, sash, SLACK, MOST_COLUMNS)
        last = priced.columns(new, sash, int(draft.unserved[sash]), 1)
        found.append(Columns(*(np.concatenate(both) for both in zip(some, last, strict=True))))
    return found


def _settle(draft: Draft, sash: int, columns: Columns, chosen: int | None) -> bool:
    """Do as a sash leans, unless another of these has its weight by now; give whether done."""
    if chosen is not None:
        weight = columns.weight[chosen]
        if (draft.holder[weight] >= 0).any():
            return False
        draft.put(sash, columns.way[chosen], weight, int(columns.reduced[chosen]))
    return True
