"""Cords cut from hanks as they are bought; the solver behind it is dear to load."""

from __future__ import annotations

import math
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.cutting import cut
from evenhung.plan.takeoff.cords import PER_SASH, CordLine

if TYPE_CHECKING:
    from collections.abc import Sequence

STEPS_MM = (5, 10, 20)
"""Lengths are rounded up to one of these: the finest that leaves not too many of them."""

MOST_LENGTHS = 60
"""So many different lengths are shared out among hanks at once; more take long, and save little."""

NODES = 300
"""Effort of the sharing out: a hank more in a hundred is cheaper than minutes."""


class Hank(NamedTuple):
    """One hank, or several cut alike, and what is cut from it."""

    number: int
    cuts_mm: tuple[int, ...]
    left_mm: int


class Hanks(NamedTuple):
    """All hanks of one cord."""

    across_mm: float
    hank_mm: float
    hanks: tuple[Hank, ...]
    step_mm: int
    """What each length is rounded up to."""
    is_fewest: bool
    """Whether fewer are proved not to do."""
    too_long: tuple[CordLine, ...]
    """Cords that no hank of this length gives."""

    @property
    def number(self) -> int:
        """How many hanks."""
        return sum(hank.number for hank in self.hanks)


def hanks_of(cords: Sequence[CordLine], hank_mm: float) -> list[Hanks]:
    """Cut the cords from hanks, each thickness by itself.

    Parameters
    ----------
    cords
        What is wanted; chains and tapes are left out.
    hank_mm
        Length of one hank [mm].

    Returns
    -------
    list of Hanks
        The thinnest cord first.
    """
    lines = [one for one in cords if one.line == "cord"]
    return [
        _hanks(tuple(one for one in lines if one.across_mm == across), across, hank_mm)
        for across in sorted({one.across_mm for one in lines})
    ]


@lru_cache(maxsize=16)
def _hanks(cords: tuple[CordLine, ...], across_mm: float, hank_mm: float) -> Hanks:
    """Cut once what lists, workbook and text files all tell."""
    step = _step_mm(cords)
    hank = math.floor(hank_mm / step)
    too_long = tuple(one for one in cords if _steps(one, step) > hank)
    wanted = Counter(_steps(one, step) for one in cords if _steps(one, step) <= hank)
    plan = cut({step: PER_SASH * count for step, count in wanted.items()}, bar=hank, nodes=NODES)
    alike = Counter((bar.lengths, bar.leftover) for bar in plan.bars)
    hanks = tuple(
        Hank(count, tuple(steps * step for steps in lengths), left * step)
        for (lengths, left), count in alike.items()
    )
    return Hanks(across_mm, hank_mm, hanks, step, plan.status == "optimal", too_long)


def _step_mm(cords: tuple[CordLine, ...]) -> int:
    """Give the finest step that leaves few enough different lengths, else the coarsest."""
    few = (step for step in STEPS_MM if len({_steps(one, step) for one in cords}) <= MOST_LENGTHS)
    return next(few, STEPS_MM[-1])


def _steps(cord: CordLine, step_mm: int) -> int:
    return math.ceil(cord.cut_mm / step_mm - 1e-9)
