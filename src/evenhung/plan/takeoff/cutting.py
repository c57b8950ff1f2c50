"""What is taken off, cut from lengths, hanks and bars as they are bought.

The solver behind it is dear to load: this module is imported only where cutting is asked for.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.cutting import cut
from evenhung.plan.assumed import assumed
from evenhung.plan.takeoff.cords import PER_SASH
from evenhung.plan.takeoff.hanks import NODES, hanks_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.takeoff.house import TakeOff
    from evenhung.plan.takeoff.timber import TimberPiece
    from evenhung.survey.stock import Stock


CAST = "cast iron"
"""Weights of it are bought as they are: nobody sells it by the bar."""


class Length(NamedTuple):
    """One length as it is bought, or several cut alike."""

    number: int
    cuts_mm: tuple[int, ...]
    """Longest first."""
    left_mm: int


class Cuts(NamedTuple):
    """All lengths of one sort."""

    what: str
    stock_mm: int
    """Length of one as it is bought."""
    kerf_mm: int
    lengths: tuple[Length, ...]
    is_fewest: bool
    """Whether fewer are proved not to do."""
    too_long_mm: tuple[int, ...]
    """What no length as it is bought gives: to be joined, or ordered longer."""

    @property
    def number(self) -> int:
        """How many are bought."""
        return sum(one.number for one in self.lengths)


def cuts_of(takeoff: TakeOff, stock: Stock | None) -> list[Cuts]:
    """Cut timber by its sawn section, cord by its thickness and make-weights by their bar.

    Parameters
    ----------
    takeoff
        What is wanted.
    stock
        The house's stock, for the length of its bars; None takes usual lengths.
    """
    return [*timber_cuts(takeoff.timber), *_cord(takeoff), *_weights(takeoff, stock)]


def timber_cuts(timber: Sequence[TimberPiece]) -> list[Cuts]:
    """Cut timber from lengths as they are bought, each sawn section by itself.

    Parameters
    ----------
    timber
        The pieces.
    """
    sections: dict[tuple[int, int], list[float]] = {}
    for piece in timber:
        sections.setdefault(sawn_section(piece), []).append(piece.length_mm)
    stock, kerf = (assumed(f"repair/timber stock/{row}").value for row in ("length", "kerf"))
    return [
        _cuts(f"timber {face} x {thick} mm sawn", wanted, stock_mm=stock, kerf_mm=kerf)
        for (face, thick), wanted in sorted(sections.items(), reverse=True)
    ]


def sawn_section(piece: TimberPiece) -> tuple[int, int]:
    """Give the section of a piece before it is planed, up to whole millimetres [mm]."""
    face, thick = (math.ceil(size - 1e-6) for size in piece.sawn_mm)
    return face, thick


def _cord(takeoff: TakeOff) -> Iterator[Cuts]:
    for one in hanks_of(takeoff.cord, assumed("cords/cord/hank").value):
        lengths = tuple(Length(hank.number, hank.cuts_mm, hank.left_mm) for hank in one.hanks)
        too_long = sorted((math.ceil(cord.cut_mm) for cord in one.too_long), reverse=True)
        yield Cuts(
            f"cord {one.across_mm:g} mm",
            math.floor(one.hank_mm),
            0,
            lengths,
            one.is_fewest,
            tuple(mm for mm in too_long for _ in range(PER_SASH)),
        )


def _weights(takeoff: TakeOff, stock: Stock | None) -> Iterator[Cuts]:
    kerf = assumed("policy/stock/kerf").value
    if stock is not None and stock.kerf is not None:
        kerf = stock.kerf.mm
    sorts: dict[tuple[str, int], list[float]] = {}
    for line in takeoff.weights:
        if line.metal == CAST:
            continue
        sorts.setdefault((line.metal, round(line.across_mm)), []).append(line.length_mm)
    for (metal, across), wanted in sorted(sorts.items()):
        bars = [
            bar.length.mm
            for bar in (stock.bar if stock is not None else ())
            if bar.metal == metal and round(bar.diameter.mm) == across
        ]
        usual = assumed("repair/bar stock/length").value
        yield _cuts(
            f"{metal} {across} mm", wanted, stock_mm=bars[0] if bars else usual, kerf_mm=kerf
        )


def _cuts(what: str, wanted_mm: Sequence[float], *, stock_mm: float, kerf_mm: float) -> Cuts:
    """Round lengths up and the stock down to millimetres, and cut."""
    stock, kerf = math.floor(stock_mm), math.ceil(kerf_mm)
    rounded = [max(1, math.ceil(length - 1e-6)) for length in wanted_mm]
    fits = Counter(length for length in rounded if length <= stock)
    plan = cut(fits, bar=stock, kerf=kerf, nodes=NODES)
    alike = Counter((bar.lengths, bar.leftover) for bar in plan.bars)
    lengths = tuple(Length(count, cuts, left) for (cuts, left), count in alike.items())
    too_long = tuple(sorted((length for length in rounded if length > stock), reverse=True))
    return Cuts(what, stock, kerf, lengths, plan.status == "optimal", too_long)
