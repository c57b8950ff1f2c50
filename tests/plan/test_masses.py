"""The mass of a sash: a weighing always wins, an estimate says how far to trust it."""

from __future__ import annotations

import math

import pytest

from evenhung.plan.parts import timber_density
from evenhung.reference import keys, look_up


def test_a_weighing_wins_and_its_scale_is_its_spread(cast):
    plan = cast.plan(house={"scale_step": "0.12 kg"})
    assert plan["mass_from"] == "weighed"
    assert plan["mass_sd_kg"] == pytest.approx(0.12 / math.sqrt(12), abs=1e-6)


def test_an_estimate_grows_with_its_glass(cast):
    thin, thick = (
        cast.plan(weighed=None, glass={"thickness": glass})["mass_kg"] for glass in ("3 mm", "4 mm")
    )
    assert thick > thin


def test_an_estimate_has_a_spread_of_several_per_cent(cast):
    plan = cast.plan(weighed=None)
    assert plan["mass_from"] == "estimated"
    assert 0.03 < plan["mass_sd_kg"] / plan["mass_kg"] < 0.2


def test_measuring_makes_an_estimate_surer(cast):
    guessed = cast.plan(weighed=None, thickness=None, timber=None, glass=None)
    measured = cast.plan(
        weighed=None,
        thickness="44 mm",
        stile="48 mm",
        top_rail="40 mm",
        bottom_rail="75 mm",
        glass={"thickness": "3 mm"},
        timber="scots pine",
        moisture_pct=14.0,
        fittings="6 oz",
        rebate_width="8 mm",
        rebate_depth="15 mm",
    )
    assert measured["mass_sd_kg"] < guessed["mass_sd_kg"]


def test_moisture_alone_moves_timber_by_several_per_cent():
    dry, damp = timber_density("scots pine", 10.0)[0], timber_density("scots pine", 18.0)[0]
    assert 0.03 < damp / dry - 1.0 < 0.08


@pytest.mark.parametrize("name", sorted(keys("timber")))
def test_every_timber_of_the_reference_has_a_density(name):
    density, deviation = timber_density(name, 12.0)
    assert 250 < density < 1000
    assert 0 < deviation < 0.3 * density


def test_a_density_printed_at_twelve_per_cent_comes_back_at_twelve():
    """Against the printed row itself: through green specific gravity and out again."""
    row = look_up("timber", "scots pine", "density_12pct")
    assert timber_density("scots pine", 12.0)[0] == pytest.approx(row.si, abs=1e-6)
