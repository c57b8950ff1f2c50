"""``evenhung price``: what the work on a house costs, and how sure that is."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated, Optional

import typer

from evenhung.cli.allot import plan_and_allotment
from evenhung.cli.files import survey_in
from evenhung.cli.options import Allotted, AsJson, SurveyFile, number_from
from evenhung.plan.work import counted
from evenhung.survey.nearest import nearest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from decimal import Decimal

    from evenhung.plan.price import HousePrice
    from evenhung.plan.price.house import LabourLine
    from evenhung.plan.price.materials import MaterialLine

EXAMPLES = """\b
Examples:
  evenhung price house.toml
  evenhung price house.toml --confidence 90 --allot
  evenhung price house.toml --history last.toml
  evenhung price house.json --json > price.json
"""


def price(
    survey: SurveyFile,
    confidence: Annotated[
        Optional[float],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            metavar="PERCENT",
            parser=number_from(50.0, 99.0),
            help="Chance that it costs no more, 50 to 99; unset, as the survey has it.",
        ),
    ] = None,
    history: Annotated[
        Optional[list[str]],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            metavar="SURVEY",
            help="Another house whose booked hours are learnt from; may be repeated.",
        ),
    ] = None,
    with_allotment: Allotted = False,
    as_json: AsJson = False,
) -> None:
    """Price the work on a house, and say how sure that is.

    Hours by operation, materials, overheads, tax. Hours are ranges, so the total is one too; what
    is offered is enough with the confidence asked for. Hours that were booked sharpen it.
    """
    from evenhung.plan.price import price_document, price_house  # numpy's transforms are dear

    plan, allotment = plan_and_allotment(survey, None, is_allotted=with_allotment)
    found = price_house(
        plan,
        allotment=allotment,
        history=[survey_in(path) for path in history or ()],
        confidence_pct=confidence,
    )
    if as_json:
        print(json.dumps(price_document(found), ensure_ascii=False, allow_nan=False))
    else:
        print("\n".join(price_lines(found)))


def price_lines(found: HousePrice) -> Iterator[str]:
    """Give a price in lines of text."""
    yield _heading(found)
    for line in found.labour:
        yield _labour(line, found)
    for material in found.materials:
        yield _material(material, found)
    yield from _totals(found)
    for option in found.options:
        price = "no rate stated" if option.with_tax is None else _money(option.with_tax, found)
        yield f"option: {option.name}: {price}"
    for line in found.labour:
        if line.bookings:
            times = "once" if line.bookings == 1 else f"{line.bookings} times"
            factor = f"{line.factor:.2f} times its hours"
            yield f"learnt: {line.operation}: takes {factor}, booked {times}"
    examples = sorted({line.operation for line in found.labour if line.taken.is_example})
    if examples:
        yield (
            f"taken for granted: hours of {', '.join(examples)} are examples: "
            "state your own in [[house.rate]]"
        )


def _heading(found: HousePrice) -> str:
    name = found.plan.survey.house.name
    if not found.labour:
        return f"{name}: nothing is to be done"
    if found.offered is None:
        return (
            f"{name}: {found.offered_hours:.1f} h are enough with {found.confidence_pct:g} % "
            "confidence; no price, for no rate is stated: rate in [house.price]"
        )
    return (
        f"{name}: {_money(found.offered.whole, found)} is enough with "
        f"{found.confidence_pct:g} % confidence"
    )


def _labour(line: LabourLine, found: HousePrice) -> str:
    each = " to ".join(dict.fromkeys(f"{one:g}" for one in line.taken.hours))
    unit = "" if line.work[0].unit == "each" else f" {line.work[0].unit}"
    amount = "" if line.amount is None else f", {_money(line.amount, found)}"
    windows = ", ".join(dict.fromkeys(one.window for one in line.work))
    return (
        f"labour: {line.operation}: {counted(line.quantity)}{unit} "
        f"at {each} h, {line.hours:.1f} h to be expected{amount} "
        f"({windows}) [{_source(line)}]"
    )


def _source(line: LabourLine) -> str:
    """Say where hours come from; that examples want replacing is said once, at the end."""
    from evenhung.plan.price.hours import EXAMPLE

    return line.taken.source.replace(EXAMPLE, "an example")


def _material(line: MaterialLine, found: HousePrice) -> str:
    if line.amount is None or line.each is None:
        price = f"no price stated: not in the total{_stated_nearby(line, found)}"
    else:
        price = f"{_money(line.amount, found)} at {line.each:.2f}"
    by = f" [{line.priced_by}]" if line.priced_by else ""
    return f"material: {line.name}: {line.quantity} {line.per}, {price}{by}"


def _stated_nearby(line: MaterialLine, found: HousePrice) -> str:
    """Say which price of the survey may have been meant for a material that has none."""
    priced = {(one.name, one.per) for one in found.materials if one.amount is not None}
    spare = [one for one in found.plan.survey.house.material if (one.name, one.per) not in priced]
    for one in spare:
        if one.name == line.name:
            return f"; its price is stated per {one.per}, wanted is {line.per}"
    near = nearest(line.name, [one.name for one in spare])
    return f"; a price is stated for {near!r}" if near else ""


def _totals(found: HousePrice) -> Iterator[str]:
    hours = found.hours
    yield (
        f"hours: {hours.mean:.1f} to be expected, give or take {hours.deviation:.1f}; "
        f"one job in ten takes no more than {hours.at(0.1):.1f}, nine in ten no more than "
        f"{hours.at(0.9):.1f}"
    )
    for what, made in (("to be expected", found.expected), ("offered", found.offered)):
        if made is not None:
            yield (
                f"{what}: labour {made.labour:.2f}, materials {made.materials:.2f}, overheads "
                f"{made.overhead:.2f}, tax {made.tax:.2f}: {_money(made.whole, found)}"
            )


def _money(amount: Decimal, found: HousePrice) -> str:
    currency = found.plan.survey.house.currency
    return f"{amount:.2f}{f' {currency}' if currency else ''}"
