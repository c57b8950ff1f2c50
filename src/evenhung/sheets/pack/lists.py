"""The cutting list and the buying list."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from evenhung.plan.takeoff.cords import PER_SASH
from evenhung.plan.takeoff.hanks import hanks_of
from evenhung.sheets.pack.buying import Buy, buying_of, makings_of
from evenhung.sheets.pack.cautions import DEFERENCE, rules
from evenhung.sheets.pack.cords import cords_of
from evenhung.sheets.pack.figures import breakable, length, mass, shortened
from evenhung.sheets.pack.materials import materials_data
from evenhung.sheets.pack.sides import side_data
from evenhung.sheets.pack.typesetting import typeset

if TYPE_CHECKING:
    from evenhung.plan.takeoff.hanks import Hanks
    from evenhung.sheets.pack.house import PackHouse

HAZARDS = ("falling weight", "lead weights", "manual handling")
"""What may hurt where weights are made."""

ON_GLASS = ("glass", "asbestos putty", "lead paint")
"""What may hurt where old panes and old paint come out."""


def lists(house: PackHouse, hank_mm: float) -> bytes:
    """Give the cutting list and the buying list of a house as PDF.

    Parameters
    ----------
    house
        The house.
    hank_mm
        Length of a hank of cord [mm].
    """
    words, cords = house.words, cords_of(house)
    hanks = hanks_of(cords, hank_mm)
    data = {
        "cords": [
            {
                "window": shortened(one.window, 40),
                "place": one.place,
                "line": one.line,
                "count": PER_SASH,
                "cut": length(words, one.cut_mm),
                "across": length(words, one.across_mm),
                "is_optional": one.is_optional,
            }
            for one in cords
        ],
        "hanks": [_hanks(house, one) for one in hanks],
        "weights": [
            {
                "window": shortened(one.window, 40),
                "place": one.place,
                "is_estimated": one.is_estimated,
                **side_data(one.side, words),
            }
            for one in makings_of(house)
        ],
        "buy": [_buy(house, one) for one in buying_of(house, hanks)],
        "currency": house.plan.survey.house.currency or "",
        "is_allotted": house.allotment is not None,
        "left_over": _left_over(house),
        **materials_data(house),
        "rules": rules(HAZARDS),
        "glass_rules": rules(ON_GLASS),
        "deference": DEFERENCE,
    }
    return typeset("lists", data, house=house.name, edition=house.edition)


def _hanks(house: PackHouse, one: Hanks) -> dict[str, object]:
    words = house.words
    return {
        "across": length(words, one.across_mm),
        "long": length(words, one.hank_mm),
        "count": one.number,
        "step": one.step_mm,
        "is_fewest": one.is_fewest,
        "hanks": [
            {
                "count": hank.number,
                "cuts": [length(words, cut) for cut in hank.cuts_mm],
                "left": length(words, hank.left_mm),
            }
            for hank in one.hanks
        ],
        "too_long": [f"{cord.window} {cord.place}" for cord in one.too_long],
    }


def _buy(house: PackHouse, one: Buy) -> dict[str, object]:
    price = None if one.each is None else f"{one.each * Decimal(str(one.number)):.2f}"
    return {
        "count": f"{one.number:g}",
        "what": breakable(one.what),
        "each": None if one.each is None else f"{one.each:.2f}",
        "price": price,
        "making": None if one.making is None else f"{one.making:.2f}",
        "bars": [
            {
                "cuts": [length(house.words, mm) for mm in bar.lengths_mm],
                "left": length(house.words, bar.leftover_mm),
            }
            for bar in one.bars
        ],
        "is_fewest": one.is_fewest,
    }


def _left_over(house: PackHouse) -> list[dict[str, object]]:
    found = house.allotment.left_over if house.allotment else ()
    return [
        {"weight": shortened(one.name, 60), "mass": mass(house.words, float(one.kg))}
        for one in found
    ]
