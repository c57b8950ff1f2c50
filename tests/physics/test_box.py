"""Room in the box."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.physics import box

ACROSS = st.floats(10.0, 100.0)


@given(ACROSS, ACROSS, ACROSS)
def test_a_square_weight_has_less_room_than_a_round_one_and_either_way_round_is_the_same(
    across, width, depth
):
    rooms = [
        box.turning_room_mm(
            across_mm=across,
            is_square=is_square,
            compartment_width_mm=first,
            compartment_depth_mm=second,
        )
        for is_square in (False, True)
        for first, second in ((width, depth), (depth, width))
    ]
    assert rooms[0] == rooms[1]
    assert rooms[2] == rooms[3]
    assert rooms[2] == pytest.approx(rooms[0] - (2**0.5 - 1) * across)


@given(ACROSS, ACROSS, st.floats(20.0, 300.0))
def test_room_to_pass_does_not_ask_which_weight_is_first(first, second, width):
    one = box.passing_room_mm(box_width_mm=width, first_swept_mm=first, second_swept_mm=second)
    other = box.passing_room_mm(box_width_mm=width, first_swept_mm=second, second_swept_mm=first)
    assert one == pytest.approx(other, abs=1e-9)


@given(*[st.floats(0.0, 2000.0)] * 2, *[st.floats(1.0, 800.0)] * 2)
def test_overlap_is_symmetric_and_never_more_than_either_run(first, second, long, short):
    runs = {
        "first_low_mm": first,
        "first_high_mm": first + long,
        "second_low_mm": second,
        "second_high_mm": second + short,
    }
    swapped = {
        name.replace("first", "other").replace("second", "first").replace("other", "second"): end
        for name, end in runs.items()
    }
    shared = box.overlap_mm(**runs)
    assert shared == box.overlap_mm(**swapped)
    assert shared <= min(long, short) + 1e-9
    apart = first > second + short or second > first + long
    assert (shared < 0.0) == apart
