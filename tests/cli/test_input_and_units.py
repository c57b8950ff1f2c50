"""Where a survey is read from, and in which system its plan is shown."""

from __future__ import annotations

import io
import json
import re
import sys

import pytest


@pytest.fixture
def typed(monkeypatch):
    """Gives ``typed(data)``: puts bytes on standard input."""

    def put(data):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))

    return put


def test_a_dash_is_standard_input(says, typed, tollgate):
    import tomli_w

    typed(tomli_w.dumps(tollgate).encode())
    code, lines, _ = says("plan", "-")
    assert code == 0
    assert lines[0].startswith("Tollgate House: ")


def test_faults_on_standard_input_are_refused_alike(says, typed):
    typed(b"form = 2")
    code, _, (error,) = says("inspect", "-")
    assert code == 2
    assert error.startswith("form: 2: at most 1")


@pytest.mark.parametrize("name", ["house.json", "HOUSE.JSON"])
def test_a_name_that_ends_in_json_is_json(says, tollgate, tmp_path, name):
    survey = tmp_path / name
    survey.write_text(json.dumps(tollgate))
    assert says("plan", str(survey))[0] == 0
    survey.write_text("form = 1")
    code, _, (error,) = says("plan", str(survey))
    assert code == 2
    assert error.startswith("file: (not JSON): ")


def test_any_other_name_is_toml(says, tollgate, tmp_path):
    survey = tmp_path / "house.json.old"
    survey.write_text(json.dumps(tollgate))
    code, _, (error,) = says("plan", str(survey))
    assert code == 2
    assert error.startswith("file: (not TOML): ")


def test_the_house_chooses_what_is_shown_first_and_units_overrules_it(says, demo):
    for units, shown in ((None, "18 lb (8.16 kg)"), ("imperial", "18 lb (8.16 kg)"),
                         ("metric", "8.16 kg (18 lb)")):  # fmt: skip
        options = ["--units", units] if units else []
        _, lines, _ = says("plan", demo, *options)
        assert any(shown in line for line in lines), units


def test_units_are_told_in_the_object_and_change_no_number(says, demo):
    plans = {}
    for units in ("imperial", "metric"):
        _, (line,), _ = says("plan", demo, "--json", "--units", units)
        plans[units] = json.loads(line)
        assert plans[units]["house"]["shown_in"] == units
    left, right = (plan["windows"][0]["upper"] for plan in plans.values())
    assert left["cord"] == right["cord"]
    assert left["hung"] == right["hung"]


def test_inspect_lists_each_gap_once_with_every_place_that_has_it(says, demo):
    code, lines, errors = says("inspect", demo)
    assert (code, errors) == (0, [])
    _, (line,), _ = says("inspect", demo, "--json")
    gaps = json.loads(line)["gaps"]
    assert lines[0] == f"Tollgate House: a sound survey of 6 windows, {len(gaps)} gaps"
    places = [re.search(r" \[([^]]*)\]$", line) for line in lines[1:]]
    assert sum(len(found.group(1).split(", ")) if found else 1 for found in places) == len(gaps)
    assert len(lines) < len(gaps) / 2
    assert (
        "nails.length: of one nail: without it, whether a nail reaches the glass is not checked "
        "[W2 upper, W2 lower, W3 upper, W3 lower, W4 upper, W4 lower, W5 upper, W5 lower, "
        "W6 upper, W6 lower]"
    ) in lines
    assert not any("window[" in line for line in lines)


def test_inspect_says_which_loose_weight_and_counts_one_of_each(says, tmp_path):
    survey = tmp_path / "house.toml"
    survey.write_text(
        'form = 1\n[house]\nname = "A"\n[[weight]]\ntag = "P"\nweighed = "4 kg"\n'
        '[[window]]\ntag = "K"\n[window.box]\nclear_width = "860 mm"\nclear_height = "1650 mm"\n'
        'weight_space = "1545 mm"\npulley_drop = "90 mm"\n[window.pulley]\nwheel = "44 mm"\n'
    )
    _, lines, _ = says("inspect", str(survey))
    assert " of 1 window, " in lines[0]
    assert any(line.startswith("weight.length: ") and line.endswith(" [P]") for line in lines)


def test_inspect_as_json_is_one_object(says, demo):
    _, (line,), _ = says("inspect", demo, "--json")
    answer = json.loads(line)
    assert answer["house"] == "Tollgate House"
    assert all(set(gap) == {"path", "kind", "meaning"} for gap in answer["gaps"])
    assert len(answer["gaps"]) > 10


def test_schema_prints_a_json_schema(says):
    code, lines, _ = says("schema")
    assert code == 0
    assert json.loads("\n".join(lines))["title"] == "Evenhung survey, form 1"
