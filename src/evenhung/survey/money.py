"""Money as it is typed: a plain decimal in the house's own currency."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError, core_schema

if TYPE_CHECKING:
    from pydantic_core import CoreSchema

_WRITTEN = r"^[0-9]{1,6}([.,][0-9]{1,2})?$"


@dataclass(frozen=True, slots=True)
class Money:
    """An amount of money."""

    text: str
    """As typed."""
    amount: Decimal
    """In the house's currency."""


def money_of(text: str) -> Money | None:
    """Read an amount; None where it is none.

    Examples
    --------
    >>> money_of("2,40")
    Money(text='2,40', amount=Decimal('2.40'))
    """
    if not re.fullmatch(_WRITTEN, text.strip(), re.ASCII):
        return None
    return Money(text, Decimal(text.strip().replace(",", ".")))


@cache
def a_price() -> CoreSchema:
    """Accept an amount of money as a text of figures, with at most two decimals."""

    def read(given: str) -> Money:
        money = money_of(given)
        if money is None:
            allowed = 'an amount in figures, such as "2.40", at most 999999.99'
            raise PydanticCustomError("refused", "{allowed}", {"allowed": allowed})
        return money

    text = core_schema.str_schema(min_length=1, max_length=12, strict=True)
    return core_schema.no_info_after_validator_function(read, text, metadata={"pattern": _WRITTEN})


@cache
def a_currency() -> CoreSchema:
    """Accept the code of a currency."""

    def read(given: str) -> str:
        if not re.fullmatch(r"[A-Z]{3}", given):
            allowed = 'three capitals, the code of a currency in ISO 4217, such as "GBP"'
            raise PydanticCustomError("refused", "{allowed}", {"allowed": allowed})
        return given

    text = core_schema.str_schema(strict=True)
    return core_schema.no_info_after_validator_function(
        read, text, metadata={"pattern": "^[A-Z]{3}$"}
    )
