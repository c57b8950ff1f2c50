"""The hang: bands, and what to add or take off."""

import itertools

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from evenhung.physics import hang

WEIGHT = st.floats(0.5, 40.0)
DIFFERENCE = st.floats(0.0, 0.5)
TENTH_OF_A_GRAM = hang.RESOLUTION_KG

POLICY = {
    "light_below_kg": 4.536,
    "heavy_above_kg": 13.608,
    "light": hang.Band(0.227, 0.340, 0.454),
    "middle": hang.Band(0.454, 0.567, 0.680),
    "heavy_pct": hang.Band(3.0, 4.0, 5.0),
    "heavy_cap_kg": 1.361,
}


@st.composite
def bands(draw):
    least = draw(st.floats(1.0, 60.0))
    best = least + draw(st.floats(0.0, 2.0))
    return hang.Band(least, best, best + draw(st.floats(0.0, 2.0)))


def changed(left, right, change):
    return {"left_kg": left + change.left_kg, "right_kg": right + change.right_kg}


@given(WEIGHT, WEIGHT, bands(), DIFFERENCE)
def test_a_change_ends_in_a_true_pair(left, right, pair, difference):
    settings = {"pair": pair, "difference_kg": difference}
    change = hang.change_to_true(left_kg=left, right_kg=right, **settings)
    assert hang.is_true(**changed(left, right, change), **settings)


@given(WEIGHT, WEIGHT, bands(), DIFFERENCE)
def test_a_true_pair_is_left_alone(left, right, pair, difference):
    settings = {"pair": pair, "difference_kg": difference}
    change = hang.change_to_true(left_kg=left, right_kg=right, **settings)
    true = hang.is_true(left_kg=left, right_kg=right, **settings)
    assert (change == (0.0, 0.0)) == true


@given(WEIGHT, WEIGHT, bands(), DIFFERENCE)
def test_left_and_right_are_alike_to_it(left, right, pair, difference):
    settings = {"pair": pair, "difference_kg": difference}
    one = hang.change_to_true(left_kg=left, right_kg=right, **settings)
    other = hang.change_to_true(left_kg=right, right_kg=left, **settings)
    assert one == (other.right_kg, other.left_kg)


@given(WEIGHT, WEIGHT, bands(), DIFFERENCE)
def test_nothing_is_taken_off_where_additions_can_do_it(left, right, pair, difference):
    """Additions can do it where the heavier, and the least it needs beside it, fit the band."""
    heavier, lighter = max(left, right), min(left, right)
    by_additions = heavier + max(lighter, heavier - difference) <= pair.most
    change = hang.change_to_true(left_kg=left, right_kg=right, pair=pair, difference_kg=difference)
    if by_additions:
        assert min(change) >= -TENTH_OF_A_GRAM
    assert not all(side < 0.0 for side in change) or lighter > pair.best / 2


@given(bands(), st.floats(0.001, 3.0), DIFFERENCE)
def test_two_like_weights_too_heavy_are_both_taken_to_half_of_the_best(pair, over, difference):
    weight = (pair.most + over) / 2
    assume(weight < 40.0)
    change = hang.change_to_true(
        left_kg=weight, right_kg=weight, pair=pair, difference_kg=difference
    )
    assert change.left_kg == change.right_kg == pytest.approx(pair.best / 2 - weight)


def test_each_way_of_coming_right_in_turn():
    """In the order of the docstring, on one band: 9.5, 9.75 to 10 kg, and 0.2 kg apart."""
    settings = {"pair": hang.Band(9.5, 9.75, 10.0), "difference_kg": 0.2}
    ways = {
        (4.0, 4.8): (0.875, 0.075),  # up to half of the best
        (4.5, 4.95): (0.45, 0.0),  # up to the heavier
        (4.5, 5.05): (0.45, 0.0),  # as far as the most allows
        (4.9, 5.2): (0.0, -0.3),  # the heavier down to the other
        (4.0, 6.0): (0.875, -1.125),  # down and up to half of the best
        (5.1, 5.3): (-0.225, -0.425),  # both down
    }
    for (left, right), expected in ways.items():
        change = hang.change_to_true(left_kg=left, right_kg=right, **settings)
        assert change == pytest.approx(expected), (left, right)


def test_limits_are_inclusive_to_a_tenth_of_a_gram():
    settings = {"pair": hang.Band(9.5, 9.75, 10.0), "difference_kg": 0.25}
    for left, right, true in (
        (5.0, 5.0, True),
        (5.0, 5.00004, True),
        (5.0, 5.0002, False),
        (4.75, 4.75, True),
        (4.75, 4.7498, False),
        (4.75, 5.0, True),
        (4.7, 4.9502, False),
    ):
        assert hang.is_true(left_kg=left, right_kg=right, **settings) is true


@given(st.floats(0.5, 60.0))
def test_usual_margins_are_in_order_and_under_the_cap(mass_kg):
    margin = hang.usual_margin(mass_kg=mass_kg, **POLICY)
    assert 0.0 < margin.least <= margin.best <= margin.most <= POLICY["heavy_cap_kg"]


def test_usual_margins_at_their_limits():
    """A sash exactly at a limit is in the middle."""
    for mass_kg in (POLICY["light_below_kg"], POLICY["heavy_above_kg"]):
        assert hang.usual_margin(mass_kg=mass_kg, **POLICY) == POLICY["middle"]
    assert hang.usual_margin(mass_kg=4.5, **POLICY) == POLICY["light"]
    assert hang.usual_margin(mass_kg=20.0, **POLICY) == pytest.approx((0.6, 0.8, 1.0))


@given(st.floats(1.0, 60.0), bands())
def test_a_pair_is_the_sash_less_its_excess(mass_kg, band):
    for sign in (1, -1):
        excess = hang.Band(*sorted(sign * value for value in band))
        pair = hang.pair_for(mass_kg=mass_kg, excess=excess)
        assert pair.least <= pair.best <= pair.most
        assert mass_kg - pair.best == pytest.approx(excess.best)
        ends = itertools.product(pair, excess)
        assert any(mass_kg - side == pytest.approx(end) for side, end in ends)
