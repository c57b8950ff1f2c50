"""``evenhung takeoff``: what is bought, where it goes, how it is cut."""

from __future__ import annotations

import json

import tomli_w


def test_the_demo_house_is_taken_off_and_cut(says, demo):
    code, lines, errors = says("takeoff", demo)
    assert (code, errors) == (0, [])
    assert lines[0] == "Tollgate House: take-off"
    for word in ("timber 48 x 44 mm", "pane", "putty", "paint", "2 cords", "mild steel 38 mm"):
        assert any(word in line for line in lines), word
    cuts = [line for line in lines if line.startswith("cut ")]
    assert any(line.startswith("cut cord 6 mm: ") for line in cuts)
    assert all("fewer will not do" in line for line in cuts if " of " in line)


def test_one_object_and_nothing_else(says, demo):
    code, lines, errors = says("takeoff", demo, "--json")
    assert (code, errors, len(lines)) == (0, [], 1)
    answer = json.loads(lines[0])
    assert list(answer) == ["form", "house", "takeoff", "cuts"]
    assert {"what", "stock_mm", "kerf_mm", "number", "lengths", "fewest", "too_long_mm"} == set(
        answer["cuts"][0]
    )


def test_a_house_in_which_nothing_was_found_takes_cord_and_no_timber(says, tollgate, tmp_path):
    for window in tollgate["window"]:
        for name in ("finding", "symptom", "place"):
            window.pop(name, None)
    survey = tmp_path / "house.toml"
    survey.write_text(tomli_w.dumps(tollgate))
    _, lines, _ = says("takeoff", str(survey), "--json")
    takeoff = json.loads(lines[0])["takeoff"]
    assert takeoff["timber"] == takeoff["glass"] == []
    assert takeoff["putty"] == {"length_mm": 0, "mass_kg": 0}
    assert takeoff["cord"]


def test_what_is_longer_than_it_is_sold_is_said(says, tollgate, tmp_path):
    tollgate["window"][0]["box"]["clear_width"] = "2.95 m"
    tollgate["window"][0]["finding"] = [{"part": "sill", "seen": "missing"}]
    survey = tmp_path / "house.toml"
    survey.write_text(tomli_w.dumps(tollgate))
    _, lines, _ = says("takeoff", str(survey))
    assert any("is longer than it is sold" in line for line in lines)
