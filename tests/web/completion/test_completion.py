"""Sashes tried once the work is done: taken down at the window, judged, counted in the house."""

from __future__ import annotations

import pytest

from evenhung.survey import survey_from
from evenhung.web.records.beginning import begin
from evenhung.web.records.history import history
from evenhung.web.records.latest import latest_change, standing_parts, survey_of

STAYS = {f"field.lower.completion.let_go.{where}": "stays" for where in ("shut", "half", "open")}


@pytest.fixture
def window(small_house):
    (part,) = (part for part in standing_parts(small_house) if part.key.kind == "window")
    return f"/house/{small_house.pk}/window/{part.key.ident}/"


@pytest.fixture
def take_down(browser, window):
    """Gives ``take_down(fields)``: send the form of the lower sash with these fields in it."""

    def send(fields):
        page = f"{window}edit/lower-tried/"
        form = browser.get(page).context
        empty = {one.name: "" for group in form["groups"].values() for one in group}
        return browser.post(page, {"base": form["base"], **empty, **fields})

    return send


def proof_at(browser, window):
    ((_, proof),) = browser.get(window).context["sashes"]
    return proof


def test_it_is_taken_down_judged_and_told_in_the_history(browser, small_house, window, take_down):
    assert "Not tried yet" in browser.get(window).text
    pulls = {
        "field.lower.completion.raising": "4 lb; 4 lb 4 oz",
        "field.lower.completion.lowering": "1 lb 12 oz",
        "field.lower.completion.on": "2026-11-27",
        "field.lower.completion.by": "Ann",
    }
    assert take_down({**STAYS, **pulls}).status_code == 302
    completion = survey_of(small_house).window[0].lower.completion
    assert [one.text for one in completion.raising] == ["4 lb", "4 lb 4 oz"]
    assert proof_at(browser, window).verdict == "proved"
    text = browser.get(window).text
    assert "stays shut, half open and open; raising takes" in text
    assert "2026-11-27, Ann" in text
    (last, *_) = history(small_house)
    assert "W1 lower completion let go: shut stays" in " ".join(last.lines)


def test_undo_takes_it_back(browser, small_house, window, take_down):
    take_down(STAYS)
    browser.post(f"/house/{small_house.pk}/undo/{latest_change(small_house)}/")
    assert survey_of(small_house).window[0].lower.completion is None
    assert proof_at(browser, window) is None


def test_what_was_taken_down_can_be_cleared(small_house, take_down):
    take_down(STAYS)
    take_down(dict.fromkeys(STAYS, ""))
    assert survey_of(small_house).window[0].lower.completion is None


def test_the_form_begins_with_today_and_whoever_is_there(browser, window, take_down):
    page = browser.get(f"{window}edit/lower-tried/")
    by_name = {one.name: one for group in page.context["groups"].values() for one in group}
    assert by_name["field.lower.completion.on"].value
    assert by_name["field.lower.completion.let_go.half"].is_tapped
    assert 'type="radio" name="field.lower.completion.let_go.half" value="drops"' in page.text
    take_down(STAYS)
    again = browser.get(f"{window}edit/lower-tried/").context["groups"]
    values = {one.name: one.value for group in again.values() for one in group}
    assert values["field.lower.completion.on"] == ""  # as it was sent: nothing is put in again
    assert values["field.lower.completion.let_go.half"] == "stays"


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"field.lower.completion.raising": "5; 6 lb"}, "add a unit: 5 N or 5 lbf"),
        ({"field.lower.completion.on": "2026-02-30"}, "a day, year first"),
        ({"field.lower.completion.let_go.shut": "drops"}, "it is as low as it goes"),
        (
            {
                "field.lower.completion.lowering": "2 N",
                "field.lower.completion.holding": "2 N",
            },
            "either lowering or holding",
        ),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field_and_kept(small_house, take_down, fields, says):
    answer = take_down({**STAYS, **fields})
    assert answer.status_code == 422
    faults = [one for group in answer.context["groups"].values() for one in group if one.fault]
    assert len(faults) == 1
    assert says in faults[0].fault
    assert faults[0].value == fields[faults[0].name]
    assert survey_of(small_house).window[0].lower.completion is None


def test_several_pulls_are_echoed_as_they_were_understood(browser):
    path = "lower.completion.raising"
    typed = {"kind": "window", "path": path, f"field.{path}": "5 lb; 22 N"}
    answer = browser.post("/understood/", typed)
    assert "5.0 lbf = 22 N; 4.9 lbf = 22 N" in answer.text


def test_a_drop_is_said_with_its_reason_and_comes_first_in_the_house(
    browser, small_house, window, take_down
):
    take_down({**STAYS, "field.lower.completion.let_go.half": "drops"})
    assert "drops when left half open: the pair is" in browser.get(window).text
    house = browser.get(f"/house/{small_house.pk}/")
    assert house.context["proved"] == (0, 1)
    assert house.context["next"][0][1].says.startswith("not proved: drops when left half open")
    assert "0 of 1" in house.text


def test_the_house_counts_only_once_something_was_tried(
    browser, demo_house, small_house, take_down
):
    page = browser.get(f"/house/{demo_house.pk}/")
    assert page.context["proved"] is None
    take_down(STAYS)
    page = browser.get(f"/house/{small_house.pk}/")
    assert page.context["proved"] == (1, 1)
    assert page.context["next"] == []
    assert "; proved</b>" in page.text


def test_a_sash_that_is_fixed_has_no_form(browser, demo_house):
    parts = standing_parts(demo_house)
    (fixed,) = (part for part in parts if part.body.get("upper", {}).get("runs") == "no")
    text = browser.get(f"/house/{demo_house.pk}/window/{fixed.key.ident}/").text
    assert "lower-tried" in text
    assert "upper-tried" not in text


@pytest.fixture
def hung_from_afar(small_survey):
    """Give a house whose one sash was tried on a weight of another window and a loose one."""
    (window,) = small_survey["window"]
    stays = {"shut": "stays", "half": "stays", "open": "stays"}
    tried = {**window["lower"], "completion": {"let_go": stays}}
    other = {**window, "tag": "W2", "after": "W1"}
    small_survey["window"] = [{**window, "lower": tried}, other, {**window, "tag": "W3"}]
    small_survey["weight"] = [{"tag": "A", "weighed": "4 lb"}, {"tag": "B", "weighed": "9 lb"}]
    hung = {"what": "hung", "sash": "W1 lower"}
    small_survey["decision"] = [
        {**hung, "side": "left", "weight": "W2 lower left"},
        {**hung, "side": "right", "weight": "A"},
        {"what": "hang", "sash": "W2 lower", "side": "left", "weight": "B"},
    ]
    return begin(survey_from(small_survey), who="Ann")


def test_it_is_held_against_what_was_hung_wherever_that_came_from(browser, hung_from_afar):
    (window, *_) = (part for part in standing_parts(hung_from_afar) if part.key.kind == "window")
    proof = proof_at(browser, f"/house/{hung_from_afar.pk}/window/{window.key.ident}/")
    hanging = proof.evidence.hanging
    assert hanging.is_as_hung
    assert hanging.hang.pair_kg == pytest.approx(9 * 0.45359237)


def test_a_window_begun_like_another_was_not_tried(browser, small_house, window, take_down):
    take_down(STAYS)
    like = window.rstrip("/").rpartition("/")[2]
    page = browser.get(f"/house/{small_house.pk}/window/new/?like={like}")
    assert not [path for path in page.context["editor"].alongside if "completion" in path]


def test_what_is_no_part_of_a_window_is_not_found(browser, window):
    assert browser.get(f"{window}edit/middle-tried/").status_code == 404
