"""The numbers of a plan, each worked by hand from the survey beside it."""

from __future__ import annotations

import math

import pytest

G = 9.80665
LB = 0.45359237


def test_the_cord_of_a_lower_sash(cast, near):
    """Axle at 1560, box bottom at 15, cord end at 580 and 1360, pi r = 78.54 [mm]."""
    cord = cast.plan()["cord"]
    around = math.pi * 25
    assert near(cord["least_mm"], 1560 + around - 580 + 37 + 40 + 40)
    assert near(cord["most_mm"], 2 * 1560 + around - 1360 - 15 - 25 - 300)
    assert cord["working_mm"] == cord["least_mm"]
    assert near(cord["cut_mm"], (cord["working_mm"] - 150) / 1.01 + 150 + 150)
    assert near(cord["mark_slack_mm"], cord["cut_mm"] - 150)


def test_the_cord_of_an_upper_sash(cast, near):
    """Cord end at 610 and 1390: the weight stops 55 mm short of the bottom."""
    plan = cast.plan("upper")
    around = math.pi * 25
    assert near(plan["cord"]["most_mm"], 2 * 1560 + around - 1390 - 15 - 55 - 300)
    assert plan["cord"]["working_mm"] == plan["cord"]["most_mm"]
    assert near(plan["weights"]["bottom_clear_mm"], 55)


def test_a_knotted_cord_stretches_over_all_its_length(cast, near):
    cord = cast.plan(anchorage="knotted")["cord"]
    assert near(cord["cut_mm"], cord["working_mm"] / 1.01 + 150)


def test_the_weight_of_a_lower_sash_hangs_just_clear_of_the_pulley(cast, near):
    """Common practice, no source: its cord is so long that the weight does not reach the pulley."""
    plan = cast.plan()
    assert near(plan["weights"]["top_clear_mm"], 40)
    assert plan["weights"]["bottom_clear_mm"] > 25


def test_the_weight_of_an_upper_sash_hangs_short_of_the_bottom(cast):
    """Common practice, no source: 50 to 60 mm, because cord stretches."""
    assert 50 <= cast.plan("upper")["weights"]["bottom_clear_mm"] <= 60


def test_a_lower_sash_of_eleven_pounds_wants_a_pair_of_about_ten(cast):
    """Common practice, no source: 1 to 1 1/2 lb lighter, 5 lb each side."""
    pair = cast.plan()["pair_kg"]
    assert [round(pair[which] / LB, 4) for which in ("least", "best", "most")] == [9.5, 9.75, 10.0]


def test_an_upper_sash_of_eleven_pounds_wants_twelve_to_thirteen(cast):
    """Common practice, no source."""
    pair = cast.plan("upper")["pair_kg"]
    assert [round(pair[which] / LB, 4) for which in ("least", "best", "most")] == [12.0, 12.5, 13.0]


@pytest.mark.parametrize("cord", ["5 mm", "6 mm", "8 mm"])
def test_the_cords_of_the_trade_are_planned(cast, cord):
    """Common practice, no source: cords of 5, 6 and 8 mm."""
    plan = cast.plan(house={"cord.diameter": cord, "cord.mass_per_length": None})
    assert plan["found"]["verdict"] == "hangs true"
    assert plan["cord"]["diameter_mm"] == float(cord.split()[0])


@pytest.mark.parametrize(
    ("mass", "place", "band"),
    [
        ("9.99 lb", "lower", (0.5, 0.75, 1.0)),
        ("10 lb", "lower", (1.0, 1.25, 1.5)),
        ("30 lb", "upper", (1.0, 1.5, 2.0)),
        ("40 lb", "lower", (1.2, 1.6, 2.0)),
        ("80 lb", "upper", (2.4, 3.0, 3.0)),
    ],
)
def test_bands_by_the_mass_of_the_sash(cast, mass, place, band):
    """The bands of the reference table 'policy', ours but for the middle one."""
    plan = cast.plan(place, weighed=mass)
    sign = 1 if place == "lower" else -1
    excess = [
        sign * (plan["mass_kg"] - plan["pair_kg"][which]) / LB
        for which in ("most", "best", "least")
    ]
    assert sorted(round(one, 4) for one in excess) == sorted(band)


def test_forces_over_one_pulley_efficiency(cast, near):
    plan = cast.plan()
    rho = 0.15 * 8 / 50
    efficiency = (1 - rho) / (1 + rho) * 0.97
    pair, mass = 9.75 * LB, 11 * LB
    assert near(plan["operation"]["raise_n"], G * (mass - efficiency * pair) + 10)
    assert near(plan["operation"]["lower_n"], G * (pair / efficiency - mass) + 10)


def test_forces_over_two_unlike_pulleys(cast, near):
    """Each weight works over its own pulley."""
    plan = cast.plan(pulley__right={"turns": "seized"})
    rho = 0.15 * 8 / 50
    left, right = (1 - rho) / (1 + rho) * 0.97, math.exp(-0.3 * math.pi)
    each, mass = 4.875 * LB, 11 * LB
    assert near(plan["operation"]["raise_n"], G * (mass - (left + right) * each) + 10)
    assert near(plan["operation"]["lower_n"], G * (each / left + each / right - mass) + 10)


def test_the_cord_passes_from_side_to_side(cast, near):
    """Over the travel of two lines the excess changes by 4 m t."""
    ends = cast.plan()["operation"]["ends"]
    assert near(ends["lowest"]["excess_kg"] - ends["highest"]["excess_kg"], 4 * 0.025 * 0.780)


def test_a_box_of_its_own_on_one_side_binds(cast, near):
    """The shallower box decides: both cords of a sash are cut alike."""
    plain, bound = cast.plan(), cast.plan(window={"box.left": {"weight_space": "1500 mm"}})
    assert near(plain["cord"]["most_mm"] - bound["cord"]["most_mm"], 45)


def test_overrides_of_a_sash_come_before_those_of_its_window(cast, near):
    window = {"box.left": {"weight_space": "1500 mm"}}
    plan = cast.plan(window=window, box={"left": {"weight_space": "1540 mm"}})
    assert near(cast.plan()["cord"]["most_mm"] - plan["cord"]["most_mm"], 5)


def test_no_weight_length_leaves_the_longest_cord_open(cast):
    bare = {"weighed": "4 lb 14 oz"}
    plan = cast.plan(left=bare, right=bare)
    assert plan["cord"]["most_mm"] is None
    assert plan["cord"]["least_mm"] is not None
    assert plan["weights"]["bottom_clear_mm"] is None


def test_the_longer_weight_decides(cast, near):
    plan = cast.plan(right__length="350 mm")
    assert near(cast.plan()["cord"]["most_mm"] - plan["cord"]["most_mm"], 50)


def test_travel_unstated_is_what_the_frame_leaves(cast):
    stated = cast.plan(travel="780 mm", horn="30 mm")
    assert cast.plan(travel=None, horn="30 mm")["cord"] == stated["cord"]


def test_a_chain_has_no_stretch_and_no_tail(cast, near):
    plan = cast.plan(left__hung="chain", right__hung="chain")
    assert near(plan["cord"]["cut_mm"], plan["cord"]["working_mm"])


def test_readings_give_back_the_excess_they_came_from(cast):
    """Readings worked forward from excess and friction; the plan works back."""
    found = cast.plan()["operation"]
    readings = {"raising": [f"{found['raise_n']} N"] * 3, "lowering": [f"{found['lower_n']} N"] * 3}
    plan = cast.plan(readings=readings)
    assert plan["readings"]["excess_kg"] == pytest.approx(plan["found"]["excess_kg"], abs=1e-5)
    assert plan["readings"]["friction_n"] == pytest.approx(10, abs=1e-4)
    assert plan["readings"]["pulleys_taken_out"] is True


def test_readings_find_the_pair_of_a_sash_whose_weights_are_still_boxed(cast):
    readings = {"raising": ["18 N", "19 N"], "lowering": ["7 N", "8 N"]}
    plan = cast.plan(readings=readings, left=None, right=None)
    assert plan["readings"]["pulleys_taken_out"] is True
    assert "pair-from-readings" in {note["code"] for note in plan["notes"]}


def test_readings_alone_are_given_uncorrected(cast):
    readings = {"raising": ["18 N", "20 N"], "lowering": ["8 N"]}
    plan = cast.plan(readings=readings, left=None, right=None, weighed=None, head="round")
    assert plan["readings"]["pulleys_taken_out"] is False
    assert plan["readings"]["friction_n"] == pytest.approx((19 + 8) / 2)
    assert plan["readings"]["excess_kg"] == pytest.approx((19 - 8) / (2 * G), abs=1e-6)


def test_readings_of_one_way_only_tell_nothing(cast):
    assert cast.plan(readings={"raising": ["18 N"]})["readings"] is None


def test_a_cord_beside_a_chain_is_cut_as_a_cord(cast):
    plan = cast.plan(right__hung="chain")
    assert plan["cord"]["cut_mm"] == cast.plan()["cord"]["cut_mm"]
    assert "unlike-lines" in {note["code"] for note in plan["notes"]}


def test_a_sash_that_comes_down_by_itself_is_read_by_what_holds_it(cast):
    """Raising 20 lb, held with 8 lb: half of their sum is the excess, the pulleys left out."""
    readings = {"raising": ["20 lb"], "holding": ["8 lb"]}
    plan = cast.plan(readings=readings, left=None, right=None, weighed=None, head="round")
    assert plan["readings"]["excess_kg"] == pytest.approx(14 * LB, abs=1e-6)


def test_sheets_of_glass_count_each(cast):
    one, two = (
        cast.plan(weighed=None, glass={"thickness": "4 mm", "sheets": sheets})["mass_kg"]
        for sheets in (1, 2)
    )
    glass = (857 - 2 * 48 + 12) * (840 - 40 - 75 + 12) * 4 * 2500e-9
    assert two - one == pytest.approx(glass, rel=0.03)  # less some putty
