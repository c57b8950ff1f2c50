"""The terms of a price, each in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from evenhung.web.page.items import rows_of
from evenhung.web.price.shelves import CREW, HOURS, MATERIALS, OPTIONS, SHELVES

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.web.page.shelf import Shelf


def terms_of(house: Mapping[str, Any]) -> list[tuple[Shelf, list[dict[str, Any]]]]:
    """Give every list that a price is made with, each item in words."""
    return [
        (shelf, [{**row, "says": _SAID[shelf.slug](row["item"])} for row in rows_of(shelf, house)])
        for shelf in SHELVES.values()
    ]


def hand_line(hand: Mapping[str, Any]) -> str:
    """Say who works.

    Examples
    --------
    >>> hand_line({"who": "joiner", "count": 2, "rate": "38.00"})
    '2 × joiner: 38.00 an hour each'
    """
    if hand.get("count", 1) == 1:
        return _("%(who)s: %(rate)s an hour") % hand
    return _("%(count)s × %(who)s: %(rate)s an hour each") % hand


def hours_line(rate: Mapping[str, Any]) -> str:
    """Say how long an operation takes.

    Examples
    --------
    >>> hours_line({"operation": "splice", "hours": {"least": 1, "likely": 2, "most": 4}})
    'splice: 1 to 4 h, mostly 2 h'
    >>> hours_line({"operation": "splice", "hours": 2, "note": "timed"})
    'splice: 2 h, timed'
    """
    hours = rate["hours"]
    if isinstance(hours, dict):
        said = _("%(least)s to %(most)s h, mostly %(likely)s h") % hours
    else:
        said = _("%(hours)s h") % {"hours": hours}
    note = f", {rate['note']}" if "note" in rate else ""
    return f"{rate['operation']}: {said}{note}"


def material_line(material: Mapping[str, Any]) -> str:
    """Say what a material costs.

    Examples
    --------
    >>> material_line({"name": "cord, 6 mm", "per": "m", "price": "0.85"})
    'cord, 6 mm: 0.85 for a metre'
    """
    per = {
        "each": _("each"),
        "m": _("for a metre"),
        "m2": _("for a square metre"),
        "kg": _("for a kilogram"),
        "L": _("for a litre"),
    }[material["per"]]
    return f"{material['name']}: {material['price']} {per}"


def option_line(option: Mapping[str, Any]) -> str:
    """Say what may be had besides.

    Examples
    --------
    >>> option_line({"name": "Draught-strips", "operation": "draught-strip", "quantity": 30})
    'Draught-strips: reckoned as 30 × draught-strip'
    """
    if "price" in option:
        return f"{option['name']}: {option['price']}"
    reckoned = {"quantity": option.get("quantity", 1), "operation": option["operation"]}
    return f"{option['name']}: " + _("reckoned as %(quantity)s × %(operation)s") % reckoned


_SAID = {
    CREW.slug: hand_line,
    HOURS.slug: hours_line,
    MATERIALS.slug: material_line,
    OPTIONS.slug: option_line,
}
