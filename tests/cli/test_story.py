"""What is said of one sash: numbers to work by, and what they rest on."""

from __future__ import annotations

import json

import pytest

from evenhung.cli.lines import plan_lines
from evenhung.plan import plan_house
from evenhung.survey import survey_from


@pytest.fixture
def said(tollgate):
    """Give the lines on one sash of the demo house, the house changed first."""

    def lines(name, change=None):
        if change:
            change(tollgate["window"])
        plan = plan_lines(plan_house(survey_from(tollgate)))
        return [line.removeprefix(f"{name}: ") for line in plan if line.startswith(f"{name}: ")]

    return lines


def starting(lines, words):
    return [line for line in lines if line.startswith(words)]


def test_an_estimate_says_to_weigh_first(said):
    (line,) = starting(said("W5 upper"), "sash estimated at ")
    assert line.count("give or take") == 1
    assert "weigh it before any weight is changed" in line


def test_readings_are_printed(said):
    (line,) = starting(said("W5 lower"), "by the spring balance: sash 1 lb 11 1/2 oz (0.78 kg) ")
    assert " heavier than its pair, give or take " in line
    assert "; friction in the runs" in line


def test_readings_of_a_sash_that_rises_say_lighter_and_have_no_minus(says, tollgate, tmp_path):
    lower = tollgate["window"][4]["lower"]
    lower["readings"] = {"raising": ["1.3 kg"], "lowering": ["2.3 kg"]}
    survey = tmp_path / "house.json"
    survey.write_text(json.dumps(tollgate))
    _, lines, _ = says("plan", str(survey))
    (line,) = [line for line in lines if ": by the spring balance: " in line]
    assert " lighter than its pair, give or take " in line
    assert "-" not in line


def test_make_weights_have_a_metal_and_a_length(said):
    (line,) = starting(said("W2 lower"), "make-weights of mild steel")
    assert "(89 mm) long on the left" in line
    assert "(96 mm) long on the right" in line


def test_no_make_weight_is_asked_of_a_weight_that_stays(said):
    assert starting(said("W3 lower"), "make-weights") == []


def test_a_broken_cord_is_cut_anew(said):
    assert starting(said("W6 lower"), "cut two cords of ")


def test_sound_cords_are_cut_only_if_renewed(said):
    assert starting(said("W1 upper"), "if renewed, cut two cords of ")
    assert starting(said("W2 lower"), "cut two cords of ")


def test_cords_for_new_weights_are_said_to_be_theirs(said):
    assert starting(said("W4 lower"), "on those weights, cut two cords of ")


def test_a_chain_is_not_a_cord(said):
    def hang_on_chain(windows):
        for side in ("left", "right"):
            windows[0]["lower"][side]["hung"] = "chain"

    assert starting(said("W1 lower", hang_on_chain), "if renewed, two chains of ")


def test_what_is_not_checked_is_said_with_why(said):
    (line,) = starting(said("W2 lower"), "not checked: ")
    assert line == "not checked: nail against glass (nail length not stated)"


def test_a_sash_that_moves_by_itself_says_so(said):
    def overweigh(windows):
        windows[0]["lower"]["slide_friction"] = "0 N"
        windows[0]["lower"]["pulley"] = {"friction": 0.0, "cord_bend_pct": 0.0}

    assert any("lowers by itself" in line for line in said("W1 lower", overweigh))


def test_an_assumption_is_said_once_with_its_sashes(tollgate):
    lines = list(plan_lines(plan_house(survey_from(tollgate))))
    axles = [line for line in lines if "taken for granted: axle 5/16 in" in line]
    assert len(axles) == 1
    assert "W3 upper, W3 lower" in axles[0]
