"""What to make and what to buy, as rows that lists, workbook and text files all read."""

from __future__ import annotations

import math
from collections import Counter
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.allotment.sentences import bought_name
from evenhung.plan.takeoff.cutting import sawn_section
from evenhung.sheets.pack.materials import cord_nails_of, cuts_of, orders_of, takeoff_of, up
from evenhung.sheets.pack.sides import sides_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.allotment.buying import BarCuts
    from evenhung.plan.takeoff.hanks import Hanks
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.pack.sides import Side

CENT = Decimal("0.01")


class Making(NamedTuple):
    """What is done to the weight of one side."""

    window: str
    place: str
    side: Side
    is_estimated: bool
    """Whether it rests on a sash that is not weighed."""


class Buy(NamedTuple):
    """One line of what to buy."""

    number: float
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
    """Give what to buy: cord by the hank, what is hung, then what the repair takes.

    Parameters
    ----------
    house
        The house.
    hanks
        How its cords are cut.

    Returns
    -------
    list of Buy
        Whole hanks, lengths and panes; putty and paint up to a tenth, by the worst coverage.
    """
    hung = _allotted(house) if house.allotment else _planned(house)
    return [*_cord(house, hanks), *hung, *_timber(house), *_glass(house), *_others(house)]


def _cord(house: PackHouse, hanks: list[Hanks]) -> Iterator[Buy]:
    length = house.words.length
    for one in hanks:
        if one.number:
            what = f"hank of cord, {length(one.across_mm)} thick, {length(one.hank_mm)} long"
            each = _each(house, f"cord, {one.across_mm:g} mm", "m", one.hank_mm / 1000.0)
            yield Buy(one.number, what, each, is_fewest=one.is_fewest)


def _timber(house: PackHouse) -> Iterator[Buy]:
    takeoff = takeoff_of(house)
    finished = {
        f"timber {face} x {thick} mm sawn": f"timber, {piece.face_mm:g} x {piece.thick_mm:g} mm"
        for piece in (takeoff.timber if takeoff is not None else ())
        for face, thick in [sawn_section(piece)]
    }
    for one in cuts_of(house):
        long = house.words.length(one.stock_mm)
        each = _each(house, finished[one.what], "m", one.stock_mm / 1000.0)
        if one.number:
            what = f"length of {one.what}, {long}"
            yield Buy(one.number, what, each, is_fewest=one.is_fewest)
        if one.too_long_mm:
            sizes = ", ".join(house.words.length(mm) for mm in one.too_long_mm)
            what = f"{one.what}, to order: longer than it is sold: {sizes}"
            yield Buy(len(one.too_long_mm), what, None)


def _glass(house: PackHouse) -> Iterator[Buy]:
    for order in orders_of(house):
        line = order.line
        old = ", old glass" if line.is_historic else ""
        safety = {True: ", safety glass may be asked for", None: ", see the order"}
        thick = f"{line.sheets} sheets of " if line.sheets > 1 else ""
        what = (
            f"pane {line.width_mm:.0f} x {line.height_mm:.0f} mm, {thick}{line.sheet_mm:g} mm"
            f"{old}{safety.get(line.is_safety, '')}"
        )
        area = line.width_mm * line.height_mm * line.sheets / 1e6
        name = f"glass, {line.sheet_mm:g} mm{', old' if line.is_historic else ''}"
        yield Buy(line.number, what, _each(house, name, "m2", area))


def _others(house: PackHouse) -> Iterator[Buy]:
    """Give nails by their length, putty and paint."""
    nails: Counter[str] = Counter()
    for one in cord_nails_of(house).lines:
        known = one.length_mm
        long = "length not stated" if known is None else house.words.length(known)
        nails[f"cord nail, {long}"] += one.number
    for what, count in sorted(nails.items()):
        yield Buy(count, what, None)
    takeoff = takeoff_of(house)
    if takeoff is not None and takeoff.putty.mass_kg > 0.0:
        much = up(takeoff.putty.mass_kg)
        yield Buy(much, "kg of linseed putty", _each(house, "putty", "kg", 1.0))
    if takeoff is not None and takeoff.paint.area_m2 > 0.0:
        much = up(takeoff.paint.most_l)
        what = f"litre of paint, {takeoff.paint.coats:g} coats in all"
        yield Buy(much, what, _each(house, "paint", "L", 1.0))


def _each(house: PackHouse, name: str, per: str, quantity: float) -> Decimal | None:
    """Give the price of one by the survey's price for a material; None where it states none."""
    for one in house.plan.survey.house.material:
        if (one.name, one.per) == (name, per):
            return (one.price.amount * Decimal(quantity)).quantize(CENT, ROUND_HALF_UP)
    return None


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
