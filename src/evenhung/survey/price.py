"""What a price is made of besides hours: rates, materials, overheads, tax, options, conditions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_count,
    a_number,
    a_text,
    assumed,
    parts,
    plain,
    required,
    several,
)
from evenhung.survey.hours import an_operation
from evenhung.survey.money import a_price

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.survey.fields import Refusal
    from evenhung.survey.money import Money

PER = ("each", "m", "m2", "kg", "L")


class Hand(Record):
    """Those of the crew who are paid alike."""

    who: str = required(a_text(), "what they are: joiner, improver, painter")
    count: int | None = plain(a_count(1, 50), "how many of them", "1")
    rate: Money = required(a_price(), "for one hour of one of them")


class Option(Record):
    """What may be had besides, at a price of its own."""

    name: str = required(a_text(), "what is offered")
    price: Money | None = plain(
        a_price(), "what it costs before tax", "reckoned from its operation and quantity"
    )
    operation: str | None = plain(an_operation(), "what is done", "its price is stated")
    quantity: float | None = plain(
        a_number(0.01, 10_000), "how many, or how many metres or square metres", "1"
    )

    def contradictions(self) -> Iterable[Refusal]:
        """Give an option with no price, or with two."""
        if (self.price is None) == (self.operation is None):
            given = "(absent)" if self.price is None else self.price.text
            yield "price", given, "either a price or an operation"


class Material(Record):
    """What a material costs."""

    name: str = required(a_text(), "what it is, as evenhung price names it")
    per: str = required(a_choice(*PER), "what the price is for: one, a metre, a kilogram, a litre")
    price: Money = required(a_price(), "before tax")


class Price(Record):
    """How hours and materials become a price."""

    rate: Money | None = plain(
        a_price(),
        "for one hour of one person",
        "the crew's, weighted by its numbers; where there is none either, hours and no price",
    )
    crew: tuple[Hand, ...] = parts(Hand, "who works, where they are not paid alike", "nobody named")
    overhead_pct: float | None = plain(a_number(0, 200), "added to labour and materials", "0")
    tax_pct: float | None = plain(a_number(0, 100), "added to everything", "0")
    confidence_pct: float | None = assumed(
        a_number(50, 99), "chance that the work costs no more", "policy/price/confidence_pct"
    )
    valid_days: int | None = assumed(
        a_count(1, 365), "how long the quotation stands", "policy/price/valid_days"
    )
    exclusions: tuple[str, ...] = plain(
        several(a_text(), most=40), "what is not in the price", "none is named"
    )
    option: tuple[Option, ...] = parts(Option, "what may be had besides", "none")

    def contradictions(self) -> Iterable[Refusal]:
        """Give a rate beside a crew that has rates."""
        if self.rate is not None and self.crew:
            yield "rate", self.rate.text, "nothing, where the crew has rates of its own"

    def wants(self, field: str) -> bool:  # noqa: ARG002 - whichever it is
        """Want nothing: what is assumed here is said where a price is made."""
        return False
