"""What was found of a window is taken down, changed and taken out, one thing at a time."""

from __future__ import annotations

import pytest

from evenhung.web.records.history import history
from evenhung.web.records.latest import standing_parts, survey_of

ROT = {
    "field.finding.part": "lower bottom rail",
    "field.finding.seen": "rot",
    "field.finding.measured_from": "left",
    "field.finding.begins": "0 mm",
    "field.finding.length": "150 mm",
    "field.finding.depth": "20 mm",
    "field.finding.moisture_pct": "24",
}


@pytest.fixture
def window(small_house):
    (part,) = (part for part in standing_parts(small_house) if part.key.kind == "window")
    return f"/house/{small_house.pk}/window/{part.key.ident}/"


@pytest.fixture
def found(browser, window):
    assert browser.post(f"{window}found/findings/new/", {"was": "", **ROT}).status_code == 302
    ((_shelf, (row,)), _symptoms) = browser.get(window).context["found"]
    return row


def test_a_finding_is_taken_down_and_said_in_one_line(browser, small_house, window, found):
    finding = survey_of(small_house).window[0].finding[0]
    assert (finding.part, finding.depth.text, finding.moisture_pct) == (
        "lower bottom rail",
        "20 mm",
        24,
    )
    line = "lower bottom rail: rot, 0 mm from the left, 150 mm long, 20 mm deep, 24 % moist"
    assert found["says"] == line
    assert line in browser.get(window).text
    (last, *_) = history(small_house)
    assert last.lines[0].startswith("W1 finding added: part lower bottom rail, seen rot")


def test_one_is_changed_and_the_history_says_to_what(browser, small_house, window, found):
    page = f"{window}found/findings/0/"
    assert 'value="150 mm"' in browser.get(page).text
    typed = {"was": found["was"], **ROT, "field.finding.length": "180 mm"}
    assert browser.post(page, typed).status_code == 302
    assert survey_of(small_house).window[0].finding[0].length.text == "180 mm"
    (last, *_) = history(small_house)
    assert last.lines == ["W1 finding lower bottom rail: length 180 mm, was 150 mm"]


def test_one_is_taken_out_and_undo_brings_it_back(browser, small_house, window, found):
    browser.post(f"{window}found/findings/0/remove/", {"was": found["was"]})
    assert survey_of(small_house).window[0].finding == ()
    browser.post(f"/house/{small_house.pk}/undo/3/")
    assert survey_of(small_house).window[0].finding[0].seen == "rot"


def test_decay_longer_than_its_part_is_refused_beside_the_field(browser, small_house, window):
    typed = {"was": "", **ROT, "field.finding.length": "2 m"}
    answer = browser.post(f"{window}found/findings/new/", typed)
    assert answer.status_code == 422
    assert 'value="2 m"' in answer.text
    assert 'aria-invalid="true"' in answer.text
    assert survey_of(small_house).window[0].finding == ()


@pytest.mark.usefixtures("found")
def test_decay_that_overlaps_other_decay_is_refused(browser, small_house, window):
    typed = {"was": "", **ROT, "field.finding.begins": "100 mm"}
    assert browser.post(f"{window}found/findings/new/", typed).status_code == 422
    assert len(survey_of(small_house).window[0].finding) == 1


def test_one_that_somebody_else_has_changed_is_not_changed_unseen(browser, window, found):
    page = f"{window}found/findings/0/"
    browser.post(page, {"was": found["was"], **ROT, "field.finding.length": "180 mm"})
    answer = browser.post(page, {"was": found["was"], **ROT, "field.finding.depth": "30 mm"})
    assert answer.status_code == 409
    assert 'value="30 mm"' in answer.text
    assert browser.post(f"{page}remove/", {"was": found["was"]}).status_code == 409


def test_how_a_window_behaves_is_taken_down(browser, small_house, window):
    typed = {"was": "", "field.symptom.what": "drops", "field.symptom.sash": "lower"}
    assert browser.post(f"{window}found/symptoms/new/", typed).status_code == 302
    assert survey_of(small_house).window[0].symptom[0].what == "drops"
    assert "lower sash: drops" in browser.get(window).text


def test_where_a_window_stands_is_measured(browser, small_house, window):
    typed = {"base": "1", "field.place.sill_above_floor": "700 mm"}
    assert browser.post(f"{window}edit/place/", typed).status_code == 302
    assert survey_of(small_house).window[0].place.sill_above_floor.text == "700 mm"


def test_a_list_that_there_is_not_is_not_found(browser, window):
    assert browser.get(f"{window}found/omens/new/").status_code == 404
    assert browser.get(f"{window}found/findings/7/").status_code == 404


@pytest.mark.usefixtures("found")
def test_only_what_can_be_seen_of_the_part_can_be_chosen(browser, window):
    page = browser.get(f"{window}found/findings/0/")
    fields = {one.path: one for group in page.context["groups"].values() for one in group}
    assert "perished" in fields["finding.seen"].unfit
    assert not {"rot", "split"} & set(fields["finding.seen"].unfit)
    assert "top" in fields["finding.measured_from"].unfit
    assert '<option value="renew pane" hidden disabled>' in page.text
    blank = browser.get(f"{window}found/findings/new/")
    assert "hidden disabled" not in blank.text


def test_what_was_chosen_and_does_not_fit_is_shown_again(browser, window):
    typed = {"was": "", **ROT, "field.finding.seen": "perished"}
    answer = browser.post(f"{window}found/findings/new/", typed)
    assert answer.status_code == 422
    assert '<option value="perished" selected>' in answer.text
