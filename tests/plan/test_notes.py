"""Every note the catalogue has can be provoked; none is a dead letter."""

from __future__ import annotations

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.plan.catalogue import ENTRIES, note
from evenhung.survey import survey_from

WEIGHT = {"weighed": "4 lb 14 oz", "length": "300 mm", "diameter": "38 mm"}
LONG = {"weighed": "4 lb 14 oz", "length": "640 mm", "diameter": "38 mm"}

PROVOKED = {
    "assumed": {"slide_friction": None},
    "estimated": {"weighed": None},
    "moisture-assumed": {"weighed": None},
    "readings-uncorrected": {
        "readings": {"raising": ["9 N"], "lowering": ["9 N"]},
        "weighed": None,
        "head": "round",
        "left": None,
    },
    "pair-from-readings": {"readings": {"raising": ["9 N"], "lowering": ["9 N"]}, "left": None},
    "readings-impossible": {
        "readings": {"raising": ["200 N"], "lowering": ["0 N"]},
        "left": None,
    },
    "mass-unknown": {"weighed": None, "head": "segmental"},
    "no-room-for-glass": {
        "weighed": None,
        "height": "110 mm",
        "cord_end": "100 mm",
        "top_nail": "90 mm",
    },
    "weight-unweighed": {"left": {"length": "300 mm", "diameter": "38 mm", "metal": "lead"}},
    "weight-unrecorded": {"left": None},
    "length-unknown": {"left": {"weighed": "4 lb 14 oz"}},
    "nail-unknown": {"top_nail": None},
    "nail-length-unknown": {},
    "pocket-unknown": {"window": {"box.stile_thickness": None}},
    "turning-unknown": {"window": {"box.compartment_width": None}},
    "make-weight-length-unknown": {
        "left": {"weighed": "4 lb", "length": "300 mm"},
        "right": {"weighed": "4 lb", "length": "300 mm"},
    },
    "made-lighter": {"weighed": "9 lb"},
    "shared": {"window": {"shared_with": "W2"}},
    "weighing-odd": {"weighed": "40 lb"},
    "density-odd": {"left": {**WEIGHT, "metal": "lead"}},
    "denser-than-lead": {"left": {"weighed": "44 kg", "length": "480 mm", "diameter": "40 mm"}},
    "mark-differs": {"left": {**WEIGHT, "marked": "6"}},
    "unlike-lines": {"left": {**WEIGHT, "hung": "chain"}},
    "band-closed": {"weighed": "120 lb"},
    "readings-disagree": {"readings": {"raising": ["90 N"] * 3, "lowering": ["2 N"] * 3}},
    "band-empty": {"left": LONG, "right": LONG},
    "cord-end-high": {"place": "upper", "cord_end": "80 mm", "top_nail": "40 mm"},
    "nail-high": {"top_nail": "50 mm"},
    "pocket-small": {"window": {"box.pocket_height": "100 mm"}},
    "too-thick": {"left": {**WEIGHT, "diameter": "65 mm"}},
    "cord-light": {
        "weighed": "34 lb",
        "house": {"cord.diameter": "5 mm"},
        "left": {"weighed": "16.2 lb", "length": "400 mm", "diameter": "50 mm"},
        "right": {"weighed": "16.2 lb", "length": "400 mm", "diameter": "50 mm"},
    },
    "pocket-narrow": {"window": {"box.pocket_width": "30 mm"}},
    "pocket-low": {"window": {"box.pocket_above_sill": "0 mm", "box.pocket_height": "231 mm"}},
    "one-cord": {"left": {"hung": "none"}},
    "cord-frayed": {"left": {**WEIGHT, "state": "frayed"}},
    "cord-broken": {"left": {**WEIGHT, "state": "broken"}},
    "painted-in": {"left": {**WEIGHT, "state": "painted in"}},
    "nail-reaches-glass": {"nails": {"length": "30 mm"}},
    "cord-proud": {"groove": {"width": "5 mm"}},
    "creep": {"house": {"policy.stretch_allowance": "5 mm"}, "place": "upper"},
    "pulley-seized": {"window": {"pulley.turns": "seized"}},
    "drifts-at-end": {
        "slide_friction": "3 N",
        "house": {"cord.mass_per_length": "400 g/m"},
    },
    "depends-on-friction": {
        "slide_friction": {"least": "0 N", "likely": "5 N", "most": "25 N"},
        "left": {**WEIGHT, "weighed": "4 lb 4 oz"},
    },
    "turns-tight": {"left": {**WEIGHT, "diameter": "45 mm", "section": "square"}},
    "square-runs-worse": {"left": {**WEIGHT, "section": "square"}},
    "tight-sash": {"width": "859.5 mm"},
    "two-people": {"weighed": "21 kg"},
    "hoist": {"weighed": "51 kg"},
    "too-stiff": {"slide_friction": "110 N"},
    "does-not-stay": {"slide_friction": "0 N"},
    "lead-weight": {"left": {**WEIGHT, "metal": "lead"}},
}

OF_A_WINDOW = {"heights-disagree", "weights-may-strike", "passing-unknown"}
OF_A_HOUSE = {"hazard"}
OF_A_REPAIR = {
    "treatment-decided",
    "extent-unknown",
    "no-room-to-splice",
    "deeper-than-usual",
    "longer-than-usual",
    "let-in",
    "scarf-steep",
    "may-bear-load",
    "cut-under-load",
    "decay-wet",
    "historic-glass",
    "sash-mostly-new",
    "curved-as-square",
    "measure-rebates",
    "safety-glass",
    "safety-glass-unknown",
    "glass-not-checked",
    "guarding",
}
"""Provoked in tests/plan/repair and tests/plan/glazing."""
OF_A_COMPLETION = {
    "proof-moves-against",
    "proof-stays-at-rest",
    "proof-excess-differs",
    "proof-pull-light",
    "proof-near-limit",
}
"""Provoked in tests/plan/test_completion.py."""
OF_AN_ALLOTMENT = {"stock-assumed", "allotted-in-steps", "bars-by-mass", "held-against"}


def test_every_note_is_provoked_somewhere():
    elsewhere = OF_A_WINDOW | OF_A_HOUSE | OF_AN_ALLOTMENT | OF_A_REPAIR | OF_A_COMPLETION
    assert set(PROVOKED) | elsewhere == set(ENTRIES)


@pytest.mark.parametrize("code", sorted(PROVOKED))
def test_a_note_is_made_where_it_should_be(cast, code):
    changes = dict(PROVOKED[code])
    assert code in cast.codes(changes.pop("place", "lower"), **changes)


def test_a_plain_survey_makes_few_notes(cast):
    assert cast.codes() == {"nail-length-unknown"}


@pytest.fixture
def two_sashes(cast):
    """Give a survey of a window with both sashes."""

    def make(**changes):
        survey = cast.survey("lower", window=changes)
        survey["window"][0]["upper"] = cast.survey("upper")["window"][0]["upper"]
        return survey

    return make


def codes_of(survey):
    (window,) = document_of(plan_house(survey_from(survey)))["windows"]
    return {one["code"] for place in ("upper", "lower") for one in window[place]["notes"]}


def test_heights_that_do_not_add_up_are_a_caution(two_sashes):
    assert "heights-disagree" in codes_of(two_sashes(**{"lower.meeting_overlap": "40 mm"}))
    assert "heights-disagree" not in codes_of(two_sashes(**{"lower.meeting_overlap": "30 mm"}))


def test_weights_without_a_parting_slip_may_strike(two_sashes):
    assert "weights-may-strike" in codes_of(two_sashes(**{"box.parting_slip": "missing"}))
    assert "weights-may-strike" not in codes_of(two_sashes())


def test_a_missing_slip_beside_a_weight_of_unknown_length_is_said(two_sashes):
    survey = two_sashes(**{"box.parting_slip": "missing", "lower.left.length": None})
    (window,) = document_of(plan_house(survey_from(survey)))["windows"]
    texts = [one["text"] for one in window["lower"]["notes"] if one["code"] == "passing-unknown"]
    assert len(texts) == 1
    assert "on the left" in texts[0]
    assert "where a weight runs not known" in texts[0]


def test_a_missing_slip_between_unmeasured_weights_is_not_checked(two_sashes):
    survey = two_sashes(**{"box.parting_slip": "missing", "lower.left.diameter": None})
    assert "passing-unknown" in codes_of(survey)


def test_the_house_is_told_of_every_hazard_and_whom_to_defer_to(cast):
    notes = document_of(plan_house(survey_from(cast.survey())))["notes"]
    rules = [one for one in notes if one["code"] == "hazard"]
    told = " ".join(one["text"] for one in rules)
    for word in ("drop", "Tie off", "glove", "lead", "asbestos", "height", "two people", "night"):
        assert word.lower() in told.lower()
    assert all("local codes and licensed practice come first" in one["source"] for one in rules)


def test_a_note_says_where_it_comes_from(cast):
    for one in cast.plan(slide_friction=None, weighed=None)["notes"]:
        assert one["source"]
        assert one["severity"] in ("info", "caution", "fault")


def test_an_unknown_code_is_a_fault_of_ours():
    with pytest.raises(KeyError, match="no-such-note"):
        note("no-such-note")


@pytest.mark.parametrize("marked", ["5", "5 lb", "No. 5", "2.27", "5 1/2"])
def test_a_mark_that_agrees_with_the_weighing_is_passed_over(cast, marked):
    weight = {**WEIGHT, "weighed": "5 lb", "marked": marked}
    assert "mark-differs" not in cast.codes(left=weight)


@pytest.mark.parametrize("marked", ["10", "XII", "5.6", "4 1/2"])
def test_marks_are_not_trusted_weighings_are(cast, marked):
    """Common practice, no source: the plan goes by the weighing, whatever is cast on the weight."""
    weight = {**WEIGHT, "marked": marked}
    plan = cast.plan(left=weight)
    assert plan["found"] == cast.plan()["found"]
    assert "mark-differs" in {one["code"] for one in plan["notes"]}


@pytest.mark.parametrize(("weighed", "is_questioned"), [("7.86 kg", False), ("7.87 kg", True)])
def test_a_weight_of_unstated_metal_may_be_lead_and_no_denser(cast, weighed, is_questioned):
    """0.6032 L of lead at 11340 kg/m3 and 15 % more would be 7.866 kg."""
    weight = {"weighed": weighed, "length": "480 mm", "diameter": "40 mm"}
    assert ("denser-than-lead" in cast.codes(left=weight)) is is_questioned


def test_a_weight_is_made_lighter_without_a_word_where_that_is_allowed(cast):
    assert "made-lighter" not in cast.codes(weighed="9 lb", house={"policy.trim": "yes"})
