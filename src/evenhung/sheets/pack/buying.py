"""What to make and what to buy, as rows that lists, workbook and text files all read."""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.allotment.sentences import bought_name
from evenhung.sheets.pack.sides import sides_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from decimal import Decimal

    from evenhung.plan.allotment.buying import BarCuts
    from evenhung.sheets.pack.cords import Hanks
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.pack.sides import Side

NOT_RECKONED = (
    "Glass, putty, paint, nails and timber are not reckoned: "
    "a survey does not yet say what of them is to be renewed."
)


class Making(NamedTuple):
    """What is done to the weight of one side."""

    window: str
    place: str
    side: Side
    is_estimated: bool
    """Whether it rests on a sash that is not weighed."""


class Buy(NamedTuple):
    """One line of what to buy."""

    number: int
    what: str
    each: Decimal | None
    """Price of one; None where none is stated."""
    making: Decimal | None = None
    """Of cutting and finishing, in all."""
    bars: tuple[BarCuts, ...] = ()
    is_fewest: bool = True


def makings_of(house: PackHouse) -> list[Making]:
    """Give the sides whose weights are changed, made or moved, in the order of the survey."""
    return [
        Making(sash.window.tag, sash.place, side, sash.mass.found == "estimated")
        for sash in house.plan.sashes()
        for side in sides_of(house, sash)
        if not side.is_untouched
    ]


def buying_of(house: PackHouse, hanks: list[Hanks]) -> list[Buy]:
    """Give what to buy: cord by the hank, then what is hung."""
    length = house.words.length
    cord = [
        Buy(
            one.number,
            f"hank of cord, {length(one.across_mm)} thick, {length(one.hank_mm)} long",
            None,
            is_fewest=one.is_fewest,
        )
        for one in hanks
        if one.number
    ]
    return [*cord, *(_allotted(house) if house.allotment else _planned(house))]


def _allotted(house: PackHouse) -> Iterator[Buy]:
    basket = house.allotment.basket if house.allotment else None
    for line in basket.lines if basket else ():
        each = None if line.price is None else line.price / line.number
        yield Buy(line.number, bought_name(line.what), each, line.making, line.bars, line.is_fewest)


def _planned(house: PackHouse) -> Iterator[Buy]:
    """Count what is new and what is added, alike with alike."""
    wanted: Counter[str] = Counter()
    for making in makings_of(house):
        hung = making.side.hung
        if hung.origin == "new":
            wanted[_new(making.side, house)] += 1
        elif hung.add_kg > 0.0 and hung.added_metal:
            wanted[_added(making.side, house)] += 1
    for what, count in sorted(wanted.items()):
        yield Buy(count, what, None)


def _new(side: Side, house: PackHouse) -> str:
    hung, words = side.hung, house.words
    size = f"weight of {hung.metal}, {words.mass(hung.mass_kg)}"
    if math.isnan(hung.length_mm):
        return size
    return f"{size}, {words.length(hung.length_mm)} long, {words.length(hung.across_mm)} across"


def _added(side: Side, house: PackHouse) -> str:
    hung, words = side.hung, house.words
    size = f"make-weight of {hung.added_metal}, {words.mass(hung.add_kg)}"
    if math.isnan(hung.added_mm):
        return size
    return f"{size}, {words.length(hung.added_mm)} long, {words.length(hung.across_mm)} across"
