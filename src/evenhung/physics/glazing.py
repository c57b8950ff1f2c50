"""Glazing: the size of pane to order for a rebate, and the putty that holds it.

The tight size is from rebate to rebate; the pane is smaller by a clearance at each edge. Putty lies
behind the glass as a bed, round its edge in the clearance, and before it as a fillet that is a
triangle from the sight line to the arris of the rebate.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.physics.elementwise import larger

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real


def order_mm(*, sight_mm: Real, rebate_width_mm: Real, clearance_mm: Real) -> Real:
    """Give the width or height of pane to order [mm].

    Parameters
    ----------
    sight_mm
        From sight line to sight line [mm].
    rebate_width_mm
        How far each rebate reaches into the face [mm].
    clearance_mm
        Left between glass and rebate at each edge [mm].

    Returns
    -------
    Real
        Tight size less both clearances [mm].

    Examples
    --------
    >>> order_mm(sight_mm=250.0, rebate_width_mm=8.0, clearance_mm=2.0)
    262.0
    """
    return sight_mm + 2.0 * (rebate_width_mm - clearance_mm)


def putty_section_mm2(
    *,
    rebate_width_mm: Real,
    rebate_depth_mm: Real,
    glass_mm: Real,
    bed_mm: Real,
    clearance_mm: Real,
) -> Real:
    """Give the section of putty round a pane: bed, edge and fillet [mm2].

    Parameters
    ----------
    rebate_width_mm
        How far the rebate reaches into the face [mm].
    rebate_depth_mm
        How deep the rebate is [mm].
    glass_mm
        Thickness of the glass [mm].
    bed_mm
        Thickness of the bed behind the glass [mm].
    clearance_mm
        Left between glass and rebate at the edge [mm].

    Returns
    -------
    Real
        Section [mm2].

    Examples
    --------
    >>> putty_section_mm2(
    ...     rebate_width_mm=10.0, rebate_depth_mm=15.0, glass_mm=3.0, bed_mm=2.0, clearance_mm=2.0
    ... )
    76.0
    """
    fillet_mm = larger(0.0, rebate_depth_mm - glass_mm - bed_mm)
    return rebate_width_mm * (bed_mm + fillet_mm / 2.0) + clearance_mm * glass_mm


def putty_run_mm(*, width_mm: Real, height_mm: Real) -> Real:
    """Give the length of putty round a pane, on its outer face [mm].

    Parameters
    ----------
    width_mm, height_mm
        Of the pane [mm].

    Returns
    -------
    Real
        All four sides [mm].

    Examples
    --------
    >>> putty_run_mm(width_mm=262.0, height_mm=378.0)
    1280.0
    """
    return 2.0 * (width_mm + height_mm)
