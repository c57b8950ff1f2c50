"""An allotment in lines of text: by box side, then the moves, what to buy, what is left over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.cli.lines import urgent
from evenhung.cli.story import hung_story
from evenhung.plan.allotment.sentences import bought_name, move_sentence, side_sentence

if TYPE_CHECKING:
    from collections.abc import Iterator
    from decimal import Decimal

    from evenhung.plan.allotment.buying import Bought
    from evenhung.plan.allotment.house import HouseAllotment
    from evenhung.plan.allotment.outcome import Served
    from evenhung.plan.words import Words


def allotment_lines(found: HouseAllotment) -> Iterator[str]:
    """Give an allotment line by line."""
    words = found.plan.words
    yield _heading(found)
    for note in urgent(found.plan.notes):
        yield f"house: {note.severity}: {note.text} [{note.source}]"
    for hanging in found.hangings:
        mass = words.mass(hanging.kg)
        yield f"{hanging.place.name}: {side_sentence(hanging, words)}; hangs at {mass}"
    for served in found.served:
        yield from _of_the_sash(served, words)
    for one in found.unserved:
        asks = "cannot be served" if one.is_asked else "takes no part"
        yield f"{one.sash.window.tag} {one.sash.place}: {asks}: {one.reason}"
    for number, move in enumerate(found.moves, 1):
        yield f"step {number}: {move_sentence(move, words)}"
    yield from _buying(found)
    yield from _not_used(found)
    yield from _notes(found)


_OUT = "take it out of its box: left in there it can jam the weight that hangs"
_ON_ITS_CORD = (
    "it may hang on its cord there until its sash is seen to; "
    "off its cord, take it out of the box, where it can jam"
)


def _not_used(found: HouseAllotment) -> Iterator[str]:
    served = {hanging.place.name for hanging in found.hangings}
    for weight in found.left_over:
        where = ""
        if weight.home is not None:
            where = f"; {_OUT if weight.name in served else _ON_ITS_CORD}"
        yield f"left over: {weight.name}, {found.plan.words.mass(float(weight.kg))}{where}"
    for out in found.left_out:
        yield f"not allotted: {out.name}: {out.reason}"


def _notes(found: HouseAllotment) -> Iterator[str]:
    for note in urgent(found.notes):
        yield f"{note.severity}: {note.text}"
    for note in found.notes:
        if note.severity == "info":
            said = note.text.replace(" taken as ", " ", 1)
            yield f"taken for granted: {said} ({note.source})"


def _heading(found: HouseAllotment) -> str:
    house = found.plan.survey.house
    asked = len(found.served) + sum(one.is_asked for one in found.unserved)
    if not asked:
        return f"{house.name}: no sash asks for weights"
    proof = "proved: no other use of the weights is better"
    if found.status != "optimal":
        more = min(asked - len(found.served), int((found.cost - found.bound) / found.worth_serving))
        proof = "not proved best: "
        proof += f"at most {more} more could hang true" if more else "no more could hang true"
    return f"{house.name}: {len(found.served)} of {asked} sashes hang true; {proof}"


def _of_the_sash(served: Served, words: Words) -> Iterator[str]:
    """Say what comes of a sash as allotted: what to cut, what it clears, what the hand feels."""
    plan = served.asked.plan
    name = f"{plan.window.tag} {plan.place}"
    for line in hung_story(plan.sash, served.proposal, words):
        yield f"{name}: {line}"
    if plan.mass.found == "estimated":
        spread = words.mass(plan.mass.deviation_kg)
        yield f"{name}: its mass is estimated, give or take {spread}: weigh it before all else"


def _buying(found: HouseAllotment) -> Iterator[str]:
    words, currency = found.plan.words, found.plan.survey.house.currency
    for line in found.basket.lines:
        yield f"buy: {line.number} × {bought_name(line.what)}{_price(line, currency)}"
        for bar in line.bars:
            cuts = ", ".join(words.length(mm) for mm in bar.lengths_mm)
            yield f"cut: {cuts}; left of the bar: {words.length(bar.leftover_mm)}"
        if line.bars and not line.is_fewest:
            yield "cut: fewer bars might do; that is not proved"
    if found.basket.total:
        without = "" if found.basket.is_whole else ", without what has no price"
        yield f"buy: in all {_money(found.basket.total, currency)}{without}"


def _price(line: Bought, currency: str | None) -> str:
    price = _money(line.price, currency) if line.price is not None else "no price stated"
    making = f", and {_money(line.making, currency)} of making" if line.making else ""
    return f", {price}{making}"


def _money(amount: Decimal, currency: str | None) -> str:
    return f"{amount:.2f}{f' {currency}' if currency else ''}"
