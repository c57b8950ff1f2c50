"""Which weight hangs where: what is kept, moved, added, made, bought, and what is decided."""

from __future__ import annotations

import pytest

LB = 0.45359237

TO_ITS_BEST = {"worth": {"near": "40"}}
"""A policy by which a pair at its best is worth a make-weight."""


def test_weights_that_serve_stay(row):
    assert row.sides([("4 lb 14 oz", "4 lb 14 oz")]) == {"W1 left": "keep", "W1 right": "keep"}


def test_weights_that_were_changed_over_go_back(row):
    sash = {2: {"weighed": "14 lb"}}
    said = row.sides([("6 lb 6 oz", "4 lb 14 oz"), ("4 lb 14 oz", "6 lb 6 oz")], sash=sash)
    moved = {place: says for place, says in said.items() if says != "keep"}
    assert moved in (
        {"W1 left": "the weight from W2 left"} | {"W2 left": "the weight from W1 left"},
        {"W1 left": "the weight from W2 lower left", "W2 left": "the weight from W1 lower left"},
    )


def test_a_loose_weight_stands_in_for_a_missing_one(row):
    said = row.sides([("4 lb 14 oz", None)], loose={"A": "4 lb 14 oz", "B": "9 lb"})
    assert said == {"W1 left": "keep", "W1 right": "loose weight A"}


def test_make_weights_are_added_before_a_weight_is_moved(row, pieces):
    loose = {"A": "4 lb 14 oz", "B": "4 lb 14 oz"}
    said = row.sides([("4 lb 6 oz", "4 lb 6 oz")], stock=pieces, policy=TO_ITS_BEST, loose=loose)
    assert said == {"W1 left": "keep, add 1/2 lb", "W1 right": "keep, add 1/2 lb"}


def test_what_hangs_is_what_its_parts_weigh(row, pieces):
    found = row.document([("4 lb 6 oz", "4 lb 6 oz")], stock=pieces, policy=TO_ITS_BEST)
    for side in found["sides"]:
        assert side["mass_kg"] == pytest.approx(4.875 * LB, abs=1e-6)
        assert side["length_mm"] == pytest.approx(326, abs=1e-6)
        assert side["add"] == [{"mass_kg": pytest.approx(0.5 * LB, abs=1e-6), "count": 1}]


def test_trimming_is_off_unless_allowed(row):
    heavy = [("5 lb 2 oz", "5 lb 2 oz")]
    (left_alone,) = row.document(heavy)["unserved"]
    assert left_alone["asked"]
    assert "no two weights" in left_alone["reason"]
    policy = {"trim": "yes"}
    found = row.document(heavy, policy=policy)
    assert found["unserved"] == []
    assert all("off it" in side["says"] for side in found["sides"])
    assert all(0 < side["off_kg"] <= 0.15 * 5.125 * LB for side in found["sides"])


def test_a_weight_is_moved_rather_than_trimmed(row):
    said = row.sides(
        [("5 lb 4 oz", "4 lb 14 oz")], policy={"trim": "yes"}, loose={"A": "4 lb 14 oz"}
    )
    assert said == {"W1 left": "loose weight A", "W1 right": "keep"}


ROOMS = {1: {"room": "Parlour, left"}, 2: {"room": "parlour"}, 3: {"room": "Attic"}}


def test_moves_stay_within_a_room_where_they_should(row):
    pairs = [("4 lb 14 oz", None), ("9 lb", "4 lb 14 oz"), ("4 lb 14 oz", "9 lb")]
    sash = {2: {"runs": "no"}, 3: {"runs": "no"}}
    near = row.document(pairs, window=ROOMS, sash=sash, policy={"moves": "room"})
    assert near["sides"][1]["weight"] == "W2 lower right"
    without = [pairs[0], ("9 lb", "9 lb"), pairs[2]]
    far = row.document(without, window=ROOMS, sash=sash, policy={"moves": "room"})
    assert far["unserved"][0]["window"] == "W1"
    anywhere = row.document(without, window=ROOMS, sash=sash)
    assert anywhere["sides"][1]["weight"] == "W3 lower left"
    none = row.document(without, window=ROOMS, sash=sash, policy={"moves": "none"})
    assert "weights stay at home" in none["unserved"][0]["reason"]


def test_what_is_decided_stays_decided(row):
    pairs = [("4 lb 14 oz", "4 lb 14 oz"), ("4 lb 14 oz", "4 lb 14 oz")]
    hold = {"what": "hang", "sash": "W1 lower", "side": "left", "weight": "W2 lower right"}
    found = row.document(pairs, decisions=[hold])
    assert found["sides"][0]["weight"] == "W2 lower right"
    assert found["sides"][3]["weight"] == "W1 lower left"
    never = {"what": "never", "sash": "W2 lower", "weight": "W1 lower left"}
    found = row.document(pairs, decisions=[hold, never], loose={"A": "4 lb 14 oz"})
    assert found["sides"][3]["weight"] == "A"


def test_what_is_hung_is_left_alone(row):
    pairs = [("4 lb 14 oz", None), ("4 lb 14 oz", None)]
    hung = [
        {"what": "hung", "sash": "W1 lower", "side": "left", "weight": "W1 lower left"},
        {"what": "hung", "sash": "W1 lower", "side": "right", "weight": "W2 lower left"},
    ]
    found = row.document(pairs, decisions=hung, loose={"A": "4 lb 14 oz", "B": "4 lb 14 oz"})
    (done,) = (one for one in found["unserved"] if not one["asked"])
    assert done["window"] == "W1"
    assert done["reason"].startswith("it is hung already, and true: sash 0.57 kg")
    assert {side["weight"] for side in found["sides"]} == {"A", "B"}


def test_a_sash_half_hung_is_finished(row):
    hung = {"what": "hung", "sash": "W1 lower", "side": "left", "weighed": "4 lb 15 oz"}
    found = row.document([("9 lb", "4 lb 14 oz")], decisions=[hung])
    left, right = found["sides"]
    assert left["weight"] == "new at W1 lower left"
    assert left["says"].startswith("keep, but measure its length")
    assert right["says"] == "keep"
    (left_over,) = found["left_over"]
    assert left_over["mass_kg"] == pytest.approx(9 * LB, abs=1e-6)
    assert not left_over["stays"]


def test_a_made_up_weight_that_hangs_already_counts_with_what_was_added(row):
    hung = {
        "what": "hung",
        "sash": "W1 lower",
        "side": "left",
        "weight": "W1 lower left",
        "added": "1/2 lb",
        "length": "326 mm",
    }
    found = row.document([("4 lb 6 oz", "4 lb 14 oz")], decisions=[hung])
    assert found["sides"][0]["mass_kg"] == pytest.approx(4.875 * LB, abs=1e-6)


def test_a_thick_weight_does_not_go_into_a_thin_box(row, weight):
    loose = {"A": weight("4 lb 14 oz", diameter="58 mm"), "B": "4 lb 14 oz"}
    assert row.sides([("4 lb 14 oz", None)], loose=loose)["W1 right"] == "loose weight B"
    found = row.document([("4 lb 14 oz", None)], loose={"A": loose["A"]})
    assert "too thick" in found["unserved"][0]["reason"]


def test_a_long_weight_goes_where_there_is_room(row, weight):
    longest = row.document([("4 lb 14 oz", "4 lb 14 oz")])["sides"][0]["longest_mm"]
    fits, not_quite = (f"{longest + more:.2f} mm" for more in (-0.2, 0.2))
    window = {1: {"box": {**row.window["box"], "pocket_height": "900 mm"}}}
    pairs = [("4 lb 14 oz", None)]
    found = row.document(pairs, window=window, loose={"A": weight("4 lb 14 oz", fits)})
    assert found["sides"][1]["weight"] == "A"
    found = row.document(pairs, window=window, loose={"A": weight("4 lb 14 oz", not_quite)})
    assert "too long for its boxes" in found["unserved"][0]["reason"]


def test_limits_differ_by_side(row, weight):
    """The right box is shallower: the long weight goes to the left."""
    window = {1: {"box": {**row.window["box"], "right": {"weight_space": "1245 mm"}}}}
    loose = {"A": weight("4 lb 14 oz", "400 mm"), "B": "4 lb 14 oz"}
    said = row.sides([(None, None)], window=window, loose=loose)
    assert said == {"W1 left": "loose weight A", "W1 right": "loose weight B"}


def test_an_unserved_sash_says_who_has_what_it_wants(row):
    found = row.document([("4 lb 14 oz", "4 lb 14 oz"), (None, None)])
    assert found["unserved"] == [
        {
            "window": "W2",
            "sash": "lower",
            "reason": "what would serve it serves W1 lower better",
            "asked": True,
        }
    ]


def test_weights_that_are_not_weighed_are_named(row):
    pairs = [("4 lb 14 oz", {"length": "300 mm"})]
    found = row.document(pairs)
    assert found["left_out"] == [{"name": "W1 lower right", "reason": "it is not weighed"}]


@pytest.mark.parametrize(
    ("sash", "reason"),
    [
        ({"runs": "no"}, "it is fixed"),
        ({"weighed": None, "head": "round"}, "its mass is not known"),
        ({"top_nail": "50 mm"}, "it cannot run on any weights"),
    ],
)
def test_a_sash_that_takes_no_part_says_why(row, sash, reason):
    survey_sash = {name: value for name, value in sash.items() if value is not None}
    if "weighed" in sash:
        row.window["lower"].pop("weighed")
    found = row.document([("4 lb 14 oz", "4 lb 14 oz")], sash={1: survey_sash})
    (aside,) = found["unserved"]
    assert not aside["asked"]
    assert aside["reason"].startswith(reason)
    assert found["sides"] == []
    assert (found["status"], found["cost"]) == ("optimal", 0.0)


def test_the_weights_of_a_sash_that_is_not_weighed_are_left_to_it(row):
    row.window["lower"].pop("weighed")
    sash = {1: {"head": "round"}, 2: {"weighed": "11 lb"}}
    found = row.document([("4 lb 14 oz", "4 lb 14 oz"), (None, None)], sash=sash)
    assert [one["reason"] for one in found["left_out"]] == ["W1 lower may need it"] * 2
    assert len(found["unserved"]) == 2


def test_a_weight_that_serves_two_windows_is_left_alone(row, weight):
    shared = weight("4 lb 14 oz", shared_with="W2")
    found = row.document([(shared, "4 lb 14 oz")])
    assert found["left_out"][0]["reason"] == "it serves W2 too"
    assert "serves another window" in found["unserved"][0]["reason"]


def test_a_sash_held_for_a_weight_of_unknown_mass_waits(row):
    hold = {"what": "hang", "sash": "W1 lower", "side": "left", "weight": "W1 lower left"}
    found = row.document([({"length": "300 mm"}, "4 lb 14 oz")], decisions=[hold])
    assert "shall hang there is not weighed" in found["unserved"][0]["reason"]
    hung = {**hold, "what": "hung"}
    found = row.document([({"length": "300 mm"}, "4 lb 14 oz")], decisions=[hung])
    assert "hangs there already is not weighed" in found["unserved"][0]["reason"]


def test_allowing_for_error_keeps_a_pair_well_inside(row):
    at_the_edge = [("5 lb", "5 lb")]  # the most that will do, 1 lb under the sash
    assert row.sides(at_the_edge)["W1 left"] == "keep"
    found = row.document(at_the_edge, policy={"allow_for_error": "yes"}, scale_step="1 oz")
    assert found["unserved"][0]["asked"]
    inside = row.sides(
        [("4 lb 14 oz", "4 lb 14 oz")], policy={"allow_for_error": "yes"}, scale_step="1 oz"
    )
    assert inside["W1 left"] == "keep"


def test_a_scale_too_coarse_for_the_limits_is_said(row):
    found = row.document(
        [("4 lb 14 oz", "4 lb 14 oz")], policy={"allow_for_error": "yes"}, scale_step="0.5 kg"
    )
    assert "not known closely enough" in found["unserved"][0]["reason"]


def test_the_same_house_has_the_same_allotment(row, pieces):
    pairs = [("4 lb 6 oz", "4 lb 14 oz"), ("4 lb 14 oz", "5 lb"), ("6 lb", None)]
    first, second = (row.document(pairs, stock=pieces, loose={"A": "5 lb"}) for _ in range(2))
    first.pop("seconds"), second.pop("seconds")
    assert first == second


def test_masses_without_a_common_step_are_kept_inside_and_said(row):
    pairs = [("2.2113 kg", "4 lb 14 oz")]
    found = row.document(pairs)
    (said,) = (one["text"] for one in found["notes"] if one["code"] == "allotted-in-steps")
    assert "are rounded to 2 g for the allotment" in said
    assert [side["says"] for side in found["sides"]] == ["keep", "keep"]


def test_weights_that_rounding_could_part_are_not_hung(row, weight):
    """2.2100 and 2.2104 kg are one step of 2 g, and more apart than is allowed."""
    found = row.document(
        [(weight("2.2100 kg"), weight("2.2104 kg"))], policy={"pair_difference": "0 kg"}
    )
    assert found["sides"] == []
    assert "weigh them all in one" in found["unserved"][0]["reason"]


def test_a_sash_that_cannot_be_served_keeps_what_it_hangs_on(row):
    found = row.document([("6 lb", "6 lb")])
    assert found["unserved"]
    assert found["moves"] == []
    assert all(one["stays"] for one in found["left_over"])


def test_a_sash_that_loses_a_weight_is_propped_first(row):
    found = row.document([("4 lb 14 oz", None), ("4 lb 14 oz", "9 lb")])
    (first, *_) = found["moves"]
    (bare,) = (one["window"] for one in found["unserved"])
    assert (first["what"], first["weight"]) == ("prop", f"{bare} lower")
    assert "prop it or fix it shut" in first["says"]


def test_nothing_is_added_to_what_is_hung_or_taken_off_it(row, pieces):
    hung = {"what": "hung", "sash": "W1 lower", "side": "left", "weight": "W1 lower left"}
    pairs = [("4 lb 6 oz", "4 lb 14 oz")]
    found = row.document(pairs, decisions=[hung], stock=pieces, policy={"trim": "yes"})
    assert found["sides"] == []
    assert "no two weights" in found["unserved"][0]["reason"]


def test_a_weight_that_another_was_hung_for_lies_loose(row):
    hung = {"what": "hung", "sash": "W1 lower", "side": "left", "weight": "A"}
    pairs = [("4 lb 14 oz", "4 lb 14 oz"), (None, "4 lb 14 oz")]
    found = row.document(pairs, decisions=[hung], loose={"A": "4 lb 14 oz"})
    (move,) = found["moves"]
    assert move["says"] == (
        "W2 lower left: hang the weight that was found at W1 lower left and lies loose"
    )


def test_a_weight_not_weighed_is_taken_out_before_its_box_is_filled(row):
    pairs = [({"length": "300 mm"}, "4 lb 14 oz")]
    found = row.document(pairs, loose={"A": "4 lb 14 oz"})
    assert [move["what"] for move in found["moves"]] == ["take out", "hang"]


def test_pairs_that_hang_true_as_found_stay_in_any_units(row, weight):
    """8 lb 12 oz and 3.97 kg have no common step; both limits are nearer than the rounding."""
    row.window["lower"]["weighed"] = "19 lb"
    pairs = [
        (weight("3.97 kg"), weight("8 lb 12 oz")),
        (weight("3.969 kg"), weight("8 lb 12 oz")),
        (weight("4.02 kg"), weight("4.02 kg")),
    ]
    found = row.document(pairs)
    assert [side["says"] for side in found["sides"]] == ["keep"] * 6


def test_what_stands_against_a_decision_is_said(row, weight):
    hold = {"what": "hang", "sash": "W1 lower", "side": "left", "weight": "T"}
    thick = weight("4 lb 14 oz", diameter="58 mm")
    found = row.document([(None, "4 lb 14 oz")], decisions=[hold], loose={"T": thick})
    assert found["sides"][0]["weight"] == "T"
    (caution,) = (note for note in found["notes"] if note["severity"] == "caution")
    assert caution["text"].endswith("though it is too thick for the box")


def test_a_weight_held_for_a_sash_that_takes_no_part_is_kept_for_it(row):
    hold = {"what": "hang", "sash": "W2 lower", "side": "left", "weight": "W1 lower left"}
    pairs = [("4 lb 14 oz", "4 lb 14 oz"), (None, None)]
    found = row.document(pairs, decisions=[hold], sash={2: {"runs": "no"}})
    assert found["left_out"] == [
        {"name": "W1 lower left", "reason": "it is held for W2 lower left"}
    ]


def test_what_costs_more_than_serving_is_worth_is_said_so(row):
    stock = {"make_weight": [{"mass": "1/2 lb", "length": "26 mm", "price": "900"}]}
    found = row.document([("4 lb 6 oz", "4 lb 6 oz")], stock=stock)
    assert "cost more than it is worth" in found["unserved"][0]["reason"]


def test_a_ready_made_weight_is_made_up(row, pieces):
    ready = {"name": "R", "mass": "4 lb 6 oz", "length": "270 mm"}
    found = row.document([(None, None)], stock={**pieces, "ready_made": [ready]})
    assert [side["origin"] for side in found["sides"]] == ["ready-made"] * 2
    assert all(side["add_kg"] > 0 for side in found["sides"])
