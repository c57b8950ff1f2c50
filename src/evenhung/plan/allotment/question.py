"""The question put to `evenhung.allot`: a house's sashes and weights in whole numbers."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import combinations_with_replacement
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
from evenhung.plan.allotment.places import Asked, Place, is_true, places_of, refused_at
from evenhung.plan.allotment.scales import Scales, scales_for, steps_down, steps_up
from evenhung.plan.assumed import assumed
from evenhung.plan.proposal import bar_length_mm

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

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
    ready: tuple[MadeUp, ...]
    """Ready-made weights of which there are enough, with every choice of make-weights."""
    at_home_parts: int
    """What all weights that have a home would be worth there; part of every cost."""


class MadeUp(NamedTuple):
    """A ready-made weight and the make-weights on it."""

    one: StockReadyMade
    pieces: tuple[int, ...]
    """How many of each size."""


class Given(NamedTuple):
    """What a question is made from."""

    sashes: Sequence[Asked]
    weights: Sequence[Candidate]
    stock: Stock
    policy: Policy
    decided: Decided
    worths: Worths
    scale_sd_kg: float
    strict: frozenset[str] = frozenset()
    """Names of sashes whose pair as found has no leave to be as it is: see `_leave_for`."""


def question_of(given: Given) -> Question:
    """Put the question."""
    stock = given.stock
    ready = tuple(_made_up(stock))
    masses = [
        *(weight.kg for weight in given.weights),
        *(piece.mass.exact for piece in stock.make_weight),
        *(one.one.mass.exact for one in ready),
    ]
    scales = scales_for(masses, _dearest(given), sashes=len(given.sashes))
    places = tuple(places_of(*sash) for sash in given.sashes)
    weights = tuple(_weight(weight, given, scales) for weight in given.weights)
    sashes = tuple(
        _sash(sash, both, given, scales, ready)
        for sash, both in zip(given.sashes, places, strict=True)
    )
    rules = _rules(given, ready, scales)
    widest = max([rules.most_difference, *(sash.apart or 0 for sash in sashes)])
    rules = replace(rules, most_difference=widest)
    homed = sum(weight.home is not None for weight in weights)
    return Question(
        Problem(rules, sashes, weights),
        scales,
        tuple(given.sashes),
        places,
        tuple(given.weights),
        stock.bar,
        ready,
        homed * rules.move,
    )


def most_pieces(stock: Stock) -> int:
    """Give how many make-weights may be on one weight."""
    if not stock.make_weight:
        return 0
    if stock.most_pieces is not None:
        return stock.most_pieces
    return round(assumed("policy/stock/most_pieces").value)


def _made_up(stock: Stock) -> Iterator[MadeUp]:
    sizes = range(len(stock.make_weight))
    for one in stock.ready_made:
        if one.count is not None:
            continue
        for number in range(most_pieces(stock) + 1):
            for chosen in combinations_with_replacement(sizes, number):
                counts = Counter(chosen)
                yield MadeUp(one, tuple(counts[size] for size in sizes))


def _dearest(given: Given) -> Decimal:
    worths, stock = given.worths, given.stock
    prices = [one.price.amount for one in stock.make_weight if one.price]
    prices += [one.price.amount for one in stock.ready_made if one.price]
    prices += [one.making.amount for one in stock.bar if one.making]
    return max([worths.serve, worths.whole, worths.home, worths.new, Decimal(1), *prices])


def _rules(given: Given, ready: Sequence[MadeUp], scales: Scales) -> Rules:
    stock, worths = given.stock, given.worths
    pieces = _pieces(stock, worths, scales)
    most_off = assumed("policy/make-weight/take_off_most_pct").value
    trim = Trim(scales.parts(worths.whole), 0, (round(most_off), 100))
    return Rules(
        most_difference=_most_difference(given, scales),
        unserved=scales.parts(worths.serve),
        off_fixed=0,
        off_per_tick=scales.parts(Fraction(worths.near) * scales.tick_kg),
        move=scales.parts(worths.home),
        pieces=pieces,
        most_pieces=most_pieces(stock),
        trim=trim if given.policy.trim == "yes" else None,
        metals=tuple(_metal(bar, n, worths, scales) for n, bar in enumerate(stock.bar)),
        ready=tuple(_ready(n, one, worths, pieces, scales) for n, one in enumerate(ready)),
    )


def _pieces(stock: Stock, worths: Worths, scales: Scales) -> tuple[Piece, ...]:
    return tuple(
        Piece(
            scales.ticks(one.mass.exact),
            steps_up(one.length.mm),
            scales.parts(worths.make_weight + (one.price.amount if one.price else 0)),
        )
        for one in stock.make_weight
    )


def _most_difference(given: Given, scales: Scales) -> int:
    """All sashes of a house share it: it is the house's policy."""
    allowed = [sash.found.inputs.difference_kg for sash in given.sashes]
    kept = _rounding_kg(given, scales)
    if given.policy.allow_for_error == "yes":
        kept += _deviations() * math.sqrt(2.0) * given.scale_sd_kg
    return max(0, scales.ticks_at_most(min(allowed, default=0.0) - kept))


def _deviations() -> float:
    return assumed("policy/allow for error/deviations").value


def _rounding_kg(given: Given, scales: Scales) -> float:
    """Give the most by which a pair may be out for being reckoned in ticks."""
    weights = scales.off_kg(weight.kg for weight in given.weights)
    pieces = scales.off_kg(piece.mass.exact for piece in given.stock.make_weight)
    ready = scales.off_kg(one.mass.exact for one in given.stock.ready_made)
    return 2.0 * (max(weights, ready) + most_pieces(given.stock) * pieces)


def _metal(bar: Bar, number: int, worths: Worths, scales: Scales) -> NewMetal:
    length_mm = bar_length_mm(1.0, bar.diameter.mm, bar.section == "square", bar.metal)
    bar_kg = bar.length.mm / length_mm
    price = Fraction(bar.price.amount) if bar.price else Fraction(0)
    making = bar.making.amount if bar.making else Decimal(0)
    per_tick = round(price / Fraction(bar_kg) * scales.tick_kg / scales.money)
    steps = Fraction(length_mm * 10.0 * float(scales.tick_kg)).limit_denominator(10_000)
    eye = steps_up(bar.eye.mm) if bar.eye else 0
    heaviest = scales.ticks_at_most(bar_kg)
    return NewMetal(
        f"bar {number}",
        scales.parts(worths.new + making),
        per_tick,
        (steps.numerator, steps.denominator),
        eye,
        heaviest,
    )


def _ready(
    number: int, made: MadeUp, worths: Worths, pieces: Sequence[Piece], scales: Scales
) -> ReadyMade:
    one = made.one
    added = [(count, piece) for count, piece in zip(made.pieces, pieces, strict=True) if count]
    price = one.price.amount if one.price else Decimal(0)
    return ReadyMade(
        f"ready-made {number}",
        scales.ticks(one.mass.exact) + sum(count * piece.mass for count, piece in added),
        steps_up(one.length.mm) + sum(count * piece.length for count, piece in added),
        scales.parts(worths.new + price) + sum(count * piece.cost for count, piece in added),
    )


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
    return Weight(scales.ticks(weight.kg), length, home, cost, weight.is_hung)


def _sash(
    sash: Asked,
    places: tuple[Place, Place],
    given: Given,
    scales: Scales,
    ready: Sequence[MadeUp],
) -> Sash:
    hang = sash.found.hang
    kept = _rounding_kg(given, scales)
    if given.policy.allow_for_error == "yes":
        spread = math.hypot(sash.plan.mass.deviation_kg, math.sqrt(2.0) * given.scale_sd_kg)
        kept += _deviations() * spread
    least = scales.ticks_at_least(hang.pair_least_kg + kept)
    most = scales.ticks_at_most(hang.pair_most_kg - kept)
    best = scales.ticks(Fraction(hang.pair_best_kg))
    apart = _most_difference(given, scales)
    leave = _leave_for(sash, given, scales)
    if leave is not None:
        least, most = min(least, sum(leave)), max(most, sum(leave))
        apart = max(apart, abs(leave[0] - leave[1]))
    heaviest_kg = (hang.pair_most_kg + sash.found.inputs.difference_kg) / 2.0
    left, right = (_barred(place, given, ready, heaviest_kg) for place in places)
    if least > most:  # no whole number of ticks is within its limits: nothing may hang here
        left = right = frozenset(range(len(given.weights) + len(given.stock.bar) + len(ready)))
    accept = Band(least - best, max(least, most) - best)
    limits = (_limit(places[0]), _limit(places[1]))
    return Sash(best, accept, Band(0, 0), limits, (left, right), apart)


def _leave_for(sash: Asked, given: Given, scales: Scales) -> tuple[int, int] | None:
    """Give the ticks of a pair that hangs true as found, which rounding must not disturb.

    What else is let in by that is held against its limits afterwards, by the masses themselves.
    """
    if scales.is_exact or given.policy.allow_for_error == "yes" or sash.name in given.strict:
        return None
    found = sash.plan.sash
    if not (found.left and found.right and found.left.weighed and found.right.weighed):
        return None
    left, right = found.left.weighed, found.right.weighed
    if not is_true(sash.found, left.kg, right.kg):
        return None
    return scales.ticks(left.exact), scales.ticks(right.exact)


def _limit(place: Place) -> int:
    return max(0, min(NO_MORE, steps_down(place.longest_mm)))


def _barred(
    place: Place, given: Given, ready: Sequence[MadeUp], heaviest_kg: float
) -> frozenset[int]:
    """Give the sources that have no business at a place."""
    spot, weights = spot_of(place.sash, place.side), given.weights
    count, bars = len(weights), len(given.stock.bar)
    held = given.decided.held.get(spot)
    if spot in given.decided.hung:
        held = given.decided.hung[spot].name
    if held is not None:
        others = (n for n, one in enumerate(weights) if one.bought or one.name != held)
        return frozenset(others) | frozenset(range(count, count + bars + len(ready)))
    refused = set(refused_at(place, weights, given.policy))
    refused |= _decided_against(spot, given)
    for number, bar in enumerate(given.stock.bar):
        length = bar_length_mm(heaviest_kg, bar.diameter.mm, bar.section == "square", bar.metal)
        whole = length + (bar.eye.mm if bar.eye else 0.0)
        if place.shuts_out(min(whole, bar.length.mm), bar.diameter.mm):
            refused.add(count + number)
    for number, made in enumerate(ready, count + bars):
        across = made.one.diameter.mm if made.one.diameter else math.nan
        if place.shuts_out(made.one.length.mm, across):
            refused.add(number)
    return frozenset(refused)


def _decided_against(spot: Spot, given: Given) -> set[int]:
    """Give the weights that are barred here, or held for another place."""
    barred = given.decided.barred.get(spot, set())
    elsewhere = {name for place, name in given.decided.held.items() if place != spot}
    elsewhere |= {one.name for place, one in given.decided.hung.items() if place != spot}
    names = barred | elsewhere
    return {n for n, one in enumerate(given.weights) if not one.bought and one.name in names}
