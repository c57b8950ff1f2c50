"""Travel: the band of cord lengths and what is left at either end."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from evenhung.physics import travel


@st.composite
def windows(draw):
    """A box, a sash that runs in it, and a weight."""
    axle = draw(st.floats(700.0, 3000.0))
    lowest = draw(st.floats(100.0, 0.7 * axle))
    return {
        "axle": axle,
        "radius": draw(st.floats(15.0, 50.0)),
        "lowest": lowest,
        "travel": draw(st.floats(0.0, axle - lowest)),
        "weight_space": draw(st.floats(500.0, 3100.0)),
        "case": draw(st.floats(20.0, 60.0)),
        "pulley_clearance": draw(st.floats(0.0, 80.0)),
        "bottom_clearance": draw(st.floats(0.0, 80.0)),
        "knot": draw(st.floats(0.0, 60.0)),
        "weight": draw(st.floats(50.0, 1000.0)),
    }


def band(window):
    pulley = {"axle_mm": window["axle"], "radius_mm": window["radius"]}
    least = travel.least_working_mm(
        cord_end_lowest_mm=window["lowest"],
        case_below_axle_mm=window["case"],
        pulley_clearance_mm=window["pulley_clearance"],
        knot_mm=window["knot"],
        **pulley,
    )
    most = travel.most_working_mm(
        cord_end_highest_mm=window["lowest"] + window["travel"],
        box_bottom_mm=window["axle"] - window["weight_space"],
        bottom_clearance_mm=window["bottom_clearance"],
        weight_length_mm=window["weight"],
        **pulley,
    )
    return least, most


def longest(window):
    return travel.longest_weight_mm(
        weight_space_mm=window["weight_space"],
        travel_mm=window["travel"],
        case_below_axle_mm=window["case"],
        pulley_clearance_mm=window["pulley_clearance"],
        knot_mm=window["knot"],
        bottom_clearance_mm=window["bottom_clearance"],
    )


def clearances(window, working):
    """Room under the pulley with the sash lowest, over the bottom with it highest."""
    low, high = (
        travel.weight_top_mm(
            axle_mm=window["axle"],
            radius_mm=window["radius"],
            cord_end_mm=window["lowest"] + moved,
            working_mm=working,
        )
        for moved in (0.0, window["travel"])
    )
    return (
        travel.pulley_clear_mm(
            axle_mm=window["axle"],
            case_below_axle_mm=window["case"],
            weight_top_mm=low,
            knot_mm=window["knot"],
        ),
        travel.bottom_clear_mm(
            weight_top_mm=high,
            weight_length_mm=window["weight"],
            box_bottom_mm=window["axle"] - window["weight_space"],
        ),
    )


@given(windows())
def test_the_band_is_empty_exactly_where_the_weight_is_too_long(window):
    least, most = band(window)
    assert most - least == pytest.approx(longest(window) - window["weight"], abs=1e-6)
    assume(abs(most - least) > 1e-6)
    assert (least > most) == (window["weight"] > longest(window))


@given(windows())
def test_the_ends_of_the_band_leave_exactly_the_clearances(window):
    least, most = band(window)
    assert clearances(window, least)[0] == pytest.approx(window["pulley_clearance"], abs=1e-6)
    assert clearances(window, most)[1] == pytest.approx(window["bottom_clearance"], abs=1e-6)


@given(windows(), st.floats(0.0, 1.0))
def test_any_length_in_the_band_leaves_at_least_the_clearances(window, part):
    least, most = band(window)
    assume(least <= most)
    under_pulley, over_bottom = clearances(window, least + part * (most - least))
    assert under_pulley >= window["pulley_clearance"] - 1e-6
    assert over_bottom >= window["bottom_clearance"] - 1e-6


@given(windows(), st.floats(1.0, 100.0))
def test_a_longer_cord_trades_one_room_for_the_other(window, longer):
    before, after = clearances(window, 1500.0), clearances(window, 1500.0 + longer)
    assert after[0] - before[0] == pytest.approx(longer, abs=1e-6)
    assert before[1] - after[1] == pytest.approx(longer, abs=1e-6)


@given(st.floats(200.0, 3000.0), st.floats(0.0, 190.0), st.floats(0.0, 5.0))
def test_slack_stretches_back_to_the_working_length(working, nailed, stretch):
    slack = travel.slack_length_mm(working_mm=working, nailed_mm=nailed, stretch_pct=stretch)
    assert nailed <= slack <= working + 1e-9
    assert (slack - nailed) * (1 + stretch / 100) + nailed == pytest.approx(working)


@given(st.floats(0.0, 200.0), st.floats(0.0, 300.0), st.floats(0.0, 20.0))
def test_the_top_nail_stays_under_the_axle_and_in_the_stile(drop, gap, margin):
    """With the sash at its highest the nail is at gap + nail below the head, the axle at drop."""
    nail = travel.least_top_nail_mm(pulley_drop_mm=drop, gap_mm=gap, margin_mm=margin)
    below_axle = gap + nail - drop
    assert below_axle >= margin - 1e-9
    assert nail >= margin
    assert below_axle == pytest.approx(margin, abs=1e-9) or nail == margin


def test_nail_room_is_what_groove_and_rebate_leave_of_the_stile():
    assert travel.nail_room_mm(stile_mm=48.0, groove_depth_mm=13.0, rebate_width_mm=8.0) == 27.0
    assert travel.nail_room_mm(stile_mm=20.0, groove_depth_mm=13.0, rebate_width_mm=8.0) == -1.0


def test_a_cord_half_round_a_wheel_lies_on_half_its_circle():
    """Sash and weight level with the axle: all of the cord is on the wheel."""
    radius = travel.cord_radius_mm(wheel_mm=44.0, cord_mm=6.0)
    top = travel.weight_top_mm(
        axle_mm=1500.0, radius_mm=radius, cord_end_mm=1500.0, working_mm=math.pi * radius
    )
    assert top == pytest.approx(1500.0)
