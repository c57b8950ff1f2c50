"""Splices: new timber let into old along a slope, and how much joint a slope gives.

A slope is the run along the grain over the rise across it: 10 is one in ten. A splice at the end of
a member has one sloped end, a splice in its middle two.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real


def length_mm(*, across_mm: Real, slope: Real) -> Real:
    """Give how far a scarf runs along a member [mm].

    Parameters
    ----------
    across_mm
        The size of the member that the scarf crosses [mm].
    slope
        Run over rise [1].

    Returns
    -------
    Real
        Length of the sloped cut along the grain [mm].

    Examples
    --------
    >>> length_mm(across_mm=44.0, slope=10.0)
    440.0
    """
    return across_mm * slope


def glue_area_mm2(*, section_mm2: Real, slope: Real) -> Real:
    """Give the area of a scarf's joint [mm2].

    Parameters
    ----------
    section_mm2
        Section of the member, square to the grain [mm2].
    slope
        Run over rise; 0 is a butt joint [1].

    Returns
    -------
    Real
        The section over the sine of the angle between joint and grain [mm2].

    Notes
    -----
    ``sin(atan(1 / slope)) = 1 / sqrt(1 + slope^2)``.

    Sources
    -------
    FPL-GTR-190 : p. 10-17, which asks for a joint of ten times the section or more.

    Examples
    --------
    >>> round(glue_area_mm2(section_mm2=2000.0, slope=10.0))
    20100
    """
    return section_mm2 * (1.0 + slope**2) ** 0.5


def least_slope(*, area_ratio: Real) -> Real:
    """Give the steepest slope whose joint is so many times the section [1].

    Parameters
    ----------
    area_ratio
        Area of the joint over the section, 1 or more [1].

    Returns
    -------
    Real
        Run over rise [1].

    Examples
    --------
    >>> round(least_slope(area_ratio=10.0), 2)
    9.95
    """
    return (area_ratio**2 - 1.0) ** 0.5


def piece_mm(*, decay_mm: Real, beyond_mm: Real, scarf_mm: Real, ends: Real) -> Real:
    """Give the length of new timber that a splice takes, point to point [mm].

    Parameters
    ----------
    decay_mm
        How far the decay goes along the member [mm].
    beyond_mm
        Sound timber that is cut away beyond the decay, at each sloped end [mm].
    scarf_mm
        Length of the scarf [mm].
    ends
        Sloped ends: 1 at the end of a member, 2 in its middle [1].

    Returns
    -------
    Real
        Overall length of the new piece before its ends are trimmed [mm].

    Examples
    --------
    >>> piece_mm(decay_mm=120.0, beyond_mm=50.0, scarf_mm=440.0, ends=1.0)
    610.0
    """
    return decay_mm + ends * (beyond_mm + scarf_mm)


def replaced_mm3(
    *, section_mm2: Real, decay_mm: Real, beyond_mm: Real, scarf_mm: Real, ends: Real
) -> Real:
    """Give the volume of old timber that a splice takes away, and new timber puts in [mm3].

    Parameters
    ----------
    section_mm2
        What is cut away, square to the grain: the member, or as much of it as is let in [mm2].
    decay_mm
        How far the decay goes along the member [mm].
    beyond_mm
        Sound timber that is cut away beyond the decay, at each sloped end [mm].
    scarf_mm
        Length of the scarf [mm].
    ends
        Sloped ends: 1 at the end of a member, 2 in its middle [1].

    Returns
    -------
    Real
        Volume; a sloped end counts half, for half of its block stays [mm3].

    Examples
    --------
    >>> replaced_mm3(
    ...     section_mm2=2000.0, decay_mm=120.0, beyond_mm=50.0, scarf_mm=440.0, ends=1.0
    ... )
    780000.0
    """
    return section_mm2 * (decay_mm + ends * (beyond_mm + scarf_mm / 2.0))
