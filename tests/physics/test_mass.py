"""Mass of a sash and its spread."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.physics import mass

EXAMPLE = mass.EXAMPLE


@st.composite
def sashes(draw):
    def about(low, high):
        return draw(st.floats(low, high))

    return EXAMPLE._replace(
        height_mm=about(500.0, 1400.0),
        width_mm=about(500.0, 1400.0),
        thickness_mm=about(34.0, 60.0),
        stile_mm=about(40.0, 70.0),
        top_rail_mm=about(28.0, 60.0),
        bottom_rail_mm=about(60.0, 110.0),
        bar_mm=about(18.0, 30.0),
        panes_across=float(draw(st.integers(1, 4))),
        panes_up=float(draw(st.integers(1, 4))),
        meeting_extra_mm=about(0.0, 20.0),
        horn_mm=about(0.0, 100.0),
        horn_filled=about(0.3, 1.0),
        glass_mm=about(2.0, 6.0),
        timber_kg_m3=about(350.0, 800.0),
    )


def whole(sash):
    return mass.breakdown(sash).whole


@given(sashes())
def test_every_part_weighs_something_and_the_whole_is_their_sum(sash):
    parts = mass.breakdown(sash)
    assert min(parts) > 0.0
    assert sum(parts) == pytest.approx(parts.whole)


@given(sashes(), st.floats(0.1, 3.0))
def test_mass_grows_with_glass(sash, more):
    assert whole(sash._replace(glass_mm=sash.glass_mm + more)) > whole(sash)


@given(sashes(), st.sampled_from(["timber_kg_m3", "thickness_mm", "fittings_kg", "horn_mm"]))
def test_mass_grows_with_timber_and_fittings(sash, field):
    assert whole(sash._replace(**{field: getattr(sash, field) * 1.1 + 1.0})) > whole(sash)


@given(sashes(), st.sampled_from(["groove_depth_mm", "moulding_area_mm2", "rebate_depth_mm"]))
def test_timber_shrinks_with_what_is_cut_away(sash, field):
    deeper = sash._replace(**{field: getattr(sash, field) + 1.0})
    assert mass.timber_volume_mm3(deeper) < mass.timber_volume_mm3(sash)


@given(sashes())
def test_panes_and_bars_fill_the_daylight(sash):
    width, height = mass.pane_sight_mm(sash)
    across = sash.panes_across * width + (sash.panes_across - 1) * sash.bar_mm
    up = sash.panes_up * height + (sash.panes_up - 1) * sash.bar_mm
    assert across + 2 * sash.stile_mm == pytest.approx(sash.width_mm)
    assert up + sash.top_rail_mm + sash.bottom_rail_mm == pytest.approx(sash.height_mm)


@given(sashes())
def test_glass_is_larger_than_the_daylight_and_smaller_than_the_sash(sash):
    width, height = mass.pane_sight_mm(sash)
    glass = mass.glass_volume_mm3(sash) / sash.glass_mm
    assert sash.panes_across * sash.panes_up * width * height < glass
    assert glass < sash.width_mm * sash.height_mm


def test_putty_without_room_for_a_fillet_is_bed_and_gap():
    """A rebate no deeper than bed and glass leaves no fillet, and never less than none."""
    flush = EXAMPLE._replace(rebate_depth_mm=5.0)
    shallow = EXAMPLE._replace(rebate_depth_mm=3.0)
    assert mass.putty_volume_mm3(flush) == mass.putty_volume_mm3(shallow)
    assert mass.putty_volume_mm3(flush) < mass.putty_volume_mm3(EXAMPLE)


@given(sashes())
def test_there_is_no_spread_without_deviations(sash):
    assert mass.spread_kg(sash, {}) == 0.0
    assert mass.spread_kg(sash, {"timber_kg_m3": 0.0, "glass_mm": 0.0}) == 0.0


@given(sashes(), st.floats(1.0, 80.0))
def test_spread_of_one_density_is_that_share_of_the_timber(sash, deviation):
    share = deviation / sash.timber_kg_m3
    spread = mass.spread_kg(sash, {"timber_kg_m3": deviation})
    assert spread == pytest.approx(share * mass.breakdown(sash).timber)


@given(sashes(), st.floats(0.05, 0.6))
def test_spread_grows_with_every_doubt(sash, deviation):
    one = mass.spread_kg(sash, {"glass_mm": deviation})
    assert mass.spread_kg(sash, {"glass_mm": deviation, "thickness_mm": 1.0}) > one
    assert mass.spread_kg(sash, {"glass_mm": 2 * deviation}) > one


def test_a_field_that_a_sash_has_not_is_refused():
    with pytest.raises(AttributeError, match="glas_mm"):
        mass.spread_kg(EXAMPLE, {"glas_mm": 0.1})
