"""What it is worth to have things one way, as the house states it, else as the reference has it."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed, source_of, stands_for

if TYPE_CHECKING:
    from evenhung.plan.ledger import Ledger
    from evenhung.survey.house import Worth


class Worths(NamedTuple):
    """What each thing is worth, in the house's money; `near` by the kilogram."""

    serve: Decimal
    whole: Decimal
    home: Decimal
    new: Decimal
    make_weight: Decimal
    near: Decimal


CALLED = {
    "serve": "worth of one sash more that hangs true",
    "whole": "worth of leaving a weight uncut",
    "home": "worth of leaving a weight at home",
    "new": "worth of one new weight fewer",
    "make_weight": "worth of one make-weight fewer",
    "near": "worth of a pair a kilogram nearer its best",
}


def worths_of(worth: Worth, ledger: Ledger) -> Worths:
    """Take each worth as stated, else from the reference, with a note."""
    return Worths(*(_worth(worth, field, ledger) for field in Worths._fields))


def _worth(worth: Worth, field: str, ledger: Ledger) -> Decimal:
    stated = getattr(worth, field)
    if stated is not None:
        return Decimal(stated.amount)
    row = stands_for(type(worth), field)
    found = assumed(row)
    ledger.assume(CALLED[field], found.printed, source_of(row))
    return Decimal(found.printed)
