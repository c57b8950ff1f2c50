"""The question put to `evenhung.allot`: a house's sashes and weights in whole numbers."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from evenhung.allot.problem import (
    Band,
    NewMetal,
    Piece,
    Problem,
    ReadyMade,
    Rules,
    Sash,
    Trim,
    Weight,
)
from evenhung.plan.allotment.decided import spot_of
from evenhung.plan.allotment.places import Asked, Place, places_of, refused_at
from evenhung.plan.allotment.scales import Scales, scales_for, steps_down, steps_up
from evenhung.plan.assumed import assumed
from evenhung.plan.proposal import bar_length_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.allotment.candidates import Candidate
    from evenhung.plan.allotment.decided import Decided, Spot
    from evenhung.plan.allotment.worth import Worths
    from evenhung.survey.house import Policy
    from evenhung.survey.stock import Bar, Stock
    from evenhung.survey.stock import ReadyMade as StockReadyMade

NO_MORE = 1_000_000
"""Longest limit of a place that is known to be long enough for anything [step]."""


class Question(NamedTuple):
    """The problem, and what its numbers stand for."""

    problem: Problem
    scales: Scales
    sashes: tuple[Asked, ...]
    places: tuple[tuple[Place, Place], ...]
    """Of each sash."""
    weights: tuple[Candidate, ...]
    bars: tuple[Bar, ...]
    ready: tuple[StockReadyMade, ...]
    pieces: tuple[Fraction, ...]
    """Mass of each size of make-weight [kg]."""
    at_home_parts: int
    """What all weights that have a home would be worth there; part of every cost."""


class Given(NamedTuple):
    """What a question is made from."""

    sashes: Sequence[Asked]
    weights: Sequence[Candidate]
    stock: Stock
    policy: Policy
    decided: Decided
    worths: Worths
    scale_sd_kg: float


def question_of(given: Given) -> Question:
    """Put the question."""
    stock = given.stock
    ready = tuple(one for one in stock.ready_made if one.count is None)
    masses = [
        *(weight.kg for weight in given.weights),
        *(piece.mass.exact for piece in stock.make_weight),
        *(one.mass.exact for one in ready),
    ]
    scales = scales_for(masses, _dearest(given))
    places = tuple(places_of(*sash) for sash in given.sashes)
    rules = _rules(given, ready, scales)
    weights = tuple(_weight(weight, given, scales) for weight in given.weights)
    sashes = tuple(
        _sash(sash, both, given, scales, len(rules.metals))
        for sash, both in zip(given.sashes, places, strict=True)
    )
    homed = sum(weight.home is not None for weight in weights)
    return Question(
        Problem(rules, sashes, weights),
        scales,
        tuple(given.sashes),
        places,
        tuple(given.weights),
        stock.bar,
        ready,
        tuple(piece.mass.exact for piece in stock.make_weight),
        homed * rules.move,
    )


def _dearest(given: Given) -> Decimal:
    worths, stock = given.worths, given.stock
    prices = [one.price.amount for one in stock.make_weight if one.price]
    prices += [one.price.amount for one in stock.ready_made if one.price]
    prices += [one.making.amount for one in stock.bar if one.making]
    return max([worths.serve, worths.whole, worths.home, worths.new, Decimal(1), *prices])


def _rules(given: Given, ready: Sequence[StockReadyMade], scales: Scales) -> Rules:
    stock, worths = given.stock, given.worths
    pieces = tuple(
        Piece(
            scales.ticks(one.mass.exact),
            steps_up(one.length.mm),
            scales.parts(worths.make_weight + (one.price.amount if one.price else 0)),
        )
        for one in stock.make_weight
    )
    most_off = assumed("policy/make-weight/take_off_most_pct").value
    trim = Trim(scales.parts(worths.whole), 0, (round(most_off), 100))
    most_pieces = stock.most_pieces
    if most_pieces is None:
        most_pieces = round(assumed("policy/stock/most_pieces").value)
    return Rules(
        most_difference=_most_difference(given, scales),
        unserved=scales.parts(worths.serve),
        off_fixed=0,
        off_per_tick=scales.parts(Fraction(worths.near) * scales.tick_kg),
        move=scales.parts(worths.home),
        pieces=pieces,
        most_pieces=most_pieces if pieces else 0,
        trim=trim if given.policy.trim == "yes" else None,
        metals=tuple(_metal(bar, n, worths, scales) for n, bar in enumerate(stock.bar)),
        ready=tuple(_ready(one, worths, scales) for one in ready),
    )


def _most_difference(given: Given, scales: Scales) -> int:
    """All sashes of a house share it: it is the house's policy."""
    allowed = [sash.found.inputs.difference_kg for sash in given.sashes]
    kept = _rounding_kg(given.stock, scales)
    if given.policy.allow_for_error == "yes":
        kept += _deviations() * math.sqrt(2.0) * given.scale_sd_kg
    return max(0, scales.ticks_at_most(min(allowed, default=0.0) - kept))


def _deviations() -> float:
    return assumed("policy/allow for error/deviations").value


def _rounding_kg(stock: Stock, scales: Scales) -> float:
    """Give the most by which a pair may be out for being reckoned in ticks."""
    if scales.is_exact:
        return 0.0
    return float(scales.tick_kg) * (1 + (stock.most_pieces or 2))


def _metal(bar: Bar, number: int, worths: Worths, scales: Scales) -> NewMetal:
    length_mm = bar_length_mm(1.0, bar.diameter.mm, bar.section == "square", bar.metal)
    bar_kg = bar.length.mm / length_mm
    price = Fraction(bar.price.amount) if bar.price else Fraction(0)
    making = bar.making.amount if bar.making else Decimal(0)
    per_tick = round(price / Fraction(bar_kg) * scales.tick_kg / scales.money)
    steps = Fraction(length_mm * 10.0 * float(scales.tick_kg)).limit_denominator(10_000)
    eye = steps_up(bar.eye.mm) if bar.eye else 0
    return NewMetal(
        f"bar {number}",
        scales.parts(worths.new + making),
        per_tick,
        (steps.numerator, steps.denominator),
        eye,
    )


def _ready(one: StockReadyMade, worths: Worths, scales: Scales) -> ReadyMade:
    price = one.price.amount if one.price else Decimal(0)
    cost = scales.parts(worths.new + price)
    return ReadyMade(one.name, scales.ticks(one.mass.exact), steps_up(one.length.mm), cost)


def _weight(weight: Candidate, given: Given, scales: Scales) -> Weight:
    """Hanging a weight at home earns what that is worth; anywhere else is as good as idle."""
    home = None
    if weight.home is not None:
        at = [number for number, sash in enumerate(given.sashes) if sash.plan is weight.home.sash]
        home = (at[0], int(weight.home.side == "right")) if at else None
    cost = -scales.parts(given.worths.home)
    if weight.bought is not None:
        price = weight.bought.price.amount if weight.bought.price else Decimal(0)
        cost += scales.parts(given.worths.new + price)
    length = 0 if math.isnan(weight.length_mm) else steps_up(weight.length_mm)
    return Weight(scales.ticks(weight.kg), length, home, cost)


def _sash(
    sash: Asked, places: tuple[Place, Place], given: Given, scales: Scales, metals: int
) -> Sash:
    hang = sash.found.hang
    kept = _rounding_kg(given.stock, scales)
    if given.policy.allow_for_error == "yes":
        spread = math.hypot(sash.plan.mass.deviation_kg, math.sqrt(2.0) * given.scale_sd_kg)
        kept += _deviations() * spread
    least = scales.ticks_at_least(hang.pair_least_kg + kept)
    most = scales.ticks_at_most(hang.pair_most_kg - kept)
    best = scales.ticks(Fraction(hang.pair_best_kg))
    heaviest_kg = (hang.pair_most_kg + sash.found.inputs.difference_kg) / 2.0
    left, right = (_barred(place, given, metals, heaviest_kg) for place in places)
    if least > most:  # no whole number of ticks is within its limits: nothing may hang here
        left = right = frozenset(range(len(given.weights) + metals + len(given.stock.ready_made)))
    accept = Band(least - best, max(least, most) - best)
    return Sash(best, accept, Band(0, 0), (_limit(places[0]), _limit(places[1])), (left, right))


def _limit(place: Place) -> int:
    return max(0, min(NO_MORE, steps_down(place.longest_mm)))


def _barred(place: Place, given: Given, metals: int, heaviest_kg: float) -> frozenset[int]:
    """Give the sources that have no business at a place."""
    spot, weights = spot_of(place.sash, place.side), given.weights
    count = len(weights)
    held = given.decided.held.get(spot)
    if spot in given.decided.hung:
        held = given.decided.hung[spot].name
    ready = [one for one in given.stock.ready_made if one.count is None]
    if held is not None:
        others = (n for n, one in enumerate(weights) if one.name != held)
        return frozenset(others) | frozenset(range(count, count + metals + len(ready)))
    refused = set(refused_at(place, weights, given.policy))
    refused |= _decided_against(spot, given)
    for number, bar in enumerate(given.stock.bar):
        length = bar_length_mm(heaviest_kg, bar.diameter.mm, bar.section == "square", bar.metal)
        if length > bar.length.mm or place.admits(length, bar.diameter.mm) is False:
            refused.add(count + number)
    for number, one in enumerate(ready):
        across = one.diameter.mm if one.diameter else math.nan
        if place.admits(one.length.mm, across) is False:
            refused.add(count + metals + number)
    return frozenset(refused)


def _decided_against(spot: Spot, given: Given) -> set[int]:
    """Give the weights that are barred here, or held for another place."""
    barred = given.decided.barred.get(spot, set())
    elsewhere = {name for place, name in given.decided.held.items() if place != spot}
    elsewhere |= {one.name for place, one in given.decided.hung.items() if place != spot}
    return {n for n, one in enumerate(given.weights) if one.name in barred | elsewhere}
