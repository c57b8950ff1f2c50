"""The verdict on a sash as found: the first that applies, its limits inclusive."""

from __future__ import annotations

import pytest

OTHER = {"length": "300 mm", "diameter": "38 mm"}


def verdict(plan):
    return plan["found"]["verdict"]


def test_a_sash_on_its_best_pair_hangs_true(cast):
    assert verdict(cast.plan()) == "hangs true"


def test_a_fixed_sash_is_fixed_whatever_else_is_wrong(cast):
    plan = cast.plan(runs="no", cord_end=None, top_nail=None, left=None, right=None)
    assert verdict(plan) == "fixed"
    assert plan["hung"] is None
    assert plan["cord"]["cut_mm"] is None


@pytest.mark.parametrize(
    ("each", "expected"),
    [
        ("4 lb 12 oz", "hangs true"),  # a pair of 9 1/2 lb: an excess of 1 1/2 lb, the most
        ("5 lb", "hangs true"),  # a pair of 10 lb: an excess of 1 lb, the least
        ("4.749 lb", "adjust"),
        ("5.001 lb", "adjust"),
    ],
)
def test_limits_of_the_excess_are_inclusive(cast, each, expected):
    plan = cast.plan(left={**OTHER, "weighed": each}, right={**OTHER, "weighed": each})
    assert verdict(plan) == expected


@pytest.mark.parametrize(
    ("right", "expected"), [("5 lb 2 oz", "hangs true"), ("5.126 lb", "adjust")]
)
def test_left_and_right_may_differ_by_a_quarter_of_a_pound(cast, right, expected):
    plan = cast.plan(left={**OTHER, "weighed": "4 lb 14 oz"}, right={**OTHER, "weighed": right})
    assert verdict(plan) == expected


def test_an_upper_sash_wants_a_heavier_pair(cast):
    assert verdict(cast.plan("upper")) == "adjust"
    heavy = {**OTHER, "weighed": "6 lb 4 oz"}
    assert verdict(cast.plan("upper", left=heavy, right=heavy)) == "hangs true"


def test_a_weight_longer_than_the_box_allows_stops_the_sash(cast):
    long = {"weighed": "4 lb 14 oz", "length": "640 mm"}
    plan = cast.plan(left=long, right=long)
    assert verdict(plan) == "cannot run"
    assert plan["cord"]["least_mm"] > plan["cord"]["most_mm"]
    assert plan["cord"]["working_mm"] is plan["cord"]["cut_mm"] is None
    assert plan["weights"] == {"top_clear_mm": None, "bottom_clear_mm": None}
    assert plan["operation"]["raise_n"] is not None


def test_a_weight_that_does_not_pass_its_pocket_stops_the_sash(cast):
    plan = cast.plan(window={"box.pocket_height": "150 mm"})
    assert verdict(plan) == "cannot run"
    assert plan["pocket"]["passes"] is False


def test_a_pocket_too_narrow_stops_the_sash(cast):
    assert verdict(cast.plan(window={"box.pocket_width": "37 mm"})) == "cannot run"
    assert verdict(cast.plan(window={"box.pocket_width": "38 mm"})) == "hangs true"


@pytest.mark.parametrize(("nail", "expected"), [("60 mm", "hangs true"), ("59 mm", "cannot run")])
def test_a_nail_too_high_keeps_a_lower_sash_from_its_top(cast, nail, expected):
    # axle 90 mm below the head, sash top 1650 - 840 - 780 = 30 mm below it: 90 - 30 - and no margin
    plan = cast.plan(top_nail=nail, house={"policy.nail_margin": "0 mm"})
    assert verdict(plan) == expected


def test_an_upper_sash_with_a_high_nail_cannot_close(cast):
    plan = cast.plan("upper", top_nail="99 mm")
    assert verdict(plan) == "cannot run"
    assert "cannot close" in plan["found"]["reason"]


def test_a_cord_that_ends_above_the_pulley_stops_the_sash(cast):
    plan = cast.plan("upper", cord_end="80 mm", top_nail="40 mm")
    assert verdict(plan) == "cannot run"
    assert plan["cord"]["least_mm"] is None
    assert plan["hung"] is None


def test_what_is_not_weighed_is_unknown(cast):
    plan = cast.plan(left=OTHER)
    assert verdict(plan) == "unknown"
    assert plan["found"]["pair_kg"] is plan["found"]["excess_kg"] is plan["hung"] is None


def test_a_side_left_out_is_unknown(cast):
    plan = cast.plan(right=None)
    assert verdict(plan) == "unknown"
    assert "weight-unrecorded" in {note["code"] for note in plan["notes"]}


def test_a_curved_head_unweighed_is_unknown(cast):
    plan = cast.plan(weighed=None, head="round")
    assert verdict(plan) == "unknown"
    assert plan["mass_kg"] is plan["mass_from"] is None


def test_a_missing_weight_is_rehung_as_its_fellow(cast):
    plan = cast.plan(right={"hung": "none"})
    assert verdict(plan) == "rehang"
    assert plan["hung"]["right"]["origin"] == "new"
    assert plan["hung"]["right"]["mass_kg"] == plan["hung"]["left"]["mass_kg"]
    assert plan["found"]["pair_kg"] == plan["hung"]["left"]["mass_kg"]


def test_a_broken_cord_is_rehung_on_its_own_weights(cast):
    plan = cast.plan(left__state="broken")
    assert verdict(plan) == "rehang"
    assert "one-cord" in {note["code"] for note in plan["notes"]}
    assert [plan["hung"][side]["origin"] for side in ("left", "right")] == ["found", "found"]


def test_weights_far_too_heavy_are_rehung_on_new_ones(cast):
    heavy = {**OTHER, "weighed": "9 lb"}
    plan = cast.plan(left=heavy, right=heavy)
    assert verdict(plan) == "rehang"
    assert plan["hung"]["left"]["origin"] == "new"
    assert "too much would have to come off" in plan["found"]["reason"]


def test_weights_a_little_too_heavy_are_taken_down(cast):
    heavy = {**OTHER, "weighed": "5 lb 4 oz"}
    plan = cast.plan(left=heavy, right=heavy)
    assert verdict(plan) == "adjust"
    assert plan["hung"]["left"]["add_kg"] < 0
    assert "take 0.17 kg (6 oz) off the left" in plan["found"]["reason"]


def test_only_friction_short_is_adjusted_by_friction(cast):
    plan = cast.plan(slide_friction="0 N", house={"policy.lower_excess": _wide()})
    assert verdict(plan) == "adjust"
    assert "friction" in plan["found"]["reason"]
    assert plan["operation"]["stays_put"] is False
    assert plan["hung"]["left"]["add_kg"] == 0.0


def _wide():
    return {"least": "0 lb", "best": "1 lb", "most": "3 lb"}


def test_friction_that_may_or_may_not_suffice_does_not_decide(cast):
    plan = cast.plan(
        slide_friction={"least": "0 N", "likely": "5 N", "most": "25 N"},
        house={"policy.lower_excess": _wide()},
    )
    assert plan["operation"]["stays_put"] is None
    assert verdict(plan) == "hangs true"
    assert "depends-on-friction" in {note["code"] for note in plan["notes"]}


def test_two_missing_weights_are_rehung_whatever_lengths_they_had(cast):
    gone = {"hung": "none", "length": "640 mm", "diameter": "38 mm"}
    plan = cast.plan(left=gone, right=gone)
    assert verdict(plan) == "rehang"
    assert plan["cord"]["most_mm"] is None


def test_a_pair_right_in_sum_but_unlike_says_so(cast):
    plan = cast.plan(
        left={**OTHER, "weighed": "4 lb 10 oz"}, right={**OTHER, "weighed": "5 lb 2 oz"}
    )
    assert verdict(plan) == "adjust"
    assert plan["found"]["reason"].startswith("left and right are 0.23 kg (8 oz) apart: add")


def test_the_side_whose_box_is_short_is_named(cast):
    plan = cast.plan(window={"box.right": {"weight_space": "1200 mm"}})
    assert verdict(plan) == "cannot run"
    assert "on the right" in plan["found"]["reason"]
