"""The whole numbers that weights are allotted in: of mass, of length, of money."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import reduce
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable
    from decimal import Decimal

STEP_MM = 0.1
"""Lengths are rounded up to this, room for them down [mm]."""

FINEST_KG = Fraction(3, 1000)
"""Masses that have a common step no finer than this are reckoned exactly in it [kg]."""

COMMON_KG = Fraction(2, 1000)
"""Masses without one are rounded to this in a small house [kg]."""

COARSE_KG = Fraction(5, 1000)
"""The same in a large one, where the finer would take long [kg]."""

SMALL = 60
"""Greatest number of sashes of a small house."""

COARSEST_KG = Fraction(10, 1000)
"""A common step is divided until it is no coarser than this: new weights are made to it [kg]."""

SLACK_KG = 0.00005 + 1e-9
"""Limits are compared after rounding to a tenth of a gram, and are allowed themselves [kg]."""

MOST_PARTS = 2_000_000
"""The dearest thing costs no more parts of money than this, so that sums fit."""

FINEST_MONEY = Fraction(5, 10_000)
"""Part of the house's money that costs are reckoned in, where nothing is very dear."""


class Scales(NamedTuple):
    """How masses, lengths and money become whole numbers, and back."""

    tick_kg: Fraction
    is_exact: bool
    """Whether every mass is a whole number of ticks."""
    money: Fraction
    """One part, in the house's money."""

    def ticks(self, kg: Fraction) -> int:
        """Give a mass in ticks, the nearest."""
        return round(kg / self.tick_kg)

    def off_kg(self, masses_kg: Iterable[Fraction]) -> float:
        """Give the most by which one of some masses is out for being rounded [kg]."""
        outs = (abs(mass - self.ticks(mass) * self.tick_kg) for mass in masses_kg)
        return float(max(outs, default=Fraction(0)))

    def ticks_at_least(self, kg: float) -> int:
        """Give the least number of ticks that counts as no less than a mass."""
        return math.ceil((kg - SLACK_KG) / float(self.tick_kg))

    def ticks_at_most(self, kg: float) -> int:
        """Give the greatest number of ticks that counts as no more than a mass."""
        return math.floor((kg + SLACK_KG) / float(self.tick_kg))

    def kg(self, ticks: int) -> float:
        """Give so many ticks [kg]."""
        return float(ticks * self.tick_kg)

    def parts(self, amount: Decimal | Fraction) -> int:
        """Give an amount of the house's money in parts, the nearest."""
        return round(Fraction(amount) / self.money)

    def amount(self, parts: int) -> float:
        """Give so many parts in the house's money."""
        return float(parts * self.money)


def scales_for(masses_kg: Iterable[Fraction], dearest: Decimal, *, sashes: int = 1) -> Scales:
    """Choose scales in which masses are exact if they have a common step worth the name.

    Parameters
    ----------
    masses_kg
        Of the weights, the make-weights and the ready-made weights, as typed [kg].
    dearest
        The largest amount of money that will be reckoned with.
    sashes
        How many take part.

    Examples
    --------
    >>> from decimal import Decimal
    >>> pound = Fraction(45359237, 100_000_000)
    >>> scales = scales_for([9 * pound, pound / 16], Decimal(1000))
    >>> scales.is_exact, float(pound / scales.tick_kg)
    (True, 48.0)
    """
    common = reduce(_common_step, masses_kg, Fraction(0))
    money = max(FINEST_MONEY, Fraction(dearest) / MOST_PARTS)
    rounded = COMMON_KG if sashes <= SMALL else COARSE_KG
    if common == 0:
        return Scales(COARSE_KG, is_exact=True, money=money)
    if common < FINEST_KG:
        return Scales(rounded, is_exact=False, money=money)
    return Scales(common / math.ceil(common / COARSEST_KG), is_exact=True, money=money)


def _common_step(one: Fraction, other: Fraction) -> Fraction:
    below = math.lcm(one.denominator, other.denominator)
    return Fraction(math.gcd(int(one * below), int(other * below)), below)


def steps_up(mm: float) -> int:
    """Give a length in steps, rounded up."""
    return math.ceil(mm / STEP_MM - 1e-6)


def steps_down(mm: float) -> int:
    """Give a room in steps, rounded down."""
    return math.floor(mm / STEP_MM + 1e-6)
