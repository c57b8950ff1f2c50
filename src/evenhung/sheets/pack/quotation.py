"""The quotation: what is done, what it costs and how sure that is, what is not in it."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import TYPE_CHECKING

from evenhung.plan.assumed import assumed
from evenhung.plan.work import counted
from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import breakable, shortened
from evenhung.sheets.pack.typesetting import typeset, written_day

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from decimal import Decimal

    from evenhung.plan import WindowPlan
    from evenhung.plan.price.house import HousePrice, LabourLine, Sum
    from evenhung.plan.work import Work
    from evenhung.sheets.pack.house import PackHouse

UNITS = {"each": "", "m": " m", "m2": " m²"}
_PER = {**UNITS, "kg": " kg", "L": " L"}
_FOR_ONE = {"each": "", "m": " a m", "m2": " a m²", "kg": " a kg", "L": " a L"}

_LISTS = {
    "material": "price list, line",
    "stock.make_weight": "stock, make-weight",
    "stock.bar": "stock, bar",
    "stock.ready_made": "stock, ready-made weight",
}
"""What the lists of a survey that have prices are called on paper."""

_ENTRY = re.compile(r"house\.(.+?)\[(\d+)\](?:\.making)?")


def quotation(house: PackHouse, price: HousePrice) -> bytes:
    """Give the quotation of a house as PDF.

    Parameters
    ----------
    house
        The house.
    price
        What the work on it costs.
    """
    stated = price.plan.survey.house.price
    days = stated.valid_days or int(assumed("policy/price/valid_days").value)
    data = {
        "currency": price.plan.survey.house.currency or "",
        "until": written_day(house.edition.on + timedelta(days=days)),
        "rate": _money(price.rate),
        "confidence": f"{price.confidence_pct:g}",
        "offered": _sum(price.offered),
        "expected": _sum(price.expected),
        "hours": {
            "expected": f"{price.hours.mean:.0f}",
            "enough": f"{price.offered_hours:.0f}",
            "low": f"{price.hours.at(0.1):.0f}",
            "high": f"{price.hours.at(0.9):.0f}",
        },
        "overhead": f"{stated.overhead_pct or 0:g}",
        "tax": f"{stated.tax_pct or 0:g}",
        "scope": list(_scope(house, price)),
        "labour": [_labour(line) for line in price.labour],
        "has_examples": any(line.taken.is_example for line in price.labour),
        "materials": [
            {
                "name": breakable(line.name),
                "quantity": f"{line.quantity}{_PER[line.per]}",
                "each": f"{_money(line.each)}{_FOR_ONE[line.per]}",
                "amount": _money(line.amount),
                "by": _priced_by(line.priced_by),
            }
            for line in price.materials
        ],
        "options": [
            {
                "name": breakable(one.name),
                "amount": _money(one.amount),
                "with_tax": _money(one.with_tax),
            }
            for one in price.options
        ],
        "exclusions": [breakable(one) for one in stated.exclusions or ()],
        "deference": DEFERENCE,
    }
    return typeset("quotation", data, house=house.name, edition=house.edition)


def _scope(house: PackHouse, price: HousePrice) -> Iterator[dict[str, object]]:
    """Give what is done at each window, in few words."""
    work = [one for line in price.labour for one in line.work]
    for window in house.plan.windows:
        own = [one for one in work if one.window == window.window.tag]
        yield {
            "tag": shortened(window.window.tag, 40),
            "room": shortened(window.window.room or "", 60),
            "does": [_does(own, operation) for operation in dict.fromkeys(_operations(own))],
            "open": _unsettled(window),
        }


def _unsettled(window: WindowPlan) -> str:
    """Name the sashes for which nothing can be proposed yet, with the reason; empty if none."""
    sashes = [one for one in (window.upper, window.lower) if one is not None]
    return breakable(
        "; ".join(
            f"{one.place}: {one.judgement.reason}"
            for one in sashes
            if one.proposal is None and one.judgement.verdict in ("unknown", "cannot run", "rehang")
        )
    )


def _operations(work: Sequence[Work]) -> Iterator[str]:
    return (one.operation for one in work)


def _does(work: Sequence[Work], operation: str) -> str:
    own = [one for one in work if one.operation == operation]
    quantity = sum(one.quantity for one in own)
    parts = list(dict.fromkeys(one.part for one in own if one.part != "room"))
    where = f" ({', '.join(parts)})" if parts else ""
    if own[0].unit != "each":
        where = f", {counted(quantity)}{UNITS[own[0].unit]}"
    return breakable(f"{operation}{where}")


def _labour(line: LabourLine) -> dict[str, object]:
    least, likely, most = line.taken.hours
    return {
        "operation": line.operation,
        "quantity": f"{counted(line.quantity)}{UNITS[line.work[0].unit]}",
        "each": f"{least:g} / {likely:g} / {most:g}",
        "hours": f"{line.hours:.1f}",
        "amount": _money(line.amount),
        "is_example": line.taken.is_example,
    }


def _priced_by(entry: str) -> str:
    """Say which entry of the survey a price is from, as a joiner counts them: from one.

    Examples
    --------
    >>> _priced_by("house.stock.bar[0].making")
    'stock, bar 1'
    >>> _priced_by("")
    ''
    """
    found = _ENTRY.fullmatch(entry)
    return f"{_LISTS[found[1]]} {int(found[2]) + 1}" if found else ""


def _sum(made: Sum | None) -> dict[str, str] | None:
    if made is None:
        return None
    return {
        "labour": _written(made.labour),
        "materials": _written(made.materials),
        "overhead": _written(made.overhead),
        "before_tax": _written(made.before_tax),
        "tax": _written(made.tax),
        "whole": _written(made.whole),
    }


def _money(amount: Decimal | None) -> str | None:
    return None if amount is None else _written(amount)


def _written(amount: Decimal) -> str:
    """Write an amount, its thousands set apart by a space that does not break."""
    return f"{amount:,.2f}".replace(",", "\N{NARROW NO-BREAK SPACE}")
