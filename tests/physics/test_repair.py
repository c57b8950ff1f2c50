"""Splices, fabric, glazing and coatings: what no window may break."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.physics import coating, fabric, glazing, scarf

SLOPE = st.floats(0.0, 30.0)
SIZE = st.floats(5.0, 500.0)


@given(SIZE, SLOPE, SLOPE)
def test_a_flatter_scarf_has_the_larger_joint_and_a_butt_joint_the_section(section, one, other):
    flat, steep = max(one, other), min(one, other)
    areas = [scarf.glue_area_mm2(section_mm2=section, slope=slope) for slope in (steep, flat)]
    assert areas[0] <= areas[1]
    assert scarf.glue_area_mm2(section_mm2=section, slope=0.0) == section


@given(st.floats(1.0, 30.0))
def test_the_least_slope_gives_the_ratio_back(ratio):
    slope = scarf.least_slope(area_ratio=ratio)
    assert scarf.glue_area_mm2(section_mm2=1.0, slope=slope) == pytest.approx(ratio)


@given(SIZE, SIZE, SIZE, st.sampled_from([1.0, 2.0]))
def test_what_a_splice_replaces_is_less_than_its_piece_and_more_than_the_decay(
    decay, beyond, run, ends
):
    lengths = {"decay_mm": decay, "beyond_mm": beyond, "scarf_mm": run, "ends": ends}
    replaced = scarf.replaced_mm3(section_mm2=100.0, **lengths)
    assert 100.0 * decay < replaced < 100.0 * scarf.piece_mm(**lengths)


@given(SIZE, st.floats(0.0, 900.0))
def test_what_is_kept_is_between_nothing_and_the_whole(whole, lost):
    kept = fabric.kept_mm3(whole_mm3=whole, lost_mm3=lost)
    assert 0.0 <= kept <= whole
    assert 0.0 <= fabric.share_pct(kept=kept, whole=whole) <= 100.0


@given(SIZE, st.floats(4.0, 20.0), st.floats(0.0, 3.9))
def test_a_pane_goes_into_its_rebate_and_covers_the_sight_size(sight, rebate, clearance):
    order = glazing.order_mm(sight_mm=sight, rebate_width_mm=rebate, clearance_mm=clearance)
    assert sight < order <= sight + 2 * rebate


@given(st.floats(2.0, 12.0))
def test_thicker_glass_leaves_less_room_for_putty(glass):
    sizes = {
        "rebate_width_mm": 10.0,
        "rebate_depth_mm": 15.0,
        "bed_mm": 2.0,
        "clearance_mm": 2.0,
    }
    thin = glazing.putty_section_mm2(glass_mm=glass, **sizes)
    thick = glazing.putty_section_mm2(glass_mm=glass + 1.0, **sizes)
    assert thick < thin


def test_paint_is_in_proportion_to_area_and_coats():
    one = coating.paint_l(area_m2=1.0, coats=1.0, coverage_m2_l=10.0)
    assert coating.paint_l(area_m2=3.0, coats=2.0, coverage_m2_l=10.0) == pytest.approx(6.0 * one)
