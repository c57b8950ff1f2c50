"""Room in the box: a weight that turns on its cord, and two weights that pass each other."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.physics.elementwise import choose, smaller

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real, Truth

DIAGONAL = math.sqrt(2.0)
"""Diagonal of a square over its side."""


def turning_room_mm(
    *, across_mm: Real, is_square: Truth, compartment_width_mm: Real, compartment_depth_mm: Real
) -> Real:
    """Give the room a weight has to turn in its compartment [mm].

    Parameters
    ----------
    across_mm
        Diameter of a round weight, side of a square one [mm].
    is_square
        Whether the section is square [true or false].
    compartment_width_mm
        Width of the compartment for one weight [mm].
    compartment_depth_mm
        From the pulley stile to the back lining [mm].

    Returns
    -------
    Real
        Narrower way of the compartment less the widest the weight becomes as it turns: its diameter
        if round, its diagonal if square. Negative: its corners can catch [mm].

    Notes
    -----
    A weight hangs on one cord and turns as it pleases. This is why round weights run better than
    square ones of the same side: the square one sweeps a circle 1.41 times as wide.

    Examples
    --------
    >>> box = {"compartment_width_mm": 55.0, "compartment_depth_mm": 60.0}
    >>> turning_room_mm(across_mm=38.0, is_square=False, **box)
    17.0
    >>> round(turning_room_mm(across_mm=40.0, is_square=True, **box), 1)
    -1.6
    """
    swept = choose(is_square, across_mm * DIAGONAL, across_mm)
    return smaller(compartment_width_mm, compartment_depth_mm) - swept


def passing_room_mm(*, box_width_mm: Real, first_swept_mm: Real, second_swept_mm: Real) -> Real:
    """Give the room two weights leave each other where no parting slip divides the box [mm].

    Parameters
    ----------
    box_width_mm
        Width of the whole box, both compartments and the slip between [mm].
    first_swept_mm, second_swept_mm
        Widest that each weight becomes as it turns [mm].

    Returns
    -------
    Real
        Room beside both; negative where they can strike each other however they hang [mm].

    Examples
    --------
    >>> passing_room_mm(box_width_mm=120.0, first_swept_mm=38.0, second_swept_mm=45.0)
    37.0
    """
    return box_width_mm - first_swept_mm - second_swept_mm


def overlap_mm(
    *, first_low_mm: Real, first_high_mm: Real, second_low_mm: Real, second_high_mm: Real
) -> Real:
    """Give how much height two weights share over their whole runs [mm].

    Parameters
    ----------
    first_low_mm, first_high_mm
        Lowest and highest point that the first weight ever occupies [mm].
    second_low_mm, second_high_mm
        The same of the second [mm].

    Returns
    -------
    Real
        Shared height; zero or less where the two never come beside each other [mm].

    Examples
    --------
    >>> overlap_mm(
    ...     first_low_mm=70.0, first_high_mm=1440.0, second_low_mm=25.0, second_high_mm=1440.0
    ... )
    1370.0
    """
    top = smaller(first_high_mm, second_high_mm)
    bottom = -smaller(-first_low_mm, -second_low_mm)
    return top - bottom
