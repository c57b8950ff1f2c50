"""Choices element by element."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.physics import elementwise

ANY = st.floats(allow_nan=True, allow_infinity=True)


@given(ANY, ANY)
def test_larger_and_smaller_are_numpys(first, second):
    ours = elementwise.larger(first, second), elementwise.smaller(first, second)
    theirs = np.maximum(first, second), np.minimum(first, second)
    np.testing.assert_array_equal(ours, theirs)


def test_floats_stay_floats_and_arrays_arrays():
    array = np.array([1.0, math.nan])
    for function in (elementwise.larger, elementwise.smaller):
        assert type(function(1.0, 2.0)) is float
        assert isinstance(function(array, 2.0), np.ndarray)
        assert isinstance(function(2.0, array), np.ndarray)
    assert type(elementwise.choose(True, 1.0, 2.0)) is float
    assert isinstance(elementwise.choose(array > 0.5, 1.0, 2.0), np.ndarray)
    assert isinstance(elementwise.choose(False, 1.0, array), np.ndarray)


def test_choose_takes_each_from_its_own_side():
    condition = np.array([True, False])
    chosen = elementwise.choose(condition, np.array([1.0, 2.0]), np.array([3.0, 4.0]))
    assert chosen.tolist() == [1.0, 4.0]


def test_both():
    assert elementwise.both(True, True) is True
    assert elementwise.both(True, False) is False
    truths = elementwise.both(np.array([True, True, False]), np.array([True, False, False]))
    assert truths.tolist() == [True, False, False]


@given(st.floats(0.0, math.pi))
def test_cosine_and_back(angle):
    there = elementwise.cosine(angle)
    assert elementwise.arccosine(there) == pytest.approx(angle, abs=1e-7)
    assert elementwise.sine(angle) ** 2 + there**2 == pytest.approx(1.0)


def test_angles_in_arrays():
    angles = np.array([0.0, 1.0, math.pi / 2])
    assert elementwise.sine(angles) == pytest.approx([math.sin(angle) for angle in angles])
    assert elementwise.cosine(angles) == pytest.approx([math.cos(angle) for angle in angles])
    assert elementwise.arccosine(np.cos(angles)) == pytest.approx(angles)
