"""Stock sizes of sash windows, as an old house-joinery book prints them, by our sash geometry.

Sources
-------
Inside finishing (public domain), sizing of four-light windows: the opening is the glass and 5 in in
width, the glass and 6 in in height; 10 x 20 glass 2 ft 1 in x 3 ft 10 in, 10 x 24 glass 2 ft 1 in x
4 ft 6 in, 12 x 20 glass 2 ft 5 in x 3 ft 10 in.
"""

from __future__ import annotations

import pytest

from evenhung.physics import mass
from evenhung.quantities import Length

STILE = RAIL = 2.0
BOTTOM = 3.0
BAR = MEETING = 1.0


def inches(text):
    """Give a printed size [in]."""
    return Length.parse(text).mm / 25.4


@pytest.mark.parametrize(
    ("glass", "width", "height"),
    [
        (("10 in", "20 in"), "2 ft 1 in", "3 ft 10 in"),
        (("10 in", "24 in"), "2 ft 1 in", "4 ft 6 in"),
        (("12 in", "20 in"), "2 ft 5 in", "3 ft 10 in"),
    ],
)
def test_panes_left_by_two_inch_stiles_are_the_glass_printed(glass, width, height):
    """Two sashes of two lights: stiles and top rail 2 in, bottom rail 3, bar and meeting rails 1.

    The allowances of 5 and 6 in are printed; where they fall is common practice, no source.
    """
    across, up = map(inches, glass)
    upper = _sash(inches(width), RAIL + up + MEETING, RAIL, MEETING)
    lower = _sash(inches(width), MEETING + up + BOTTOM, MEETING, BOTTOM)
    assert mass.pane_sight_mm(upper) == pytest.approx((across, up))
    assert mass.pane_sight_mm(lower) == pytest.approx((across, up))
    opening = upper.height_mm + lower.height_mm - MEETING
    assert opening == pytest.approx(inches(height))


def _sash(width, height, top_rail, bottom_rail):
    """Give a sash in inches throughout: sight sizes do not care for the unit."""
    return mass.EXAMPLE._replace(
        width_mm=width,
        height_mm=height,
        stile_mm=STILE,
        top_rail_mm=top_rail,
        bottom_rail_mm=bottom_rail,
        bar_mm=BAR,
        panes_across=2.0,
        panes_up=1.0,
    )
