"""The problem: sashes, weights, and what it costs to make a pair of weights serve a sash.

Everything is a whole number in units of the caller's choosing: a tick of mass, a step of length, a
cent of money. An instance of the form that ``benchmarks/`` reads has ticks of 0.05 lb, sixteenths
of an inch and cents.
A place is a sash's left (0) or right (1) side. Sashes and weights are known by their position.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """A range, both ends allowed."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Sash:
    """A sash to be served by a pair of weights."""

    mass: int
    """[tick]"""
    accept: Band
    """What the pair may exceed the sash by; negative is lighter than the sash [tick]."""
    ideal: Band
    """What the pair may exceed the sash by without penalty [tick]."""
    longest: tuple[int, int]
    """Greatest length of what hangs at its left and at its right [step]."""
    barred: tuple[frozenset[int], frozenset[int]] = (frozenset(), frozenset())
    """Sources that may not hang at its left and at its right: see `Problem`."""
    apart: int | None = None
    """Greatest difference between its left and right; None as the rules have it, never more."""


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight that is there already."""

    mass: int
    """[tick]"""
    length: int
    """Overall hanging length [step]."""
    home: tuple[int, int] | None
    """Sash and side where it was found; None where it lay loose."""
    cost: int = 0
    """What hanging it costs besides a move: one that is bought only if it serves [cent]."""
    is_final: bool = False
    """Whether nothing may be added to it or taken off."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A size of make-weight, of which there are enough."""

    mass: int
    """[tick]"""
    length: int
    """What it adds to the length [step]."""
    cost: int
    """[cent]"""


@dataclass(frozen=True, slots=True)
class Trim:
    """Taking off part of a weight; what is left is shorter in proportion."""

    fixed: int
    """[cent]"""
    per_tick: int
    """[cent per tick taken off]"""
    most: tuple[int, int]
    """Greatest part of the weight that may come off, as numerator and denominator."""


@dataclass(frozen=True, slots=True)
class NewMetal:
    """New weights of one metal, of any mass."""

    name: str
    fixed: int
    """[cent]"""
    per_tick: int
    """[cent per tick]"""
    length: tuple[int, int]
    """Length for its mass, as numerator and denominator [step per tick]."""
    length_more: int
    """What is added to that length: the eye [step]."""
    most: int | None = None
    """Greatest mass of one; None for any [tick]."""


@dataclass(frozen=True, slots=True)
class ReadyMade:
    """A weight that can be had as it is, as many as are wanted."""

    name: str
    mass: int
    """[tick]"""
    length: int
    """[step]"""
    cost: int
    """[cent]"""


@dataclass(frozen=True, slots=True)
class Rules:
    """What holds for every sash, and what things cost."""

    most_difference: int
    """Greatest difference between left and right [tick]."""
    unserved: int
    """Cost of a sash left without a pair [cent]."""
    off_fixed: int
    """Cost of a pair that is accepted but not ideal [cent]."""
    off_per_tick: int
    """Further cost of each tick outside the ideal [cent per tick]."""
    move: int
    """Cost of hanging a weight anywhere but at its home [cent]."""
    pieces: tuple[Piece, ...]
    most_pieces: int
    """Greatest number of pieces on one weight."""
    trim: Trim | None
    """None where no weight may be trimmed."""
    metals: tuple[NewMetal, ...]
    ready: tuple[ReadyMade, ...] = ()

    def dearest_new(self, mass: int) -> int:
        """Give what a new weight costs in the dearest metal; 0 where there is no metal."""
        return max((metal.fixed + metal.per_tick * mass for metal in self.metals), default=0)


@dataclass(frozen=True, slots=True)
class Problem:
    """Which weights hang where, at least cost.

    What hangs at a side comes from a source: a weight, known by its position; or, counted on after
    the last weight, a metal of which new ones are made; or, after the last metal, a ready-made one.
    """

    rules: Rules
    sashes: tuple[Sash, ...]
    weights: tuple[Weight, ...]

    def source_named(self, name: str) -> int:
        """Give the source of new weights of some name: a metal or a ready-made one."""
        return len(self.weights) + [new.name for new in self.news()].index(name)

    def news(self) -> tuple[NewMetal | ReadyMade, ...]:
        """Give what new weights can be, in the order of their sources."""
        return *self.rules.metals, *self.rules.ready


def penalty(rules: Rules, sash: Sash, left: int, right: int) -> int | None:
    """Give what a pair costs for its masses alone [cent]; None where it is not accepted.

    Parameters
    ----------
    rules
        The rules of the problem.
    sash
        The sash.
    left, right
        What hangs at either side [tick].

    Examples
    --------
    >>> rules = Rules(5, 50000, 400, 60, 25, (), 0, None, ())
    >>> sash = Sash(400, Band(-40, -10), Band(-30, -20), (300, 300))
    >>> [penalty(rules, sash, 188, right) for right in (192, 193, 194)]
    [0, 460, None]
    """
    excess = left + right - sash.mass
    apart = rules.most_difference if sash.apart is None else sash.apart
    if abs(left - right) > apart:
        return None
    if not sash.accept.least <= excess <= sash.accept.most:
        return None
    off = max(sash.ideal.least - excess, excess - sash.ideal.most, 0)
    return rules.off_fixed + rules.off_per_tick * off if off else 0
