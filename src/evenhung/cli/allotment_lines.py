"""An allotment in lines of text: by box side, then the moves, what to buy, what is left over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.cli.lines import urgent
from evenhung.plan.allotment.sentences import bought_name, move_sentence, side_sentence

if TYPE_CHECKING:
    from collections.abc import Iterator
    from decimal import Decimal

    from evenhung.plan.allotment.buying import Bought
    from evenhung.plan.allotment.house import HouseAllotment


def allotment_lines(found: HouseAllotment) -> Iterator[str]:
    """Give an allotment line by line."""
    words = found.plan.words
    yield _heading(found)
    for note in urgent(found.plan.notes):
        yield f"house: {note.severity}: {note.text} [{note.source}]"
    for hanging in found.hangings:
        mass = words.mass(hanging.kg)
        yield f"{hanging.place.name}: {side_sentence(hanging, words)}; hangs at {mass}"
    for one in found.unserved:
        asks = "cannot be served" if one.is_asked else "takes no part"
        yield f"{one.sash.window.tag} {one.sash.place}: {asks}: {one.reason}"
    for number, move in enumerate(found.moves, 1):
        yield f"step {number}: {move_sentence(move, words)}"
    yield from _buying(found)
    for weight in found.left_over:
        yield f"left over: {weight.name}, {words.mass(float(weight.kg))}"
    for out in found.left_out:
        yield f"not allotted: {out.name}: {out.reason}"
    for note in found.notes:
        yield f"taken for granted: {note.text.replace(' taken as ', ' ', 1)} ({note.source})"


def _heading(found: HouseAllotment) -> str:
    house = found.plan.survey.house
    asked = len(found.served) + sum(one.is_asked for one in found.unserved)
    if not asked:
        return f"{house.name}: no sash asks for weights"
    proof = "proved: no other use of the weights is better"
    if found.status != "optimal":
        better = found.cost - found.bound
        proof = f"no other use of the weights is better by more than {better:.2f} in all"
    return f"{house.name}: {len(found.served)} of {asked} sashes hang true; {proof}"


def _buying(found: HouseAllotment) -> Iterator[str]:
    words, currency = found.plan.words, found.plan.survey.house.currency
    for line in found.basket.lines:
        yield f"buy: {line.number} × {bought_name(line.what)}{_price(line, currency)}"
        for bar in line.bars:
            cuts = ", ".join(words.length(mm) for mm in bar.lengths_mm)
            yield f"cut: {cuts}; left of the bar: {words.length(bar.leftover_mm)}"
        if line.bars and not line.is_fewest:
            yield "cut: fewer bars might do; that is not proved"
    if found.basket.lines:
        without = "" if found.basket.is_whole else ", without what has no price"
        yield f"buy: in all {_money(found.basket.total, currency)}{without}"


def _price(line: Bought, currency: str | None) -> str:
    if line.price is None:
        return ", no price stated"
    making = f" and {_money(line.making, currency)} of making" if line.making else ""
    return f", {_money(line.price, currency)}{making}"


def _money(amount: Decimal, currency: str | None) -> str:
    return f"{amount:.2f}{f' {currency}' if currency else ''}"
