"""Mass: the formulas against a solid model built from polygons, layer by layer.

A sash is cut into layers parallel to its faces. Each layer's elevation is drawn in shapely as a
union of members less what is cut away, and its area read off; volumes are areas over the thickness.
Mitred corners of mouldings and putty are there in the solid and not in the formulas.
"""

import numpy as np
import pytest
from shapely import union_all
from shapely.geometry import Polygon, box

from evenhung.physics import mass

ALLOWED = {"timber": 0.004, "glass": 1e-9, "putty": 0.01, "painted": 1e-9}
"""Share by which the formula may miss the solid: the corners, and no more."""


def any_sash(draws):
    """A sash as one might be met, its bar at least twice its rebate."""
    rebate = draws.uniform(5, 9)
    rail, bottom = draws.uniform(40, 55), draws.uniform(60, 100)
    lower = draws.random() < 0.5
    return mass.EXAMPLE._replace(
        height_mm=draws.uniform(500, 1200),
        width_mm=draws.uniform(500, 1300),
        thickness_mm=draws.uniform(34, 57),
        stile_mm=draws.uniform(42, 60),
        top_rail_mm=rail,
        bottom_rail_mm=bottom if lower else rail,
        meeting_rail_mm=rail,
        meeting_extra_mm=draws.uniform(0, 15),
        bar_mm=draws.uniform(2 * rebate + 1, 28),
        panes_across=float(draws.integers(1, 5)),
        panes_up=float(draws.integers(1, 4)),
        horn_mm=0.0 if lower else draws.uniform(30, 90),
        horn_filled=draws.uniform(0.4, 0.9),
        rebate_width_mm=rebate,
        rebate_depth_mm=draws.uniform(9, 16),
        moulding_area_mm2=draws.uniform(0, 70),
        groove_length_mm=draws.uniform(150, 350),
        glass_mm=draws.uniform(2, 6),
        edge_clearance_mm=draws.uniform(1, 3),
        putty_bed_mm=draws.uniform(1, 3),
    )


def members(sash):
    """Stiles, rails and bars in elevation, the foot of the sash at y = 0."""
    w, h, s = sash.width_mm, sash.height_mm, sash.stile_mm
    top, bottom = h - sash.top_rail_mm, sash.bottom_rail_mm
    pane_w = (w - 2 * s - (sash.panes_across - 1) * sash.bar_mm) / sash.panes_across
    pane_h = (top - bottom - (sash.panes_up - 1) * sash.bar_mm) / sash.panes_up
    pieces = [box(0, 0, s, h), box(w - s, 0, w, h), box(0, 0, w, bottom), box(0, top, w, h)]
    for i in range(1, int(sash.panes_across)):
        left = s + i * pane_w + (i - 1) * sash.bar_mm
        pieces.append(box(left, bottom, left + sash.bar_mm, top))
    for i in range(1, int(sash.panes_up)):
        foot = bottom + i * pane_h + (i - 1) * sash.bar_mm
        pieces.append(box(s, foot, w - s, foot + sash.bar_mm))
    return union_all(pieces)


def widened(panes, by):
    return union_all([pane.buffer(by, join_style="mitre") for pane in panes])


def integral(area, depth):
    """Volume of a solid whose section is a square law of depth: Simpson's rule is exact."""
    return depth / 6 * (area(0.0) + 4 * area(depth / 2) + area(depth))


def solid(sash):
    """Volumes of timber, glass and putty, mm3, and the painted area, mm2."""
    frame = members(sash)
    panes = [Polygon(hole) for hole in frame.interiors]
    assert len(panes) == sash.panes_across * sash.panes_up
    daylight = union_all(panes)
    w, h = sash.width_mm, sash.height_mm
    chamfer = (2 * sash.moulding_area_mm2) ** 0.5
    groove = union_all(
        [
            box(0, h - sash.groove_length_mm, sash.groove_depth_mm, h),
            box(w - sash.groove_depth_mm, h - sash.groove_length_mm, w, h),
        ]
    )
    rebated = frame.difference(widened(panes, sash.rebate_width_mm))
    grooved = frame.intersection(groove).area
    horn = box(0, -sash.horn_mm * sash.horn_filled, sash.stile_mm, 0).area
    timber = (
        rebated.area * sash.rebate_depth_mm
        + frame.area * (sash.thickness_mm - sash.rebate_depth_mm - chamfer)
        + integral(lambda z: frame.difference(widened(panes, z)).area, chamfer)
        - grooved * sash.groove_width_mm
        + 2 * horn * sash.thickness_mm
        + box(0, 0, w, sash.meeting_rail_mm).area * sash.meeting_extra_mm
    )
    glazed = widened(panes, sash.rebate_width_mm - sash.edge_clearance_mm)
    in_rebate = widened(panes, sash.rebate_width_mm)
    fillet = max(0.0, sash.rebate_depth_mm - sash.glass_mm - sash.putty_bed_mm)

    def across_fillet(z):
        return in_rebate.difference(widened(panes, sash.rebate_width_mm * z / fillet)).area

    putty = (
        in_rebate.difference(daylight).area * sash.putty_bed_mm
        + in_rebate.difference(glazed).area * sash.glass_mm
        + (integral(across_fillet, fillet) if fillet else 0.0)
    )
    edges = sum(pane.length for pane in panes)
    return {
        "timber": timber,
        "glass": glazed.area * sash.glass_mm,
        "putty": putty,
        "painted": 2 * frame.area + edges * sash.thickness_mm,
    }


def disagreement(module):
    """Greatest share by which a formula misses the solid, over what is allowed."""
    draws = np.random.default_rng(7)
    worst = 0.0
    for _ in range(60):
        sash = any_sash(draws)
        ours = {
            "timber": module.timber_volume_mm3(sash),
            "glass": module.glass_volume_mm3(sash),
            "putty": module.putty_volume_mm3(sash),
            "painted": module.painted_area_mm2(sash),
        }
        for part, theirs in solid(sash).items():
            worst = max(worst, abs(ours[part] / theirs - 1) / ALLOWED[part])
    return worst


def test_volumes_of_any_sash():
    assert disagreement(mass) < 1.0


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("(across - uprights * sash.bar_mm) * sash.bar_mm", "across * sash.bar_mm"),
        ("- rebates - mouldings - grooves", "- mouldings - grooves"),
        ("sash.rebate_width_mm - sash.edge_clearance_mm", "sash.rebate_width_mm"),
        ("sash.putty_bed_mm + fillet_mm / 2.0", "sash.putty_bed_mm + fillet_mm"),
        ("2.0 * face + _sight", "face + _sight"),
    ],
    ids=["crossing twice", "no rebates", "glass to the back", "full fillet", "one face"],
)
def test_the_solid_notices_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(mass, true_text, false_text)) > 1.0
