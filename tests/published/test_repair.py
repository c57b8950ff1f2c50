"""Splices, putty and paint against what is printed of them."""

from __future__ import annotations

import pytest

from evenhung.physics import coating, glazing, scarf
from evenhung.reference import look_up


def test_one_in_ten_is_the_steepest_whole_slope_with_ten_times_the_section():
    """Wood Handbook (FPL-GTR-190), p. 10-17: a joint of at least ten times the section."""
    ratio = look_up("repair", "scarf", "area_ratio_least").si
    assert scarf.glue_area_mm2(section_mm2=1.0, slope=10.0) >= ratio
    assert scarf.glue_area_mm2(section_mm2=1.0, slope=9.0) < ratio
    assert look_up("repair", "scarf", "slope").si == 10.0


def test_one_in_twelve_is_about_twelve_times_the_section(agrees):
    """Wood Handbook, p. 10-17: a slope of 1 in 12 "(12 times the cross-sectional area)"."""
    agrees(scarf.glue_area_mm2(section_mm2=1.0, slope=12.0), "12")


def test_the_steepest_slope_that_will_do_is_just_under_ten(agrees):
    """The same rule solved for the slope: sqrt(10^2 - 1)."""
    agrees(scarf.least_slope(area_ratio=10.0), "9.95")


def test_strength_rises_with_slope_in_either_series_and_a_butt_joint_is_weakest():
    """The ladder is from memory, the other series confirmed; the butt joint is p. 10-17."""
    ladder = [look_up("repair", f"scarf 1 in {n}", "strength_pct").si for n in (5, 8, 10, 12)]
    assert ladder == sorted(ladder)
    boats = [look_up("repair", f"scarf 1 in {n}", "strength_pct").si for n in (4, 20)]
    assert boats == sorted(boats)
    assert look_up("repair", "scarf", "butt_strength_pct").si < min(ladder + boats)


def test_a_triangular_fillet_of_ten_by_ten_is_about_a_tenth_of_a_kilogram_to_the_metre():
    """No figure for putty by the metre was found in print: the triangle and the density, by hand.

    50 mm2 at 1900 to 2000 kg/m3 is 0.095 to 0.100 kg/m.
    """
    section = glazing.putty_section_mm2(
        rebate_width_mm=10.0, rebate_depth_mm=10.0, glass_mm=0.0, bed_mm=0.0, clearance_mm=0.0
    )
    assert section == pytest.approx(50.0)
    density = look_up("putty", "linseed", "density").si
    assert 0.095 <= section * 1e-6 * density <= 0.100


@pytest.mark.parametrize(
    ("key", "square_feet", "litres"),
    [("oil paint, new wood", 350.0, 3.785411784), ("primer", 118.403, 1.0)],
)
def test_a_gallon_covers_what_it_is_said_to(key, square_feet, litres):
    """Griffith, Carpentry: 350 ft2 to the gallon on new wood; a maker: 11 m2 to the litre."""
    coverage = look_up("paint", key, "coverage").si
    needed = coating.paint_l(area_m2=square_feet * 0.3048**2, coats=1.0, coverage_m2_l=coverage)
    assert needed == pytest.approx(litres, rel=1e-4)
