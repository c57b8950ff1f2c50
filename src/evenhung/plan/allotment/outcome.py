"""The answer in the plan's own terms: what hangs at each side, and what comes of each sash."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.allotment.places import is_true, places_of
from evenhung.plan.columns import for_each
from evenhung.plan.facts import facts_of
from evenhung.plan.proposal import HungWeight, Proposal
from evenhung.plan.solve import solve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.allot.answer import Answer, Serving
    from evenhung.plan.allotment.candidates import Candidate
    from evenhung.plan.allotment.places import Asked, Place
    from evenhung.plan.allotment.question import Question
    from evenhung.plan.inputs import SideInputs
    from evenhung.plan.proposal import Origin
    from evenhung.survey.stock import Bar, MakeWeight, ReadyMade, Stock


class Hanging(NamedTuple):
    """What shall hang at one side of a sash."""

    place: Place
    origin: Origin
    weight: Candidate | None
    """None for one that is made or bought new, in any number."""
    new: Bar | ReadyMade | None
    """What a new one is cut from, or is."""
    pieces: tuple[tuple[MakeWeight, int], ...]
    """Make-weights to add, and how many of each size."""
    off_kg: float
    """What is taken off it."""
    kg: float
    """As it hangs."""
    length_mm: float
    """As it hangs; nan where not known."""
    across_mm: float

    @property
    def added_kg(self) -> float:
        """Mass of the make-weights."""
        return sum(piece.mass.kg * count for piece, count in self.pieces)

    @property
    def source(self) -> str:
        """Name of the weight, or what a new one is."""
        if self.weight is not None:
            return self.weight.name
        return getattr(self.new, "name", None) or f"new {getattr(self.new, 'metal', '')}"

    @property
    def stays(self) -> bool:
        """Whether it is at home and left as it is."""
        return self.origin == "found" and not self.pieces and not self.off_kg


class Served(NamedTuple):
    """A sash, what shall hang at either side, and what comes of it."""

    asked: Asked
    left: Hanging
    right: Hanging
    proposal: Proposal

    @property
    def is_true(self) -> bool:
        """Whether the pair is within its limits, by the masses themselves."""
        return is_true(self.asked.found, self.left.kg, self.right.kg)


def as_hung(asked: Asked, left: Candidate, right: Candidate) -> Served:
    """Give a sash on the weights that hang there already, and what comes of it."""
    hangings = [
        Hanging(place, "found", one, None, (), 0.0, float(one.kg), one.length_mm, one.across_mm)
        for place, one in zip(places_of(*asked), (left, right), strict=True)
    ]
    return _solved([(asked, hangings[0], hangings[1])])[0]


def served_by(answer: Answer, question: Question, stock: Stock) -> list[Served]:
    """Give what hangs where, of every sash that is served."""
    pairs = []
    for sash, places, pair in zip(question.sashes, question.places, answer.pairs, strict=True):
        if pair is not None:
            left, right = (
                _hanging(place, serving, question, stock)
                for place, serving in zip(places, pair, strict=True)
            )
            pairs.append((sash, *_evened(left, right)))
    return _solved(pairs)


def _evened(left: Hanging, right: Hanging) -> tuple[Hanging, Hanging]:
    """Make two new weights from one bar alike: the pair and what it takes are the same."""
    if left.weight or right.weight or left.new is not right.new or left.origin != "new":
        return left, right
    kg, length = (left.kg + right.kg) / 2.0, (left.length_mm + right.length_mm) / 2.0
    longest = min(left.place.longest_mm, right.place.longest_mm)
    if length > longest:
        return left, right
    return (
        left._replace(kg=kg, length_mm=length),
        right._replace(kg=kg, length_mm=length),
    )


def _hanging(place: Place, serving: Serving, question: Question, stock: Stock) -> Hanging:
    if serving.weight is None or serving.new is not None:
        return _new(place, serving, question, stock)
    weight = question.weights[serving.weight]
    pieces = tuple(
        (piece, count)
        for piece, count in zip(stock.make_weight, serving.pieces, strict=False)
        if count
    )
    kg = weight.kg + sum(piece.mass.exact * count for piece, count in pieces)
    kg -= serving.trimmed * question.scales.tick_kg
    length = weight.length_mm * float(1 - serving.trimmed * question.scales.tick_kg / weight.kg)
    return Hanging(
        place,
        _origin(place, weight),
        weight,
        weight.bought,
        pieces,
        question.scales.kg(serving.trimmed),
        float(kg),
        length + sum(piece.length.mm * count for piece, count in pieces),
        weight.across_mm,
    )


def _origin(place: Place, weight: Candidate) -> Origin:
    if place.is_home_of(weight):
        return "found"
    if weight.bought is not None:
        return "ready-made"
    return "loose" if weight.home is None else "moved"


def _new(place: Place, serving: Serving, question: Question, stock: Stock) -> Hanging:
    number = serving.source(question.problem) - len(question.weights)
    if number < len(question.bars):
        bar = question.bars[number]
        kg, length = question.scales.kg(serving.mass), serving.length / 10.0
        return Hanging(place, "new", None, bar, (), 0.0, kg, length, bar.diameter.mm)
    ready, counts = question.ready[number - len(question.bars)]
    across = ready.diameter.mm if ready.diameter else math.nan
    pieces = tuple(
        (piece, count) for piece, count in zip(stock.make_weight, counts, strict=True) if count
    )
    kg = ready.mass.kg + sum(piece.mass.kg * count for piece, count in pieces)
    length = ready.length.mm + sum(piece.length.mm * count for piece, count in pieces)
    return Hanging(place, "ready-made", None, ready, pieces, 0.0, kg, length, across)


def _solved(pairs: Sequence[tuple[Asked, Hanging, Hanging]]) -> list[Served]:
    """Work out what comes of every pair, all at once, by the same physics as a plan."""
    inputs = []
    for sash, left, right in pairs:
        given = sash.found.inputs
        inputs.append(
            given._replace(left=_hung_on(given.left, left), right=_hung_on(given.right, right))
        )
    served = []
    for (sash, left, right), given, found in zip(
        pairs, inputs, for_each(inputs, solve), strict=True
    ):
        facts = facts_of(given, found)
        proposal = Proposal(_hung_weight(left), _hung_weight(right), given, "", found, facts)
        served.append(Served(sash, left, right, proposal))
    return served


def _hung_on(side: SideInputs, hanging: Hanging) -> SideInputs:
    """Make-weights go in by the pocket one by one: only the weight itself must pass it whole."""
    added = sum(piece.length.mm * count for piece, count in hanging.pieces)
    whole = hanging.length_mm - added
    return side._replace(
        weight_kg=hanging.kg,
        length_mm=hanging.length_mm,
        piece_mm=whole,
        across_mm=hanging.across_mm,
        efficiency=side.freed_efficiency,
    )


def _hung_weight(hanging: Hanging) -> HungWeight:
    metal = getattr(hanging.new, "metal", None)
    if hanging.weight is not None:
        metal = hanging.weight.metal
    added_mm = sum(piece.length.mm * count for piece, count in hanging.pieces)
    return HungWeight(
        hanging.origin,
        hanging.kg,
        hanging.added_kg - hanging.off_kg,
        hanging.length_mm,
        hanging.across_mm,
        metal,
        added_mm,
    )
