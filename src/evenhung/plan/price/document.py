"""A price as plain data: what ``evenhung price --json`` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from decimal import Decimal

    from evenhung.plan.price.house import HousePrice, LabourLine, Sum
    from evenhung.plan.price.materials import MaterialLine

CHANCES = (10, 25, 50, 75, 80, 90, 95)
"""Per cent of the time that the hours beside them are enough."""

PLACES = 3


def price_document(price: HousePrice) -> dict[str, Any]:
    """Give a price as plain data; money is text in decimals, what is not known is None."""
    house = price.plan.survey.house
    return {
        "form": 1,
        "house": {"name": house.name, "currency": house.currency},
        "rate": _money(price.rate),
        "labour": [_labour(line) for line in price.labour],
        "materials": [_material(line) for line in price.materials],
        "hours": {
            "expected": round(price.hours.mean, PLACES),
            "deviation": round(price.hours.deviation, PLACES),
            "enough": {str(pct): round(price.hours.at(pct / 100.0), PLACES) for pct in CHANCES},
        },
        "confidence_pct": price.confidence_pct,
        "expected": _sum(price.expected),
        "offered": _sum(price.offered),
        "options": [
            {"name": one.name, "amount": _money(one.amount), "with_tax": _money(one.with_tax)}
            for one in price.options
        ],
        "learnt": {
            operation: {
                "factor": round(price.pace.factor(operation), PLACES),
                "bookings": own.bookings,
            }
            for operation, own in sorted(price.pace.own.items())
        },
    }


def _labour(line: LabourLine) -> dict[str, Any]:
    hours = line.taken.hours
    return {
        "operation": line.operation,
        "quantity": round(line.quantity, PLACES),
        "unit": line.work[0].unit,
        "hours_each": {"least": hours.least, "likely": hours.likely, "most": hours.most},
        "factor": round(line.factor, PLACES),
        "hours": round(line.hours, PLACES),
        "amount": _money(line.amount),
        "source": line.taken.source,
        "is_example": line.taken.is_example,
        "work": [
            {
                "window": one.window,
                "part": one.part,
                "quantity": round(one.quantity, PLACES),
                "why": one.why,
            }
            for one in line.work
        ],
    }


def _material(line: MaterialLine) -> dict[str, Any]:
    return {
        "name": line.name,
        "per": line.per,
        "quantity": str(line.quantity),
        "windows": list(line.windows),
        "each": _money(line.each),
        "amount": _money(line.amount),
        "priced_by": line.priced_by or None,
    }


def _sum(made: Sum | None) -> dict[str, str] | None:
    if made is None:
        return None
    return {
        "labour": f"{made.labour:.2f}",
        "materials": f"{made.materials:.2f}",
        "overhead": f"{made.overhead:.2f}",
        "before_tax": f"{made.before_tax:.2f}",
        "tax": f"{made.tax:.2f}",
        "whole": f"{made.whole:.2f}",
    }


def _money(amount: Decimal | None) -> str | None:
    return None if amount is None else f"{amount:.2f}"
