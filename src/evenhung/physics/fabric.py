"""Fabric: the volume of each member of a window, and how much of it stays.

A member is a prism, less its glazing rebates and its mouldings; both run as far as it meets glass.
Its length is taken from shoulder to shoulder, so that joints neither add nor remove timber.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.physics.elementwise import larger, smaller

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real


def member_mm3(
    *,
    length_mm: Real,
    section_mm2: Real,
    rebate_mm2: Real,
    rebated_mm: Real,
    moulding_mm2: Real,
    moulded_mm: Real,
) -> Real:
    """Give the volume of timber in one member [mm3].

    Parameters
    ----------
    length_mm
        From shoulder to shoulder [mm].
    section_mm2
        Its section before anything is cut from it [mm2].
    rebate_mm2
        Section of one rebate [mm2].
    rebated_mm
        Length of all its rebates together [mm].
    moulding_mm2
        Section that the moulding takes off one edge [mm2].
    moulded_mm
        Length of all its moulded edges together [mm].

    Returns
    -------
    Real
        Volume [mm3].

    Examples
    --------
    >>> member_mm3(
    ...     length_mm=800.0, section_mm2=2112.0, rebate_mm2=120.0, rebated_mm=700.0,
    ...     moulding_mm2=60.0, moulded_mm=690.0,
    ... )
    1564200.0
    """
    return length_mm * section_mm2 - rebate_mm2 * rebated_mm - moulding_mm2 * moulded_mm


def weathered_section_mm2(
    *, width_mm: Real, thickness_mm: Real, weathering_mm: Real, fall: Real
) -> Real:
    """Give the section of a sill whose top falls outwards over part of its width [mm2].

    Parameters
    ----------
    width_mm
        From inside to outside [mm].
    thickness_mm
        At its thickest [mm].
    weathering_mm
        How much of its width falls [mm].
    fall
        Drop over run of the weathering [1].

    Returns
    -------
    Real
        Section [mm2].

    Examples
    --------
    >>> weathered_section_mm2(width_mm=120.0, thickness_mm=70.0, weathering_mm=60.0, fall=0.1)
    8220.0
    """
    return width_mm * thickness_mm - weathering_mm * weathering_mm * fall / 2.0


def kept_mm3(*, whole_mm3: Real, lost_mm3: Real) -> Real:
    """Give what stays of a member [mm3].

    Parameters
    ----------
    whole_mm3
        The member as it is [mm3].
    lost_mm3
        What all its treatments together take away, which may overlap [mm3].

    Returns
    -------
    Real
        Volume that stays, never less than nothing [mm3].

    Examples
    --------
    >>> kept_mm3(whole_mm3=100.0, lost_mm3=130.0)
    0.0
    """
    return larger(0.0, whole_mm3 - lost_mm3)


def share_pct(*, kept: Real, whole: Real) -> Real:
    """Give a part of a whole in per cent [pct].

    Parameters
    ----------
    kept
        The part, in the unit of the whole [unit of both].
    whole
        The whole, more than 0 [unit of both].

    Returns
    -------
    Real
        Between 0 and 100 [pct].

    Examples
    --------
    >>> share_pct(kept=9.0, whole=10.0)
    90.0
    """
    return smaller(100.0, larger(0.0, 100.0 * kept / whole))
