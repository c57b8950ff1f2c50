"""What a sash is to hang on: brought right, its made-up weights still travel clear."""

from __future__ import annotations

import math
import random

import pytest

LB = 0.45359237


def test_make_weights_lengthen_the_weight_by_their_metal(cast):
    """1/2 lb of steel on a round of 38 mm, at 7850 kg/m3."""
    light = {"weighed": "4 lb 6 oz", "length": "300 mm", "diameter": "38 mm"}
    left = cast.plan(left=light, right=light)["hung"]["left"]
    assert left["add_kg"] == pytest.approx(0.5 * LB, abs=1e-6)
    added = 0.5 * LB / (7850e-9 * math.pi / 4 * 38**2)
    assert left["length_mm"] == pytest.approx(300 + added, abs=1e-3)


def test_a_square_weight_is_made_up_square(cast):
    light = {"weighed": "4 lb 6 oz", "length": "300 mm", "diameter": "38 mm", "section": "square"}
    left = cast.plan(left=light, right=light)["hung"]["left"]
    assert left["length_mm"] == pytest.approx(300 + 0.5 * LB / (7850e-9 * 38**2), abs=1e-3)


def test_make_weights_of_lead_are_shorter(cast):
    light = {"weighed": "4 lb 6 oz", "length": "300 mm", "diameter": "38 mm"}
    lead = cast.plan(left=light, right=light, house={"policy.make_weight_metal": "lead"})
    steel = cast.plan(left=light, right=light)
    assert lead["hung"]["left"]["length_mm"] < steel["hung"]["left"]["length_mm"]


def test_made_up_weights_too_long_for_the_box_are_replaced(cast):
    """585 mm would just run; the steel it lacks makes it too long, and so is iron of that bore."""
    long = {"weighed": "4 lb", "length": "585 mm", "diameter": "22 mm"}
    plan = cast.plan(left=long, right=long, window={"box.pocket_height": "700 mm"})
    assert plan["found"]["verdict"] == "rehang"
    assert "too long for the box" in plan["found"]["reason"]
    assert plan["hung"]["left"]["metal"] == "lead"


def test_nothing_is_proposed_where_nothing_would_travel(cast):
    thin = {"weighed": "4 lb", "length": "585 mm", "diameter": "12 mm"}
    plan = cast.plan(left=thin, right=thin, window={"box.pocket_height": "1 m"})
    assert plan["found"]["verdict"] == "rehang"
    assert plan["hung"] is None
    assert "no weight that would serve travels clear" in plan["found"]["reason"]


def test_a_sash_that_cannot_run_is_offered_lead(cast):
    long = {"weighed": "4 lb 14 oz", "length": "640 mm", "diameter": "38 mm"}
    plan = cast.plan(left=long, right=long)
    assert plan["found"]["verdict"] == "cannot run"
    assert plan["hung"]["weights"]["bottom_clear_mm"] >= 25
    assert "would run" in plan["found"]["reason"]


def test_a_made_up_weight_of_unknown_bore_has_no_length(cast):
    light = {"weighed": "4 lb 6 oz", "length": "300 mm"}
    plan = cast.plan(left=light, right=light)
    assert plan["hung"]["left"]["length_mm"] is None
    assert plan["hung"]["cord"]["most_mm"] is None
    assert "make-weight-length-unknown" in {note["code"] for note in plan["notes"]}


def test_any_pair_is_brought_right(cast):
    """Over random sashes and weights, what is hung is in band, alike, clear at both ends."""
    draw = random.Random(20)
    for _ in range(150):
        place = draw.choice(["upper", "lower"])
        weights = [
            {"weighed": f"{draw.uniform(2, 12):.3f} lb", "length": "310 mm", "diameter": "40 mm"}
            for _ in range(2)
        ]
        mass = f"{draw.uniform(6, 24):.3f} lb"
        plan = cast.plan(place, weighed=mass, left=weights[0], right=weights[1])
        hung, pair = plan["hung"], plan["pair_kg"]
        if hung is None:
            assert plan["found"]["verdict"] in ("rehang", "cannot run")
            continue
        left, right = hung["left"]["mass_kg"], hung["right"]["mass_kg"]
        assert pair["least"] - 1e-4 <= left + right <= pair["most"] + 1e-4
        assert abs(left - right) <= 0.25 * LB + 1e-4
        assert hung["weights"]["top_clear_mm"] >= 40 - 1e-6
        assert hung["weights"]["bottom_clear_mm"] >= (55 if place == "upper" else 25) - 1e-6


def test_a_missing_weight_beside_a_square_one_is_square(cast):
    square = {"weighed": "4 lb 14 oz", "length": "150 mm", "diameter": "36 mm", "section": "square"}
    plan = cast.plan(left=square, right={"hung": "none"})
    right = plan["hung"]["right"]
    assert plan["hung"]["left"]["origin"] == "found"
    assert right["length_mm"] == pytest.approx(4.875 * LB / (7200e-9 * 36**2), abs=1e-3)


def test_a_seized_wheel_is_reckoned_freed_for_what_is_hung(cast):
    seized = cast.plan(window={"pulley.turns": "seized"})
    assert seized["hung"]["operation"] == cast.plan()["hung"]["operation"]
    assert seized["operation"]["raise_n"] > seized["hung"]["operation"]["raise_n"]


def test_a_new_pair_says_why_what_and_how_long(cast):
    heavy = {"weighed": "9 lb", "length": "300 mm", "diameter": "38 mm"}
    reason = cast.plan(left=heavy, right={"hung": "none"})["found"]["reason"]
    for part in ("the right weight is missing", "too much would have to come off", "cast iron"):
        assert part in reason
    assert "long at 38 mm" in reason


def test_what_is_added_has_a_metal_and_a_length(cast):
    light = {"weighed": "4 lb 6 oz", "length": "300 mm", "diameter": "38 mm"}
    left = cast.plan(left=light, right=light)["hung"]["left"]
    assert left["added_metal"] == "mild steel"
    assert left["added_mm"] == pytest.approx(left["length_mm"] - 300, abs=1e-3)
