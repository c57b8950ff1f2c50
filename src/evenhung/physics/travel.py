"""Travel: how long the cord must be so that no weight bottoms out or jams at the pulley.

Heights run up from the sill. A cord runs from its end in the sash's groove (height E) up to the
wheel, half round it, and down to the top of the weight (height Z); the axle stands at height Y, the
cord's centre line lies at radius r about it, and the box bottom is at B, which may be below the
sill.
Neither cord stretches in these formulas: a working length is the length under load.

    Z = 2 Y + pi r - E - working length,    as long as E <= Y
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.physics.elementwise import larger

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real


def cord_radius_mm(*, wheel_mm: Real, cord_mm: Real) -> Real:
    """Give the radius at which the cord's centre line rides on the wheel [mm].

    Parameters
    ----------
    wheel_mm
        Diameter of the wheel at the bottom of its groove [mm].
    cord_mm
        Diameter of the cord [mm].

    Returns
    -------
    Real
        Half of the two together [mm].

    Examples
    --------
    >>> cord_radius_mm(wheel_mm=44.0, cord_mm=6.0)
    25.0
    """
    return (wheel_mm + cord_mm) / 2.0


def weight_top_mm(*, axle_mm: Real, radius_mm: Real, cord_end_mm: Real, working_mm: Real) -> Real:
    """Give the height of the top of the weight above the sill [mm].

    Parameters
    ----------
    axle_mm
        Height of the pulley's axle above the sill [mm].
    radius_mm
        Radius of the cord's centre line about the axle [mm].
    cord_end_mm
        Height of the cord's end in the sash above the sill, at this place of the sash [mm].
    working_mm
        Cord from its end in the sash, over the wheel, to the top of the weight, under load [mm].

    Returns
    -------
    Real
        Height of the top of the weight [mm].

    Notes
    -----
    ``Z = 2 Y + pi r - E - l``: what is not on the sash's side or on the wheel hangs on the weight's
    side.
    Valid while the cord's end is not above the axle.

    Examples
    --------
    >>> top = weight_top_mm(axle_mm=1560.0, radius_mm=25.0, cord_end_mm=580.0, working_mm=1200.0)
    >>> round(top, 1)
    1418.5
    """
    return 2.0 * axle_mm + math.pi * radius_mm - cord_end_mm - working_mm


def least_working_mm(
    *,
    axle_mm: Real,
    radius_mm: Real,
    cord_end_lowest_mm: Real,
    case_below_axle_mm: Real,
    pulley_clearance_mm: Real,
    knot_mm: Real,
) -> Real:
    """Give the shortest cord with which the knot stays clear of the pulley [mm].

    Parameters
    ----------
    axle_mm, radius_mm
        Height of the axle above the sill, radius of the cord's centre line [mm].
    cord_end_lowest_mm
        Height of the cord's end with the sash at its lowest, when the weight is highest [mm].
    case_below_axle_mm
        From the axle down to the lowest point of the pulley's case [mm].
    pulley_clearance_mm
        What the knot shall stay below the case [mm].
    knot_mm
        Height of the settled knot above the top of the weight [mm].

    Returns
    -------
    Real
        Least working length; any shorter and the weight jams at the pulley [mm].

    Notes
    -----
    From ``Z + k <= Y - q - clearance`` at the sash's lowest.

    Examples
    --------
    >>> least = least_working_mm(
    ...     axle_mm=1560.0, radius_mm=25.0, cord_end_lowest_mm=580.0,
    ...     case_below_axle_mm=37.0, pulley_clearance_mm=40.0, knot_mm=40.0,
    ... )
    >>> round(least, 1)
    1175.5
    """
    reach = axle_mm + math.pi * radius_mm - cord_end_lowest_mm
    return reach + case_below_axle_mm + pulley_clearance_mm + knot_mm


def most_working_mm(
    *,
    axle_mm: Real,
    radius_mm: Real,
    cord_end_highest_mm: Real,
    box_bottom_mm: Real,
    bottom_clearance_mm: Real,
    weight_length_mm: Real,
) -> Real:
    """Give the longest cord with which the weight stays clear of the bottom of the box [mm].

    Parameters
    ----------
    axle_mm, radius_mm
        Height of the axle above the sill, radius of the cord's centre line [mm].
    cord_end_highest_mm
        Height of the cord's end with the sash at its highest, when the weight is lowest [mm].
    box_bottom_mm
        Height of the bottom of the box above the sill; negative below it [mm].
    bottom_clearance_mm
        What the weight shall stay above the bottom of the box [mm].
    weight_length_mm
        Overall hanging length of the weight with its make-weights [mm].

    Returns
    -------
    Real
        Most working length; any longer and the weight bottoms out [mm].

    Notes
    -----
    From ``Z - L >= B + clearance`` at the sash's highest.

    Examples
    --------
    >>> most = most_working_mm(
    ...     axle_mm=1560.0, radius_mm=25.0, cord_end_highest_mm=1390.0,
    ...     box_bottom_mm=15.0, bottom_clearance_mm=55.0, weight_length_mm=542.0,
    ... )
    >>> round(most, 1)
    1196.5
    """
    reach = 2.0 * axle_mm + math.pi * radius_mm - cord_end_highest_mm
    return reach - box_bottom_mm - bottom_clearance_mm - weight_length_mm


def pulley_clear_mm(
    *, axle_mm: Real, case_below_axle_mm: Real, weight_top_mm: Real, knot_mm: Real
) -> Real:
    """Give the room left between knot and pulley case [mm].

    Parameters
    ----------
    axle_mm
        Height of the axle above the sill [mm].
    case_below_axle_mm
        From the axle down to the lowest point of the case [mm].
    weight_top_mm
        Height of the top of the weight, taken with the sash at its lowest [mm].
    knot_mm
        Height of the knot above the top of the weight [mm].

    Returns
    -------
    Real
        Room; negative where the knot has run into the case [mm].

    Examples
    --------
    >>> pulley_clear_mm(axle_mm=1560.0, case_below_axle_mm=37.0, weight_top_mm=1443.0, knot_mm=40.0)
    40.0
    """
    return axle_mm - case_below_axle_mm - weight_top_mm - knot_mm


def bottom_clear_mm(*, weight_top_mm: Real, weight_length_mm: Real, box_bottom_mm: Real) -> Real:
    """Give the room left between weight and box bottom [mm].

    Parameters
    ----------
    weight_top_mm
        Height of the top of the weight, taken with the sash at its highest [mm].
    weight_length_mm
        Overall hanging length of the weight [mm].
    box_bottom_mm
        Height of the bottom of the box above the sill [mm].

    Returns
    -------
    Real
        Room; negative where the weight has run out of box [mm].

    Examples
    --------
    >>> bottom_clear_mm(weight_top_mm=612.0, weight_length_mm=542.0, box_bottom_mm=15.0)
    55.0
    """
    return weight_top_mm - weight_length_mm - box_bottom_mm


def longest_weight_mm(
    *,
    weight_space_mm: Real,
    travel_mm: Real,
    case_below_axle_mm: Real,
    pulley_clearance_mm: Real,
    knot_mm: Real,
    bottom_clearance_mm: Real,
) -> Real:
    """Give the longest weight for which any cord will do [mm].

    Parameters
    ----------
    weight_space_mm
        From the bottom of the box up to the axle [mm].
    travel_mm
        How far the sash runs [mm].
    case_below_axle_mm
        From the axle down to the lowest point of the case [mm].
    pulley_clearance_mm
        What the knot shall stay below the case [mm].
    knot_mm
        Height of the knot above the top of the weight [mm].
    bottom_clearance_mm
        What the weight shall stay above the bottom of the box [mm].

    Returns
    -------
    Real
        Longest weight; zero or less where no weight can serve this travel [mm].

    Notes
    -----
    The band of working lengths is empty exactly where the weight is longer than this: the weight
    runs as far as the sash does, and the box must hold its length besides.

    Examples
    --------
    >>> longest_weight_mm(weight_space_mm=1545.0, travel_mm=810.0, case_below_axle_mm=37.0,
    ...     pulley_clearance_mm=40.0, knot_mm=40.0, bottom_clearance_mm=55.0)
    563.0
    """
    held = case_below_axle_mm + pulley_clearance_mm + knot_mm + bottom_clearance_mm
    return weight_space_mm - held - travel_mm


def slack_length_mm(*, working_mm: Real, nailed_mm: Real, stretch_pct: Real) -> Real:
    """Give the length that a working length has before the sash hangs on it [mm].

    Parameters
    ----------
    working_mm
        Working length, under load [mm].
    nailed_mm
        How much of it lies nailed in the groove, where it cannot stretch [mm].
    stretch_pct
        Stretch of the free cord under its working load [pct].

    Returns
    -------
    Real
        The same piece of cord, slack [mm].

    Examples
    --------
    >>> slack_length_mm(working_mm=1160.0, nailed_mm=150.0, stretch_pct=1.0)
    1150.0
    """
    return (working_mm - nailed_mm) / (1.0 + stretch_pct / 100.0) + nailed_mm


def least_top_nail_mm(*, pulley_drop_mm: Real, gap_mm: Real, margin_mm: Real) -> Real:
    """Give how far down the stile the top nail must be for the sash to reach its highest [mm].

    Parameters
    ----------
    pulley_drop_mm
        From the head down to the axle [mm].
    gap_mm
        From the head down to the top of the sash at its highest [mm].
    margin_mm
        What the nail shall stay below the axle [mm].

    Returns
    -------
    Real
        Least distance of the top nail below the top of the sash [mm].

    Notes
    -----
    The cord leaves the groove at its top nail. A nail that rises past the axle takes the cord up
    with it: an upper sash cannot close, a lower one cannot be fully raised.

    Examples
    --------
    >>> least_top_nail_mm(pulley_drop_mm=90.0, gap_mm=0.0, margin_mm=10.0)
    100.0
    """
    return larger(0.0 * pulley_drop_mm, pulley_drop_mm - gap_mm) + margin_mm


def nail_room_mm(*, stile_mm: Real, groove_depth_mm: Real, rebate_width_mm: Real) -> Real:
    """Give the timber a cord nail may go into before it comes to the glass [mm].

    Parameters
    ----------
    stile_mm
        Face width of the stile, edge to sight line [mm].
    groove_depth_mm
        Depth of the cord groove in the stile's edge [mm].
    rebate_width_mm
        How far the glazing rebate reaches into the face of the stile [mm].

    Returns
    -------
    Real
        Timber left between the bottom of the groove and the rebate [mm].

    Examples
    --------
    >>> nail_room_mm(stile_mm=48.0, groove_depth_mm=13.0, rebate_width_mm=8.0)
    27.0
    """
    return stile_mm - groove_depth_mm - rebate_width_mm
