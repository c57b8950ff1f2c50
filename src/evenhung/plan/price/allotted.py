"""What an allotment buys, as lines of a price: whole bars, ready-made weights, make-weights."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from evenhung.plan.allotment.applied import key_of
from evenhung.plan.allotment.sentences import bought_name
from evenhung.plan.price.materials import CENT, MaterialLine, prices_by_name
from evenhung.survey.stock import Bar, MakeWeight, ReadyMade

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.allotment.buying import Bought
    from evenhung.plan.allotment.house import HouseAllotment
    from evenhung.plan.allotment.outcome import Hanging
    from evenhung.plan.work import Work
    from evenhung.survey.stock import Stock

_LISTS: dict[type, str] = {MakeWeight: "make_weight", Bar: "bar", ReadyMade: "ready_made"}


def sashes_bought_for(allotment: HouseAllotment) -> set[tuple[str, str]]:
    """Give the sashes whose metal an allotment buys: window and place of each."""
    return {key_of(one.asked.plan) for one in allotment.served}


def not_paid_as_making(allotment: HouseAllotment, work: Sequence[Work]) -> list[Work]:
    """Leave out the making of weights that the stock has a price for: it is paid once."""
    paid = {
        (one.place.sash.window.tag, f"{one.place.sash.place} {one.place.side}")
        for one in allotment.hangings
        if isinstance(one.new, Bar) and one.new.making is not None
    }
    return [
        one
        for one in work
        if one.operation != "make a weight" or (one.window, one.part) not in paid
    ]


def bought_lines(allotment: HouseAllotment, stock: Stock) -> Iterator[MaterialLine]:
    """Give what an allotment buys, each line by the entry of the stock that it is priced by.

    Parameters
    ----------
    allotment
        The allotment.
    stock
        The stock that the house states. What it has no price for may have one among the materials,
        by its name.

    Yields
    ------
    MaterialLine
        Together they cost what the allotment says that its buying costs.
    """
    prices = prices_by_name(allotment.plan.survey.house)
    for line in allotment.basket.lines:
        takes = (one for one in allotment.hangings if _takes(one, line.what))
        windows = tuple(dict.fromkeys(one.place.sash.window.tag for one in takes))
        name, entry = bought_name(line.what), _entry(stock, line.what)
        each = line.what.price.amount if line.what.price is not None else None
        if each is None:
            each, entry = prices.get((name, "each"), (None, entry))
        yield _line(name, line.number, windows, each, entry)
        yield from _making(line, windows, entry)


def _making(line: Bought, windows: tuple[str, ...], entry: str) -> Iterator[MaterialLine]:
    if isinstance(line.what, Bar) and line.what.making is not None:
        made = sum(len(bar.lengths_mm) for bar in line.bars)
        name = f"making weights from {bought_name(line.what)}"
        yield _line(name, made, windows, line.what.making.amount, f"{entry}.making")


def _line(
    name: str, number: int, windows: tuple[str, ...], each: Decimal | None, entry: str
) -> MaterialLine:
    amount = None if each is None else (each * number).quantize(CENT, ROUND_HALF_UP)
    return MaterialLine(name, "each", Decimal(number), windows, each, amount, entry)


def _takes(hanging: Hanging, what: MakeWeight | Bar | ReadyMade) -> bool:
    """Tell whether something that is bought hangs there, or on it."""
    return hanging.new is what or any(piece is what for piece, _ in hanging.pieces)


def _entry(stock: Stock, what: MakeWeight | Bar | ReadyMade) -> str:
    """Give the path of an entry of the stock."""
    kind = _LISTS[type(what)]
    number = next(n for n, one in enumerate(getattr(stock, kind)) if one is what)
    return f"house.stock.{kind}[{number}]"
