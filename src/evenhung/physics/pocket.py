"""The pocket: whether a weight goes in through the hole it must go in by.

A weight is a rectangle L long and d across, moved in the upright plane square to the pulley stile.
The stile is a wall s thick with an opening p high; behind it the box is b deep and as tall as need
be.
The weight goes in level and tips up as its leading end meets the back lining, until it stands in
the box.
"""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

from evenhung.physics.elementwise import arccosine, choose, cosine, larger, sine, smaller

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.physics.elementwise import Real

FLATTEST_RAD = 1e-4
"""Flattest angle tried: level itself leaves one of the three forms as nought over nought."""
COARSE_STEPS = 24
"""Angles tried over the whole motion before closing in on the tightest."""
FINE_STEPS = 4
"""Angles tried to either side of the tightest so far, each time the search closes in."""
CLOSINGS = 6
"""How often it closes in: each time to the reach of one step."""


def opening_at_angle_mm(
    *, angle_rad: Real, length_mm: Real, across_mm: Real, wall_mm: Real, depth_mm: Real
) -> Real:
    """Give the opening a weight needs as it passes one angle of its way in [mm].

    Parameters
    ----------
    angle_rad
        Angle of the weight from level, above 0 and below a right angle [rad].
    length_mm, across_mm
        Length and thickness of the weight [mm].
    wall_mm
        Thickness of the pulley stile [mm].
    depth_mm
        From the pulley stile to the back lining [mm].

    Returns
    -------
    Real
        Height of opening needed at that angle [mm].

    Notes
    -----
    The leading lower corner touches the back lining. Then, by how far the weight reaches in level
    terms:

    - beyond the outer face (``L cos > b + s``): it lies through the whole wall,
      ``p cos - s sin >= d``;
    - its tail in the wall: from the tail on the sill of the opening to the inner edge of its head,
      ``b sin + p cos - L sin cos >= d``;
    - its tail's lower corner past the inner face (``L cos < b``): the tail's end rides down the
      inner edge of the sill, ``L <= (b - d sin)/cos + p sin``.

    Each is solved for p here. The three agree where they meet.

    Examples
    --------
    At 60 degrees a long weight still lies through the whole wall, (38 + 25 x 0.866) / 0.5:

    >>> need = opening_at_angle_mm(
    ...     angle_rad=math.pi / 3, length_mm=542.0, across_mm=38.0, wall_mm=25.0, depth_mm=60.0
    ... )
    >>> round(need, 1)
    119.3
    """
    s, c = sine(angle_rad), cosine(angle_rad)
    level = length_mm * c
    through = (across_mm + wall_mm * s) / c
    tail_in_wall = across_mm / c - depth_mm * s / c + length_mm * s
    tail_in_box = (level - depth_mm + across_mm * s) / (s * c)
    inside = choose(level < depth_mm, tail_in_box, tail_in_wall)
    inside = inside + 0.0 * wall_mm  # in a wall that is not known, not known
    return choose(level > depth_mm + wall_mm, through, inside)


def needed_opening_mm(*, length_mm: Real, across_mm: Real, wall_mm: Real, depth_mm: Real) -> Real:
    """Give the least height of a pocket that lets a weight in [mm].

    Parameters
    ----------
    length_mm, across_mm
        Length and thickness of the weight [mm].
    wall_mm
        Thickness of the pulley stile [mm].
    depth_mm
        From the pulley stile to the back lining [mm].

    Returns
    -------
    Real
        Least height; infinite where the weight is thicker than the box is deep [mm].

    Notes
    -----
    The greatest of `opening_at_angle_mm` over the motion, never less than the weight's thickness,
    and never more than its length, for a short piece goes in upright.
    While the weight lies through the whole wall the need only grows, so the search starts where its
    tail comes to the outer face. It tries angles evenly, then closes in on the worst: good to a
    hundredth of a millimetre for any weight of the trade. No other motion does with less: entering
    tilted, and tipping down first, were searched too (agreement test against a search of motions).

    The tail is taken to swing free outside; it swings low, and the window's own sill may be in its
    way: `needed_head_mm` tells.

    Examples
    --------
    >>> round(needed_opening_mm(length_mm=542.0, across_mm=38.0, wall_mm=25.0, depth_mm=60.0))
    400
    """
    start = _tail_at_face_rad(length_mm=length_mm, wall_mm=wall_mm, depth_mm=depth_mm)
    at_angle = partial(
        opening_at_angle_mm,
        length_mm=length_mm,
        across_mm=across_mm,
        wall_mm=wall_mm,
        depth_mm=depth_mm,
    )
    worst = _greatest_mm(lambda angle: at_angle(angle_rad=angle), start, math.pi / 2.0)
    fits = smaller(larger(worst, across_mm), length_mm)
    return choose(across_mm > depth_mm, math.inf, fits)


def needed_head_mm(*, length_mm: Real, across_mm: Real, wall_mm: Real, depth_mm: Real) -> Real:
    """Give the least height of a pocket's top edge above the sill of the window [mm].

    Parameters
    ----------
    length_mm, across_mm
        Length and thickness of the weight [mm].
    wall_mm
        Thickness of the pulley stile [mm].
    depth_mm
        From the pulley stile to the back lining [mm].

    Returns
    -------
    Real
        Least height above whatever the tail of the weight may strike outside the box [mm].

    Notes
    -----
    While the tail is still outside it cannot be lower than the sill. With its tail on the sill and
    its leading lower corner at the back lining, at angle a from level, the upper edge of the weight
    crosses the inner face of the stile at ``L sin a - b tan a + d / cos a``. The top of the opening
    must be above the greatest of these, until the tail comes to the outer face, where
    ``L cos a = b + s``. A pocket lets a weight in where its height is at least `needed_opening_mm`
    and its top edge stands at least this high above the sill. Deep boxes and long thin weights are
    the ones to look at.

    Examples
    --------
    >>> round(needed_head_mm(length_mm=542.0, across_mm=38.0, wall_mm=25.0, depth_mm=60.0))
    456
    """
    last = _tail_at_face_rad(length_mm=length_mm, wall_mm=wall_mm, depth_mm=depth_mm)

    def head_mm(angle_rad: Real) -> Real:
        s, c = sine(angle_rad), cosine(angle_rad)
        return length_mm * s - depth_mm * s / c + across_mm / c

    return smaller(larger(_greatest_mm(head_mm, FLATTEST_RAD, last), across_mm), length_mm)


def _tail_at_face_rad(*, length_mm: Real, wall_mm: Real, depth_mm: Real) -> Real:
    """Angle at which the tail comes to the outer face of the stile, its head at the back lining."""
    return arccosine(smaller(math.cos(FLATTEST_RAD), (depth_mm + wall_mm) / length_mm))


def _greatest_mm(need_mm: Callable[[Real], Real], first_rad: Real, last_rad: Real) -> Real:
    """Greatest need between two angles: tried evenly, then closing in on the worst so far."""
    reach = (last_rad - first_rad) / (COARSE_STEPS + 1)
    worst_at = first_rad + reach
    worst = need_mm(worst_at)
    for step in range(2, COARSE_STEPS + 1):
        worst, worst_at = _worse(worst, worst_at, first_rad + step * reach, need_mm)
    for _ in range(CLOSINGS):
        middle, reach = worst_at, reach / FINE_STEPS
        for step in range(1, FINE_STEPS + 1):
            below = larger(middle - step * reach, first_rad)
            above = smaller(middle + step * reach, last_rad)
            worst, worst_at = _worse(worst, worst_at, below, need_mm)
            worst, worst_at = _worse(worst, worst_at, above, need_mm)
    return worst


def _worse(
    worst: Real, worst_at: Real, angle_rad: Real, need_mm: Callable[[Real], Real]
) -> tuple[Real, Real]:
    """Keep the worse of what was found and what one more angle needs."""
    need = need_mm(angle_rad)
    worse = need > worst
    return choose(worse, need, worst), choose(worse, angle_rad, worst_at)
