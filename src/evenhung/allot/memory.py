"""How much memory a solve will take, reckoned before anything large is made.

The factors are measured and rounded up generously; tests hold the reckoning against what a process
really took.
"""

from __future__ import annotations

from math import comb
from typing import TYPE_CHECKING

from evenhung.allot.shortlist import DEPTH
from evenhung.errors import InvalidInstance

if TYPE_CHECKING:
    from evenhung.allot.problem import Problem

ALLOWED = 8 << 30
"""What a solve may take unless it is told otherwise [B]."""

BASE = 160 << 20
"""Python, numpy and HiGHS with nothing to do [B]."""

EACH_WAY = 300
"""A way in its table, sorted into the market, with its keys and copies [B]."""

EACH_CELL = 120
"""A left mass and a right mass of a sash, with what they cost under prices [B]."""

EACH_ON_SHELF = 40
"""A way on a shelf, for two shelves at a time and what sorts them [B]."""

EACH_SIDE = 900
"""A side with what could hang there instead [B]."""

SEARCH = 1 << 30
"""A whole-number program of a neighbourhood, with the cuts that HiGHS tries [B]."""

EACH_FILLED = 24
"""Two rows of a linear program: what is eliminated by interior points fills up [B]."""

EACH_PAIR = 1200
"""A pair in a linear program, with what HiGHS makes of it [B]."""


def needed(problem: Problem, pairs: int, sashes: int) -> int:
    """Give how much memory a solve takes at most [B].

    Parameters
    ----------
    problem
        The problem.
    pairs
        Greatest number of pairs in a linear program.
    sashes
        Greatest number of sashes in it; each brings up to four weights that it may use.
    """
    rows = sashes + min(len(problem.weights), 4 * sashes)
    rules = problem.rules
    menu = comb(len(rules.pieces) + rules.most_pieces, rules.most_pieces)
    ways = len(problem.weights) * menu
    if rules.trim:
        numerator, denominator = rules.trim.most
        ways += sum(weight.mass * numerator // denominator for weight in problem.weights)
    widest = max(sash.accept.most - sash.accept.least for sash in problem.sashes)
    shifts = 2 * rules.most_difference + 1
    masses = (widest + 2 * rules.most_difference) // 2 + 2
    cells = len(problem.sashes) * masses * shifts
    programs = SEARCH + EACH_PAIR * pairs + EACH_FILLED * rows**2
    tables = EACH_ON_SHELF * DEPTH * _cells(problem, masses) + 2 * EACH_SIDE * len(problem.sashes)
    return BASE + EACH_WAY * ways + EACH_CELL * cells + tables + programs


def _cells(problem: Problem, masses: int) -> int:
    """Give how many cells the market has: unlike sides, and masses that are wanted there."""
    sides = {
        side for sash in problem.sashes for side in zip(sash.longest, sash.barred, strict=True)
    }
    if any(barred for _, barred in sides):
        return len(sides) * masses
    heaviest = max(sash.mass + sash.accept.most for sash in problem.sashes)
    return len(sides) * max(1, (heaviest + problem.rules.most_difference) // 2 + 2)


def insist(problem: Problem, pairs: int, sashes: int, allowed: int) -> None:
    """Refuse a problem that would take more than is allowed.

    Raises
    ------
    InvalidInstance
        If it would.
    """
    bytes_needed = needed(problem, pairs, sashes)
    if bytes_needed > allowed:
        size = f"{len(problem.sashes)} sashes and {len(problem.weights)} weights"
        raise InvalidInstance(
            "instance",
            f"{size}, about {bytes_needed / (1 << 30):.1f} GiB",
            f"what takes at most {allowed / (1 << 30):.1f} GiB",
        )
