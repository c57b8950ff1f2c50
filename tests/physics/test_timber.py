"""Timber: density, moisture and movement."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.physics import timber

GREEN = st.floats(0.25, 0.8)
MOISTURE = st.floats(0.0, 60.0)


def density(green, moisture):
    gravity = timber.specific_gravity(green=green, moisture_pct=moisture)
    return timber.density_kg_m3(specific_gravity=gravity, moisture_pct=moisture)


@given(GREEN, MOISTURE)
def test_green_specific_gravity_and_back(green, moisture):
    back = timber.green_specific_gravity(
        density_kg_m3=density(green, moisture), moisture_pct=moisture
    )
    assert back == pytest.approx(green)


@given(GREEN, MOISTURE, st.floats(0.1, 20.0))
def test_wetter_timber_is_heavier_for_its_size(green, moisture, wetter):
    """Swelling never outruns the water taken up."""
    assert density(green, moisture + wetter) > density(green, moisture)


@given(GREEN, st.floats(30.0, 100.0))
def test_above_fibre_saturation_the_volume_is_the_green_one(green, moisture):
    assert timber.specific_gravity(green=green, moisture_pct=moisture) == green


@given(st.floats(-1.0, 60.0), st.floats(0.0, 94.0), st.floats(0.01, 1.0))
def test_damper_air_makes_damper_timber(temperature, humidity, more):
    air = {"temperature_c": temperature}
    drier = timber.equilibrium_moisture_pct(humidity_pct=humidity, **air)
    damper = timber.equilibrium_moisture_pct(humidity_pct=humidity + more, **air)
    assert 0.0 <= drier < damper < 30.0


def test_dry_air_makes_bone_dry_timber():
    assert timber.equilibrium_moisture_pct(temperature_c=20.0, humidity_pct=0.0) == 0.0


@given(st.floats(20.0, 300.0), st.floats(6.0, 14.0), st.floats(6.0, 14.0))
def test_what_swells_shrinks_back_as_far_for_the_same_board(width, before, after):
    change = {"width_mm": width, "coefficient": 0.0025}
    there = timber.change_of_width_mm(moisture_from_pct=before, moisture_to_pct=after, **change)
    back = timber.change_of_width_mm(moisture_from_pct=after, moisture_to_pct=before, **change)
    assert there == -back
    assert (there > 0.0) == (after > before) or there == 0.0
