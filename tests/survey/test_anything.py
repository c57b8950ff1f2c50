"""Whatever is in a file is a survey or refused; whatever is a survey is planned, and in sense."""

from __future__ import annotations

import copy
import json
import math
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from evenhung.cli.lines import plan_lines
from evenhung.errors import InvalidSurvey
from evenhung.plan import document_of, plan_house
from evenhung.survey import read_survey, survey_from, written_survey

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]
few = settings(deadline=None, max_examples=150, suppress_health_check=SLOW)
many = settings(deadline=None, max_examples=20_000, suppress_health_check=SLOW)


def check_reading(data, notation):
    """Read a file: either it is a survey, or it is refused in lines that a person can read."""
    check_answer(lambda: read_survey(data, notation))


def check_survey(document):
    """Make a survey of plain data: either it is planned, or it is refused."""
    check_answer(lambda: survey_from(document))


def check_answer(read):
    """Call what reads a survey; whatever else it raises goes on to fail the test."""
    try:
        survey = read()
    except InvalidSurvey as caught:
        refusal = caught
    else:
        check_plan(survey)
        return
    assert refusal.faults
    for fault in refusal.faults:
        assert fault.path
        assert str(fault).isprintable()


def check_plan(survey):
    """Plan a survey in both systems, and look for nonsense in what is printed."""
    for system in ("imperial", "metric"):
        plan = plan_house(survey, shown_in=system)
        document = document_of(plan)
        json.dumps(document, allow_nan=False)
        for line in plan_lines(plan):
            assert "nan" not in re.findall(r"\w+", line.replace(survey.house.name, ""))
        for window in document["windows"]:
            for sash in (window["upper"], window["lower"]):
                if sash is not None:
                    check_sense(sash)


NEGATIVE = r"[ (]-[0-9][0-9 ./]* ?(mm|in|ft|kg|g|lb|oz|N|lbf)\b"
"""A quantity below nothing; a name such as -0 is none."""


def check_sense(sash):
    """Whatever was surveyed, a plan has no negative weight, length or clearance to work by."""
    assert sash["mass_kg"] is None or sash["mass_kg"] > 0.0
    pair = sash["pair_kg"]
    if pair["least"] is not None:
        assert pair["least"] <= pair["best"] <= pair["most"]
    for said in [sash["found"]["reason"], *(note["text"] for note in sash["notes"])]:
        if "excess" not in said:  # which is less than nothing where the pair is the heavier
            assert not re.search(NEGATIVE, said), said
    check_cord(sash)
    if sash["hung"] is not None:
        check_cord(sash["hung"])
        check_hung(sash["hung"], pair)


def check_cord(hang):
    """A cord that is to be cut is within its band and keeps both ends of the weight clear."""
    cord, clear = hang["cord"], hang["weights"]
    if cord["working_mm"] is None:
        assert cord["cut_mm"] is cord["mark_slack_mm"] is None
        return
    assert 0.0 < cord["mark_slack_mm"] <= cord["working_mm"]
    assert cord["mark_slack_mm"] <= cord["cut_mm"]
    assert cord["least_mm"] <= cord["working_mm"] + 1e-5
    assert cord["most_mm"] is None or cord["working_mm"] <= cord["most_mm"] + 1e-5
    assert all(room is None or room > -1e-5 for room in clear.values())


def check_hung(hung, pair):
    """What is to be hung weighs and measures something, and is a true pair."""
    for weight in (hung["left"], hung["right"]):
        assert weight["mass_kg"] > 0.0
        assert weight["length_mm"] is None or weight["length_mm"] > 0.0
    assert pair["least"] - 1e-4 <= hung["pair_kg"] <= pair["most"] + 1e-4


SCRAPS = ["form", "1", "=", "[", "]", "{", "}", '"', "'", ",", ":", ".", "\n", " ", "#", "window"]
SCRAPS += ["house", "name", "0x", "nan", "inf", "1e9", "null", "true", "2026-01-01", "\\u0000", "½"]


def mutated(draw, document):
    """Take a survey and delete, copy, retype, swap or misplace some of its values."""
    document = copy.deepcopy(document)
    for _ in range(draw(st.integers(1, 4))):
        parts = list(_parts(document))
        if not parts:
            break
        places = st.integers(0, len(parts) - 1)
        (part, key), (other, other_key) = parts[draw(places)], parts[draw(places)]
        way = draw(st.sampled_from(["delete", "copy", "swap", "retype", "rename"]))
        if way == "delete":
            del part[key]
        elif way == "copy":
            other[other_key] = copy.deepcopy(part[key])
        elif way == "swap":
            part[key], other[other_key] = copy.deepcopy(other[other_key]), copy.deepcopy(part[key])
        elif way == "rename" and isinstance(part, dict):
            part[draw(st.text(max_size=9))] = part.pop(key)
        else:
            part[key] = draw(VALUES)
    return document


def _parts(value):
    pairs = value.items() if isinstance(value, dict) else enumerate(value)
    for key, one in pairs:
        yield value, key
        if isinstance(one, dict | list):
            yield from _parts(one)


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text() | st.sampled_from(SCRAPS)
    | st.sampled_from(["1 kg", "0 kg", "0 N", "1 mm", "100 mm", "1 m", "2 ft 9 in", "none", "no"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=4,
)  # fmt: skip


@few
@given(st.binary(), st.sampled_from(["toml", "json"]))
def test_any_bytes_are_a_survey_or_refused(data, notation):
    check_reading(data, notation)


@few
@given(st.lists(st.sampled_from(SCRAPS)), st.sampled_from(["toml", "json"]))
def test_any_heap_of_scraps_is_a_survey_or_refused(scraps, notation):
    check_reading("".join(scraps).encode(), notation)


@few
@given(st.data(), st.sampled_from(["toml", "json"]))
def test_any_slip_in_the_file_is_a_survey_or_refused(demo_survey, data, notation):
    whole = written_survey(survey_from(demo_survey), notation)
    at = data.draw(st.integers(0, len(whole)))
    slip = data.draw(st.binary(max_size=3) | st.sampled_from(SCRAPS).map(str.encode))
    dropped = data.draw(st.sampled_from([0, 1, 2, 9, 99, 999]))
    check_reading(whole[:at] + slip + whole[at + dropped :], notation)


@pytest.mark.slow
@few
@given(st.data())
def test_any_change_of_a_survey_is_planned_or_refused(demo_survey, data):
    check_survey(mutated(data.draw, demo_survey))


@few
@given(VALUES)
def test_any_plain_data_is_planned_or_refused(document):
    check_survey(document)


@few
@given(st.data())
def test_any_house_that_could_be_is_planned(surveys, data):
    check_plan(survey_from(data.draw(surveys)))


@pytest.mark.slow
@few
@given(st.data())
def test_any_window_with_other_sizes_is_planned(altered_surveys, data):
    check_plan(survey_from(data.draw(altered_surveys)))


@pytest.mark.long
@many
@given(st.data())
def test_any_of_very_many_changes_is_planned_or_refused(demo_survey, data):
    check_survey(mutated(data.draw, demo_survey))


@pytest.mark.long
@many
@given(st.data())
def test_any_of_very_many_windows_is_planned(altered_surveys, data):
    check_plan(survey_from(data.draw(altered_surveys)))


@pytest.mark.long
@many
@given(st.data(), st.sampled_from(["toml", "json"]))
def test_any_of_very_many_slips_is_a_survey_or_refused(demo_survey, data, notation):
    whole = written_survey(survey_from(demo_survey), notation)
    at = data.draw(st.integers(0, len(whole)))
    check_reading(whole[:at] + data.draw(st.binary(max_size=9)) + whole[at:], notation)


def test_the_checks_of_sense_can_fail():
    cord = {"working_mm": 100.0, "mark_slack_mm": 99.0, "cut_mm": 250.0, "least_mm": 101.0}
    with pytest.raises(AssertionError):
        check_cord({"cord": {**cord, "most_mm": 200.0}, "weights": {}})
    weight = {"mass_kg": -1.0, "length_mm": math.nan}
    with pytest.raises(AssertionError):
        check_hung({"left": weight, "right": weight, "pair_kg": 2.0}, {"least": 1.0, "most": 3.0})
