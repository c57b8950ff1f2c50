"""The hang: what a pair of weights should come to, and what to add or take off each side.

The excess of a sash is its mass less the mass of its pair: positive where the sash is the heavier.
A lower sash wants a small positive excess, so that it stays down; an upper sash a small negative
one, so that it stays up. One signed excess serves both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics.elementwise import both, choose, larger, smaller

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real, Truth

RESOLUTION_KG = 0.0001
"""Masses are compared after rounding to a tenth of a gram, so that a limit met exactly is met."""


class Band(NamedTuple):
    """Least, best and most of one mass [kg]."""

    least: Real
    best: Real
    most: Real


class Change(NamedTuple):
    """What to add to each weight of a pair; negative is to take off [kg]."""

    left_kg: Real
    right_kg: Real


def usual_margin(
    *,
    mass_kg: Real,
    light_below_kg: float,
    heavy_above_kg: float,
    light: Band,
    middle: Band,
    heavy_pct: Band,
    heavy_cap_kg: float,
) -> Band:
    """Give how far pair and sash should differ where nobody has said [kg].

    Parameters
    ----------
    mass_kg
        Mass of the sash [kg].
    light_below_kg, heavy_above_kg
        A sash below the first is light, above the second heavy, else in the middle [kg].
    light, middle
        Margins of a light sash and of one in the middle [kg].
    heavy_pct
        Margins of a heavy sash, of its mass [pct].
    heavy_cap_kg
        No margin of a heavy sash is more than this [kg].

    Returns
    -------
    Band
        Least, best and most margin, all positive [kg].

    Notes
    -----
    Margins in per cent meet the cap one after the other as the sash grows heavier, and close to a
    point.

    Examples
    --------
    >>> usual_margin(
    ...     mass_kg=20.0, light_below_kg=5.0, heavy_above_kg=14.0, light=Band(0.2, 0.3, 0.4),
    ...     middle=Band(0.5, 0.6, 0.7), heavy_pct=Band(3, 4, 5), heavy_cap_kg=0.9,
    ... )
    Band(least=0.6, best=0.8, most=0.9)
    """
    slack, margins = RESOLUTION_KG / 2.0, []
    for light_kg, middle_kg, pct in zip(light, middle, heavy_pct, strict=True):
        heavy_kg = smaller(pct * mass_kg / 100.0, heavy_cap_kg)
        settled = choose(mass_kg > heavy_above_kg + slack, heavy_kg, middle_kg)
        margin_kg = choose(mass_kg < light_below_kg - slack, light_kg, settled)
        margins.append(margin_kg + 0.0 * mass_kg)  # of a mass that is not known, not known
    return Band(*margins)


def pair_for(*, mass_kg: Real, excess: Band) -> Band:
    """Give the mass the two weights together should have [kg].

    Parameters
    ----------
    mass_kg
        Mass of the sash as it will be hung [kg].
    excess
        Least, best and most excess, signed: negative where the pair should be the heavier [kg].

    Returns
    -------
    Band
        Least, best and most mass of the pair [kg].

    Examples
    --------
    A lower sash of 11 lb, one to one and a half pounds heavier than its pair (here in lb):

    >>> pair_for(mass_kg=11.0, excess=Band(1.0, 1.25, 1.5))
    Band(least=9.5, best=9.75, most=10.0)
    """
    return Band(mass_kg - excess.most, mass_kg - excess.best, mass_kg - excess.least)


def is_true(*, left_kg: Real, right_kg: Real, pair: Band, difference_kg: Real) -> Truth:
    """Tell whether a pair is within its band and its weights alike [true or false].

    Parameters
    ----------
    left_kg, right_kg
        Mass of each weight, make-weights included [kg].
    pair
        The band the pair should be in [kg].
    difference_kg
        The most that left and right may differ [kg].

    Returns
    -------
    Truth
        True where both hold; limits are inclusive, to a tenth of a gram. False where a mass is nan
        [true or false].

    Examples
    --------
    >>> is_true(left_kg=5.0, right_kg=5.0, pair=Band(9.5, 9.75, 10.0), difference_kg=0.25)
    True
    """
    slack = RESOLUTION_KG / 2.0
    total = left_kg + right_kg
    apart = larger(left_kg, right_kg) - smaller(left_kg, right_kg)
    inside = both(total >= pair.least - slack, total <= pair.most + slack)
    return both(inside, apart <= difference_kg + slack)


def change_to_true(*, left_kg: Real, right_kg: Real, pair: Band, difference_kg: Real) -> Change:
    """Give what to add to each side, or take off it, so that the pair comes right [kg].

    Parameters
    ----------
    left_kg, right_kg
        Mass of each weight as found [kg].
    pair
        The band the pair should be in [kg].
    difference_kg
        The most that left and right may differ [kg].

    Returns
    -------
    Change
        Nothing where the pair is true already; otherwise additions where additions can do it;
        only else is anything taken off [kg].

    Notes
    -----
    In this order: bring both sides up to half of the best; or leave the heavier side and bring the
    other up to it; or leave the heavier side and bring the other as far as the pair's most allows,
    if that leaves the two alike enough; or take the heavier side down to the other, if two such are
    within the band; or bring both to half of the best, which takes off the heavier side.
    What is taken off is then not the least that would do: it comes to the best, not to the most.
    The two differ by no more than the larger of `difference_kg` and the pair's most less its best
    (agreement test against every change in quarter ounces).

    Examples
    --------
    >>> change_to_true(left_kg=4.0, right_kg=4.5, pair=Band(9.5, 9.75, 10.0), difference_kg=0.25)
    Change(left_kg=0.875, right_kg=0.375)
    """
    heavier, lighter = larger(left_kg, right_kg), smaller(left_kg, right_kg)
    slack = RESOLUTION_KG / 2.0
    half = pair.best / 2.0 + 0.0 * heavier  # of a weight that is not known, not known
    room = pair.most - heavier
    topped_up = both(room >= heavier - difference_kg - slack, room >= lighter - slack)
    to_heavier = choose(heavier <= half, half, heavier)
    to_lighter = choose(heavier <= half, half, smaller(heavier, room))
    keeps_heavier = (heavier <= half) | topped_up
    pair_of_lighter = both(lighter > half, 2.0 * lighter <= pair.most + slack)
    taken_to = choose(pair_of_lighter, lighter, half)
    new_heavier = choose(keeps_heavier, to_heavier, taken_to)
    new_lighter = choose(keeps_heavier, to_lighter, taken_to)
    left_is_heavier = left_kg >= right_kg
    left = choose(left_is_heavier, new_heavier, new_lighter) - left_kg
    right = choose(left_is_heavier, new_lighter, new_heavier) - right_kg
    fine = is_true(left_kg=left_kg, right_kg=right_kg, pair=pair, difference_kg=difference_kg)
    return Change(choose(fine, 0.0, left), choose(fine, 0.0, right))
