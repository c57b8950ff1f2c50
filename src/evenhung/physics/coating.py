"""Coatings: how much paint an area takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real


def paint_l(*, area_m2: Real, coats: Real, coverage_m2_l: Real) -> Real:
    """Give the volume of paint that an area takes [L].

    Parameters
    ----------
    area_m2
        The area, once [m2].
    coats
        Number of coats [1].
    coverage_m2_l
        Area that one litre covers in one coat [m2/L].

    Returns
    -------
    Real
        Paint, nothing added for what stays in the tin and the brush [L].

    Examples
    --------
    >>> paint_l(area_m2=22.0, coats=2.0, coverage_m2_l=11.0)
    4.0
    """
    return area_m2 * coats / coverage_m2_l
