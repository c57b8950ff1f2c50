"""Masses become whole numbers exactly where they have a common step."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.plan.allotment.scales import (
    COARSEST_KG,
    FINEST_KG,
    FINEST_MONEY,
    MOST_PARTS,
    scales_for,
    steps_down,
    steps_up,
)

OUNCE = Fraction(45359237, 100_000_000) / 16


@given(st.lists(st.integers(1, 900), min_size=1, max_size=9), st.sampled_from([OUNCE, OUNCE / 4]))
def test_ounces_are_exact(counts, unit):
    masses = [count * unit for count in counts]
    scales = scales_for(masses, Decimal(1000))
    assert scales.is_exact
    assert FINEST_KG / 2 < scales.tick_kg <= COARSEST_KG
    assert [scales.ticks(mass) * scales.tick_kg for mass in masses] == masses


def test_pounds_beside_grams_are_rounded():
    scales = scales_for([16 * OUNCE, Fraction(4001, 1000)], Decimal(1000))
    assert not scales.is_exact


def test_a_house_without_weights_has_scales():
    assert scales_for([], Decimal(1)).is_exact


def test_limits_are_inclusive_to_a_tenth_of_a_gram():
    scales = scales_for([Fraction(1, 200)], Decimal(1000))
    assert scales.ticks_at_most(0.00496) == scales.ticks_at_least(0.00504) == 1
    assert scales.ticks_at_most(0.0049) == 0
    assert scales.ticks_at_least(0.0051) == 2


@pytest.mark.parametrize("dearest", ["1", "1000", "999999.99"])
def test_money_fits(dearest):
    scales = scales_for([], Decimal(dearest))
    assert scales.parts(Decimal(dearest)) <= MOST_PARTS
    assert scales.money >= FINEST_MONEY
    assert scales.amount(scales.parts(Decimal(1))) == pytest.approx(1, rel=0.5)


def test_lengths_go_up_and_rooms_go_down():
    assert (steps_up(300.0), steps_up(300.01), steps_down(300.09)) == (3000, 3001, 3000)
