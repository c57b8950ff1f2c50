"""Operation: forces, what moves by itself, and readings turned round."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from evenhung.physics import operation

MASS = st.floats(1.0, 60.0)
EFFICIENCY = st.floats(0.5, 1.0)
SLIDE = st.floats(0.0, 60.0)
SMALL = st.floats(0.01, 5.0)


def forces(mass, pair, efficiency, slide):
    known = {"mass_kg": mass, "pair_kg": pair, "efficiency": efficiency, "slide_n": slide}
    return operation.raise_n(**known), operation.lower_n(**known)


@given(MASS, MASS, EFFICIENCY, SLIDE, SMALL)
def test_a_heavier_sash_is_harder_to_raise_and_easier_to_lower(mass, pair, eta, slide, more):
    raised, lowered = forces(mass, pair, eta, slide)
    assert forces(mass + more, pair, eta, slide)[0] > raised
    assert forces(mass + more, pair, eta, slide)[1] < lowered
    assert forces(mass, pair + more, eta, slide)[0] < raised
    assert forces(mass, pair + more, eta, slide)[1] > lowered


@given(MASS, MASS, st.floats(0.5, 0.99), SLIDE, SMALL)
def test_friction_of_either_kind_makes_both_harder(mass, pair, eta, slide, more):
    before = forces(mass, pair, eta, slide)
    for after in (forces(mass, pair, eta, slide + more), forces(mass, pair, eta - 0.01, slide)):
        assert after[0] > before[0]
        assert after[1] > before[1]


@given(MASS, SLIDE)
def test_an_even_sash_without_losses_takes_the_slide_friction_both_ways(mass, slide):
    assert forces(mass, mass, 1.0, slide) == (slide, slide)


@given(MASS, MASS, EFFICIENCY, SLIDE)
def test_readings_turned_round_give_back_what_was_put_in(mass, pair, eta, slide):
    raised, lowered = forces(mass, pair, eta, slide)
    readings = {"raise_n": raised, "lower_n": lowered, "efficiency": eta}
    excess = operation.excess_from_readings_kg(pair_kg=pair, **readings)
    assert excess == pytest.approx(mass - pair, abs=1e-9)
    friction = operation.slide_from_readings_n(pair_kg=pair, **readings)
    assert friction == pytest.approx(slide, abs=1e-9)
    assert operation.pair_from_readings_kg(mass_kg=mass, **readings) == pytest.approx(pair)


@given(MASS, MASS, EFFICIENCY, SLIDE)
def test_a_sash_stays_put_exactly_above_the_friction_that_it_needs(mass, pair, eta, slide):
    hang = {"mass_kg": mass, "pair_kg": pair, "efficiency": eta}
    needed = operation.stays_above_n(**hang)
    assume(abs(slide - needed) > 1e-9)
    assert (min(forces(mass, pair, eta, slide)) > 0.0) == (slide > needed)


@given(MASS, MASS, EFFICIENCY)
def test_at_its_turning_friction_a_force_is_nought(mass, pair, eta):
    hang = {"mass_kg": mass, "pair_kg": pair, "efficiency": eta}
    rise, drop = operation.rise_turns_at_n(**hang), operation.drop_turns_at_n(**hang)
    assert forces(mass, pair, eta, rise)[0] == pytest.approx(0.0, abs=1e-9)
    assert forces(mass, pair, eta, drop)[1] == pytest.approx(0.0, abs=1e-9)
    assert rise + drop <= 1e-9, "it cannot both rise and drop by itself"


@given(
    st.floats(0.0, 0.6), st.floats(4.0, 14.0), st.floats(30.0, 80.0), st.floats(3.0, 10.0), SMALL
)
def test_efficiency_is_between_nought_and_one_and_falls_with_every_loss(
    friction, axle, wheel, cord, bend
):
    pulley = {
        "axle_friction": friction,
        "axle_mm": axle,
        "wheel_mm": wheel,
        "cord_mm": cord,
        "cord_bend_pct": bend,
    }
    eta = operation.pulley_efficiency(**pulley)
    assert 0.0 < eta < 1.0
    assert operation.pulley_efficiency(**{**pulley, "axle_friction": friction + 0.05}) < eta
    assert operation.pulley_efficiency(**{**pulley, "cord_bend_pct": bend + 0.5}) < eta
    assert operation.pulley_efficiency(**{**pulley, "wheel_mm": wheel + 10.0}) >= eta


def test_a_pulley_without_losses_hands_on_the_whole_pull():
    perfect = {"axle_friction": 0.0, "axle_mm": 8.0, "wheel_mm": 44.0, "cord_mm": 6.0}
    assert operation.pulley_efficiency(cord_bend_pct=0.0, **perfect) == 1.0
    assert operation.seized_efficiency(cord_friction=0.0) == 1.0


@given(st.floats(0.0, 1.0))
def test_cord_that_passes_over_counts_twice_for_each_of_two(mass_per_length):
    """Weighed at both ends of travel: two cords, each on the sash's side first and then not."""
    travel_m = 0.8
    sash_lowest = 2 * mass_per_length * travel_m
    sash_highest = -2 * mass_per_length * travel_m
    shift = operation.cord_shift_kg(mass_per_length_kg_m=mass_per_length, travel_mm=800.0)
    assert shift == pytest.approx(sash_lowest - sash_highest)
