"""What to buy and to cut for an allotment, with totals, and what each bar leaves over."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.cutting import cut
from evenhung.plan.allotment.scales import STEP_MM, steps_down, steps_up
from evenhung.plan.assumed import assumed
from evenhung.survey.stock import Bar, ReadyMade

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.allot.cutting import CuttingPlan
    from evenhung.plan.allotment.outcome import Hanging
    from evenhung.survey.money import Money
    from evenhung.survey.stock import MakeWeight, Stock


class BarCuts(NamedTuple):
    """One bar and what is cut from it."""

    lengths_mm: tuple[float, ...]
    leftover_mm: float


class Bought(NamedTuple):
    """One line of what to buy."""

    what: MakeWeight | Bar | ReadyMade
    number: int
    price: Decimal | None
    """For all of them; None where no price is stated."""
    making: Decimal | None = None
    """Of cutting and finishing what is cut from bars; None where there is no price for it."""
    bars: tuple[BarCuts, ...] = ()
    is_fewest: bool = True
    """Whether no cutting needs fewer bars, proved."""


class Basket(NamedTuple):
    """All that is bought."""

    lines: tuple[Bought, ...]
    total: Decimal
    """Of all that has a price."""
    is_whole: bool
    """Whether all has a price."""


def basket_of(hangings: Sequence[Hanging], stock: Stock) -> Basket:
    """Give what to buy for what shall hang."""
    lines = tuple(_lines(hangings, stock))
    prices = [price for line in lines for price in (line.price, line.making) if price is not None]
    total = sum(prices, Decimal(0))
    return Basket(lines, total, all(line.price is not None for line in lines))


def _lines(hangings: Sequence[Hanging], stock: Stock) -> Iterator[Bought]:
    pieces = [added for hanging in hangings for added in hanging.pieces]
    for piece in stock.make_weight:
        count = sum(number for size, number in pieces if size is piece)
        if count:
            yield Bought(piece, count, _times(piece.price, count))
    for ready in stock.ready_made:
        count = sum(hanging.new is ready for hanging in hangings)
        if count:
            yield Bought(ready, count, _times(ready.price, count))
    for bar in stock.bar:
        made = [hanging for hanging in hangings if hanging.new is bar]
        if made:
            yield _bars(bar, made, stock)


def _times(price: Money | None, count: int) -> Decimal | None:
    return None if price is None else price.amount * count


def _bars(bar: Bar, made: Sequence[Hanging], stock: Stock) -> Bought:
    """Cut the lengths, eyes left out, from as few bars as can be."""
    eye = bar.eye.mm if bar.eye else 0.0
    kerf = stock.kerf.mm if stock.kerf else assumed("policy/stock/kerf").value
    wanted = Counter(steps_up(one.length_mm - eye) for one in made)
    plan = cut(wanted, bar=steps_down(bar.length.mm), kerf=steps_up(kerf))
    cuts = tuple(_cuts(plan))
    return Bought(
        bar,
        len(cuts),
        _times(bar.price, len(cuts)),
        _times(bar.making, len(made)),
        cuts,
        plan.status == "optimal",
    )


def _cuts(plan: CuttingPlan) -> Iterator[BarCuts]:
    for one in plan.bars:
        lengths = tuple(round(length * STEP_MM, 1) for length in one.lengths)
        yield BarCuts(lengths, round(one.leftover * STEP_MM, 1))
