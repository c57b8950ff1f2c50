"""The pocket: what a weight needs to go in."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from evenhung.physics import pocket

LENGTH = st.floats(40.0, 900.0)
ACROSS = st.floats(20.0, 60.0)
WALL = st.floats(5.0, 40.0)
DEPTH = st.floats(40.0, 120.0)
MORE = st.floats(0.5, 30.0)


def needed(length, across, wall, depth):
    return pocket.needed_opening_mm(
        length_mm=length, across_mm=across, wall_mm=wall, depth_mm=depth
    )


def head(length, across, wall, depth):
    return pocket.needed_head_mm(length_mm=length, across_mm=across, wall_mm=wall, depth_mm=depth)


@given(LENGTH, ACROSS, WALL, DEPTH)
def test_between_the_thickness_and_the_length(length, across, wall, depth):
    assume(across <= min(depth, length))
    assert across <= needed(length, across, wall, depth) <= length
    assert across <= head(length, across, wall, depth) <= length


@given(LENGTH, ACROSS, WALL, DEPTH, MORE)
def test_grows_with_length_thickness_and_wall_and_shrinks_with_depth(
    length, across, wall, depth, more
):
    assume(across + more <= min(depth, length))
    before = needed(length, across, wall, depth) - 0.01  # the search is good to a hundredth
    assert needed(length + more, across, wall, depth) >= before
    assert needed(length, across + more, wall, depth) >= before
    assert needed(length, across, wall + more, depth) >= before
    assert needed(length, across, wall, depth + more) <= before + 0.02


@given(LENGTH, DEPTH, WALL, MORE)
def test_a_weight_thicker_than_the_box_is_deep_never_goes_in(length, depth, wall, thicker):
    assert needed(length, depth + thicker, wall, depth) == math.inf


@given(ACROSS, WALL, DEPTH)
def test_a_weight_that_turns_freely_in_the_box_needs_its_thickness(across, wall, depth):
    assume(across < 0.95 * depth)
    turns_freely = 0.99 * math.sqrt(depth**2 - across**2)
    assume(turns_freely >= across)
    assert needed(turns_freely, across, wall, depth) == across


@pytest.mark.parametrize("over", [-0.1, 0.0, 0.01, 0.05, 0.5])
def test_a_weight_just_as_long_as_the_box_is_deep(over):
    """Here the tightest place is close to level, where one of the forms is nought over nought."""
    assert needed(60.0 + over, 38.0, 25.0, 60.0) == pytest.approx(38.0, abs=1.0)


@given(LENGTH, ACROSS, WALL, DEPTH)
def test_no_angle_needs_more_than_the_least_opening(length, across, wall, depth):
    assume(across <= min(depth, length))
    least = needed(length, across, wall, depth)
    assume(least < length)
    first = math.acos(min(1.0, (depth + wall) / length)) + 1e-3
    angles = np.linspace(first, math.pi / 2 - 1e-3, 500)
    at_angles = pocket.opening_at_angle_mm(
        angle_rad=angles, length_mm=length, across_mm=across, wall_mm=wall, depth_mm=depth
    )
    assert at_angles.max() <= least + 0.01


@given(st.floats(120.0, 900.0), ACROSS, WALL, DEPTH)
def test_the_three_forms_agree_where_they_meet(length, across, wall, depth):
    assume(length > depth + wall + 1.0)
    for level in (depth + wall, depth):
        meeting = math.acos(level / length)
        either_side = [
            pocket.opening_at_angle_mm(
                angle_rad=meeting + side,
                length_mm=length,
                across_mm=across,
                wall_mm=wall,
                depth_mm=depth,
            )
            for side in (-1e-9, 1e-9)
        ]
        assert either_side[0] == pytest.approx(either_side[1], rel=1e-4)
