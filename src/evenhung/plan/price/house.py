"""The price of a house, begin here: work and materials in, lines and a total with chances out."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed
from evenhung.plan.job import job_of
from evenhung.plan.price.hours import hours_of
from evenhung.plan.price.materials import (
    CENT,
    MaterialLine,
    Needed,
    hanging_materials,
    in_order,
    material_lines,
    used_up_in,
)
from evenhung.plan.price.pace import Seen, learnt_from
from evenhung.plan.price.total import Spread, Tasks, total_hours

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from evenhung.plan.allotment.house import HouseAllotment
    from evenhung.plan.house import HousePlan
    from evenhung.plan.price.hours import Taken
    from evenhung.plan.price.pace import Pace
    from evenhung.plan.work import Operation, Work
    from evenhung.survey import Survey
    from evenhung.survey.house import House
    from evenhung.survey.price import Option

HUNDRED = Decimal(100)


class LabourLine(NamedTuple):
    """All work of one operation."""

    operation: Operation
    work: tuple[Work, ...]
    """What it is made of: window, part, quantity, why."""
    quantity: float
    taken: Taken
    """Hours for one of it, and where they come from."""
    factor: float
    """What it is expected to take over those hours, learnt from what was booked."""
    bookings: int
    """How often it was booked."""
    amount: Decimal | None
    """For the hours to be expected; None where no rate is stated."""

    @property
    def hours(self) -> float:
        """Hours to be expected [h]."""
        return self.taken.hours.mean * self.quantity * self.factor


class OptionLine(NamedTuple):
    """What may be had besides."""

    name: str
    amount: Decimal | None
    """With overheads, before tax; None where no rate is stated."""
    with_tax: Decimal | None


class Sum(NamedTuple):
    """A price put together."""

    labour: Decimal
    materials: Decimal
    overhead: Decimal
    tax: Decimal

    @property
    def before_tax(self) -> Decimal:
        """Labour, materials and overheads."""
        return self.labour + self.materials + self.overhead

    @property
    def whole(self) -> Decimal:
        """What is paid."""
        return self.before_tax + self.tax


class HousePrice(NamedTuple):
    """What the work on a house costs."""

    plan: HousePlan
    labour: tuple[LabourLine, ...]
    materials: tuple[MaterialLine, ...]
    options: tuple[OptionLine, ...]
    hours: Spread
    pace: Pace
    rate: Decimal | None
    """For an hour of one person; None where none is stated."""
    confidence_pct: float
    expected: Sum | None
    """For the hours to be expected."""
    offered: Sum | None
    """For the hours that are enough with the confidence asked for."""

    @property
    def unpriced(self) -> tuple[MaterialLine, ...]:
        """Materials that the survey has no price for: they are not in the total."""
        return tuple(line for line in self.materials if line.amount is None)

    @property
    def offered_hours(self) -> float:
        """Hours that are enough with the confidence asked for [h]."""
        return self.hours.at(self.confidence_pct / 100.0)


def price_house(
    plan: HousePlan,
    *,
    work: Sequence[Work] | None = None,
    materials: Sequence[Needed] | None = None,
    allotment: HouseAllotment | None = None,
    history: Sequence[Survey] = (),
    confidence_pct: float | None = None,
) -> HousePrice:
    """Price the work on a house.

    Parameters
    ----------
    plan
        The plan of the house.
    work
        What is done; None takes the whole job, hang and overhaul.
    materials
        What is used up; None takes what that work uses up.
    allotment
        What the plan's sashes hang on, where that was worked out for the house as one: what it
        buys is priced by the house's stock. Of a house without a stock, or without an allotment,
        metal is priced by the kilogram.
    history
        Other houses whose booked hours are learnt from, besides this one's own.
    confidence_pct
        Chance that the work costs no more [pct]; None takes the survey's.

    Returns
    -------
    HousePrice
        Lines, the distribution of the hours, and the price at the confidence.
    """
    house = plan.survey.house
    if house.stock is None:
        allotment = None
    work, needed = _asked(plan, work, materials, allotment)
    pace = learnt_from(seen_in([*history, plan.survey]))
    rate = rate_of(house)
    tasks = _tasks(house, work)
    hours = total_hours(tasks, pace)
    lines = tuple(_labour_lines(house, work, pace, rate))
    bought = material_lines(house, needed)
    if allotment is not None and house.stock is not None:
        from evenhung.plan.price.allotted import bought_lines  # the solver is dear to load

        bought = (*bought, *bought_lines(allotment, house.stock))
    if confidence_pct is None:
        confidence_pct = house.price.confidence_pct
    if confidence_pct is None:
        confidence_pct = assumed("policy/price/confidence_pct").value
    spent = sum((line.amount or Decimal(0) for line in bought), Decimal(0))
    expected = None if rate is None else _sum(house, _money(hours.mean, rate), spent)
    enough = hours.at(confidence_pct / 100.0)
    offered = None if rate is None else _sum(house, _money(enough, rate), spent)
    options = tuple(
        _option_line(house, one, pace, rate, confidence_pct) for one in house.price.option
    )
    return HousePrice(
        plan, lines, bought, options, hours, pace, rate, confidence_pct, expected, offered
    )


def _asked(
    plan: HousePlan,
    work: Sequence[Work] | None,
    materials: Sequence[Needed] | None,
    allotment: HouseAllotment | None,
) -> tuple[Sequence[Work], Sequence[Needed]]:
    """Give what is done and used up: as handed in, else the whole job."""
    job = job_of(plan) if work is None else None
    work = job.work if job is not None else work or ()
    bought_for: set[tuple[str, str]] = set()
    if allotment is not None:
        from evenhung.plan.price.allotted import not_paid_as_making, sashes_bought_for  # as above

        work, bought_for = not_paid_as_making(allotment, work), sashes_bought_for(allotment)
    if materials is None and job is None:
        materials = hanging_materials(plan, work, bought_for=bought_for)
    elif materials is None and job is not None:
        materials = in_order([used_up_in(job, bought_for=bought_for)])
    return work, materials or ()


def seen_in(surveys: Iterable[Survey]) -> Iterator[Seen]:
    """Give the bookings of some houses, each against the hours of its own survey."""
    for survey in surveys:
        for one in survey.booked:
            operation: Operation = one.operation  # type: ignore[assignment]  # held by a test
            hours = hours_of(survey.house, operation).hours
            quantity = 1.0 if one.quantity is None else one.quantity
            yield Seen(operation, one.hours, hours.mean * quantity, hours.log_sd)


def rate_of(house: House) -> Decimal | None:
    """Give the price of an hour of one person; a crew's is weighted by its numbers."""
    if house.price.rate is not None:
        return house.price.rate.amount
    hands = [(one.count or 1, one.rate.amount) for one in house.price.crew]
    people = sum(count for count, _ in hands)
    if not people:
        return None
    together = sum((count * rate for count, rate in hands), Decimal(0))
    return (together / people).quantize(CENT, ROUND_HALF_UP)


def _tasks(house: House, work: Iterable[Work]) -> Mapping[Operation, Tasks]:
    quantities: dict[Operation, list[float]] = {}
    for one in work:
        if one.quantity > 0.0:
            quantities.setdefault(one.operation, []).append(one.quantity)
    return {
        operation: Tasks(hours_of(house, operation).hours, tuple(sorted(each)))
        for operation, each in quantities.items()
    }


def _labour_lines(
    house: House, work: Sequence[Work], pace: Pace, rate: Decimal | None
) -> Iterator[LabourLine]:
    """Give a line for each operation, in the order in which operations first come up."""
    for operation in dict.fromkeys(one.operation for one in work):
        own = tuple(one for one in work if one.operation == operation)
        line = LabourLine(
            operation,
            own,
            sum(one.quantity for one in own),
            hours_of(house, operation),
            pace.factor(operation),
            pace.of(operation).bookings,
            None,
        )
        yield line._replace(amount=None if rate is None else _money(line.hours, rate))


def _option_line(
    house: House, option: Option, pace: Pace, rate: Decimal | None, confidence_pct: float
) -> OptionLine:
    """Price an option by itself; one that is reckoned is priced at the same confidence."""
    if option.price is not None:
        amount = option.price.amount
    elif rate is None or option.operation is None:
        return OptionLine(option.name, None, None)
    else:
        operation: Operation = option.operation  # type: ignore[assignment]  # held by a test
        tasks = Tasks(hours_of(house, operation).hours, (option.quantity or 1.0,))
        enough = total_hours({operation: tasks}, pace).at(confidence_pct / 100.0)
        amount = _sum(house, _money(enough, rate), Decimal(0)).before_tax
    return OptionLine(option.name, amount, amount + _share(amount, house.price.tax_pct))


def _sum(house: House, labour: Decimal, materials: Decimal) -> Sum:
    overhead = _share(labour + materials, house.price.overhead_pct)
    tax = _share(labour + materials + overhead, house.price.tax_pct)
    return Sum(labour, materials, overhead, tax)


def _share(amount: Decimal, pct: float | None) -> Decimal:
    return (amount * Decimal(str(pct or 0)) / HUNDRED).quantize(CENT, ROUND_HALF_UP)


def _money(hours: float, rate: Decimal) -> Decimal:
    return (Decimal(hours) * rate).quantize(CENT, ROUND_HALF_UP)
