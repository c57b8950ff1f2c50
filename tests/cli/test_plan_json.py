"""``plan --json``: one object, every key of the contract always, whatever a survey leaves out."""

from __future__ import annotations

import copy
import json

import pytest
import tomli_w

SASH = {
    "mass_kg": None,
    "mass_sd_kg": None,
    "mass_from": None,
    "pair_kg": {"least", "best", "most"},
    "found": {"pair_kg", "excess_kg", "verdict"},
    "cord": {"diameter_mm", "least_mm", "most_mm", "working_mm", "cut_mm"},
    "weights": {"top_clear_mm", "bottom_clear_mm"},
    "operation": {"raise_n", "lower_n", "rests_shut", "stays_put"},
    "pocket": {"needed_mm", "passes"},
    "hung": None,
    "notes": None,
}
"""The keys of a sash that scripts rely on, and those of the objects in it."""

HUNG = {"left", "right", "pair_kg", "cord", "weights", "operation"}
NOTE = {"code", "severity", "text", "source"}
VERDICTS = {"fixed", "cannot run", "unknown", "rehang", "adjust", "hangs true"}


@pytest.fixture
def planned(says, tmp_path):
    """Gives ``planned(document)``: what ``plan --json`` prints, its contract checked."""

    def answer(document):
        survey = tmp_path / "house.toml"
        survey.write_bytes(tomli_w.dumps(document).encode())
        code, lines, errors = says("plan", str(survey), "--json")
        assert (code, errors, len(lines)) == (0, [], 1)
        plan = json.loads(lines[0], parse_constant=pytest.fail)
        check_contract(plan)
        return plan

    return answer


def check_contract(plan):
    """Check that every promised key is there and nothing promised is of another kind."""
    assert plan["form"] == 1
    assert set(plan["house"]) >= {"name", "shown_in"}
    check_notes(plan["notes"])
    for window in plan["windows"]:
        assert set(window) >= {"tag", "upper", "lower"}
        for place in ("upper", "lower"):
            if window[place] is not None:
                check_sash(window[place])


def check_sash(sash):
    assert set(sash) >= set(SASH)
    for key, inner in SASH.items():
        if inner is not None:
            assert set(sash[key]) >= inner, key
    assert sash["mass_from"] in ("weighed", "estimated", None)
    assert sash["found"]["verdict"] in VERDICTS
    check_notes(sash["notes"])
    if sash["hung"] is not None:
        assert set(sash["hung"]) >= HUNG
        for key in ("cord", "weights", "operation"):
            assert set(sash["hung"][key]) >= SASH[key], key


def check_notes(notes):
    for note in notes:
        assert set(note) == NOTE
        assert note["severity"] in ("info", "caution", "fault")
        assert all(isinstance(said, str) and said for said in note.values()), note


def test_the_demo_house_keeps_the_contract(planned, tollgate):
    plan = planned(tollgate)
    assert plan["house"] == {"name": "Tollgate House", "shown_in": "imperial"}
    assert [window["tag"] for window in plan["windows"]] == ["W1", "W2", "W3", "W4", "W5", "W6"]
    found = {
        window[place]["found"]["verdict"]
        for window in plan["windows"]
        for place in ("upper", "lower")
    }
    assert found == VERDICTS  # so that the demo house shows every one of them


def test_a_house_without_windows_keeps_the_contract(planned):
    assert planned({"form": 1, "house": {"name": "Alder Row"}})["windows"] == []


def test_a_window_without_sashes_gives_null_for_each(planned, tollgate):
    del tollgate["window"][0]["upper"], tollgate["window"][0]["lower"]
    window = planned(tollgate)["windows"][0]
    assert (window["upper"], window["lower"]) == (None, None)


def test_a_window_of_one_sash_gives_null_for_the_other(planned, tollgate):
    del tollgate["window"][0]["upper"]
    window = planned(tollgate)["windows"][0]
    assert window["upper"] is None
    assert window["lower"]["found"]["verdict"] == "hangs true"


@pytest.fixture
def lower(planned, tollgate):
    """Gives ``lower(**changes)``: the plan of the first window's lower sash, so changed."""

    def answer(**changes):
        document = copy.deepcopy(tollgate)
        sash = document["window"][0]["lower"]
        for key, value in changes.items():
            if value is ...:
                del sash[key]
            else:
                sash[key] = value
        return planned(document)["windows"][0]["lower"]

    return answer


def test_a_fixed_sash_keeps_the_contract(lower):
    sash = lower(runs="no")
    assert sash["found"]["verdict"] == "fixed"
    assert sash["hung"] is None
    assert sash["cord"]["working_mm"] is None
    assert sash["mass_kg"] > 0.0


def test_a_sash_of_unknown_mass_keeps_the_contract(lower):
    sash = lower(weighed=..., head="round")
    assert (sash["mass_kg"], sash["mass_sd_kg"], sash["mass_from"]) == (None, None, None)
    assert sash["pair_kg"] == {"least": None, "best": None, "most": None}
    assert sash["found"]["verdict"] == "unknown"
    assert sash["found"]["excess_kg"] is None
    assert sash["cord"]["working_mm"] > 0.0  # which needs no mass
    assert sash["hung"] is None


def test_a_side_left_out_is_unknown(lower):
    sash = lower(left=...)
    assert sash["found"]["verdict"] == "unknown"
    assert sash["found"]["pair_kg"] is None


def test_both_sides_left_out_are_unknown(lower):
    sash = lower(left=..., right=...)
    assert sash["found"]["verdict"] == "unknown"
    assert sash["weights"] == {"top_clear_mm": pytest.approx(40.0), "bottom_clear_mm": None}


def test_a_missing_weight_is_rehung(lower):
    sash = lower(right={"hung": "none"})
    assert sash["found"]["verdict"] == "rehang"
    assert sash["found"]["pair_kg"] == pytest.approx(4.025632)
    assert sash["hung"]["right"]["mass_kg"] > 0.0


def test_no_length_leaves_the_longest_cord_open(lower):
    weight = {"weighed": "8 lb 14 oz"}
    cord = lower(left=weight, right=weight)["cord"]
    assert cord["most_mm"] is None
    assert cord["least_mm"] > 0.0


def test_a_band_that_is_empty_gives_both_its_ends_and_no_cord(planned, tollgate):
    sash = planned(tollgate)["windows"][3]["lower"]
    assert sash["found"]["verdict"] == "cannot run"
    assert sash["cord"]["least_mm"] > sash["cord"]["most_mm"]
    assert sash["cord"]["working_mm"] is sash["cord"]["cut_mm"] is None
    assert sash["weights"] == {"top_clear_mm": None, "bottom_clear_mm": None}
    assert sash["operation"]["raise_n"] is not None


def test_what_cannot_be_known_has_a_note(lower):
    codes = {note["code"] for note in lower(left=..., top_nail=...)["notes"]}
    assert {"weight-unrecorded", "nail-unknown"} <= codes


def test_names_of_any_script_are_printed_as_they_are(says, tmp_path):
    survey = tmp_path / "house.json"
    survey.write_text('{"form": 1, "house": {"name": "窓 ½"}}', encoding="utf-8")
    _, (line,), _ = says("plan", str(survey), "--json")
    assert '"窓 ½"' in line
