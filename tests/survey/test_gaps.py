"""Gaps: what a sound survey leaves open, where, and what follows."""

from __future__ import annotations

import pytest

from evenhung.reference import look_up
from evenhung.survey import survey_from
from evenhung.survey.fields import Record
from evenhung.survey.gaps import gaps_in


@pytest.fixture
def gaps(house):
    """The gaps of a house of one plain window, by their paths."""
    return {gap.path: gap for gap in gaps_in(survey_from(house))}


def test_what_leaves_a_check_out_comes_first(house):
    kinds = [gap.kind for gap in gaps_in(survey_from(house))]
    assert kinds == sorted(kinds, key=["left out", "assumed"].index)
    assert set(kinds) == {"left out", "assumed"}


def test_a_gap_that_is_assumed_says_what_stands_in(gaps):
    row = look_up("cords", "cord", "diameter")
    gap = gaps["house.cord.diameter"]
    assert gap.kind == "assumed"
    assert gap.meaning == f"thickness of the cord: taken as {row.value} {row.unit} ({row.known})"


def test_a_gap_that_leaves_a_check_out_says_which(gaps):
    gap = gaps["window[0].upper.top_nail"]
    assert gap.kind == "left out"
    assert "without it, whether a nail meets the pulley is not checked" in gap.meaning


def test_what_is_stated_is_no_gap(house):
    house["house"]["cord"] = {"diameter": "6 mm"}
    house["window"][0]["lower"]["left"] = {"weighed": "9 lb"}
    paths = {gap.path for gap in gaps_in(survey_from(house))}
    assert "house.cord.diameter" not in paths
    assert "house.cord.knot" in paths
    assert "window[0].lower.left.weighed" not in paths
    assert "window[0].lower.left.length" in paths


def test_what_is_absent_and_means_something_plain_is_no_gap(gaps):
    assert "house.note" not in gaps
    assert "window[0].upper.runs" not in gaps


def test_each_window_has_its_own_gaps(house):
    house["window"].append({**house["window"][0], "tag": "W2"})
    paths = {gap.path for gap in gaps_in(survey_from(house))}
    assert "window[0].box.pocket_height" in paths
    assert "window[1].box.pocket_height" in paths


def test_a_list_of_readings_is_looked_at_as_one_field(house):
    house["window"][0]["upper"]["readings"] = {"raising": ["9 N"]}
    paths = {gap.path for gap in gaps_in(survey_from(house))}
    assert "window[0].upper.readings.lowering" in paths
    assert "window[0].upper.readings.raising" not in paths


def test_every_gap_is_at_a_field_of_the_form(tollgate):
    survey = survey_from(tollgate)
    for gap in gaps_in(survey):
        part = survey
        for step in gap.path.replace("]", "").replace("[", ".").split("."):
            if isinstance(part, tuple):
                part = part[int(step)]
            else:
                assert isinstance(part, Record)
                assert step in part.entries
                part = getattr(part, step)
        assert part is None, gap
