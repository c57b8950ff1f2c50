"""The page of a window says what will be done about each thing that was found of it."""

from __future__ import annotations

import json
import re

import pytest

from evenhung.plan import plan_house
from evenhung.plan.overhaul import overhaul_of
from evenhung.web.plans import common_to_windows
from evenhung.web.records.latest import standing_parts, survey_of
from evenhung.web.repair.doing import doing_at

ROT = {
    "field.finding.part": "lower left stile",
    "field.finding.seen": "rot",
    "field.finding.measured_from": "bottom",
    "field.finding.length": "95 mm",
    "field.finding.depth": "30 mm",
}


@pytest.fixture
def window(small_house):
    (part,) = (part for part in standing_parts(small_house) if part.key.kind == "window")
    return f"/house/{small_house.pk}/window/{part.key.ident}/"


def found(browser, window, fields):
    answer = browser.post(f"{window}found/findings/new/", {"was": "", **fields})
    assert answer.status_code == 302


def said(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page.text).split())


def test_nothing_found_says_nothing(browser, window):
    page = browser.get(window)
    assert page.context["doing"] is None
    assert "What will be done" not in page.text


def test_a_finding_has_its_treatment_its_reason_and_its_splice(browser, window):
    found(browser, window, ROT)
    page = browser.get(window)
    (one,) = page.context["doing"].treated
    assert one.what == "splice"
    assert "slope of 1 in" in one.why
    assert round(one.splice.joint_ratio) == 10
    text = said(page)
    assert "new piece, point to point" in text
    assert "old timber kept" in text
    assert 'class="drawing fabric"' in page.text


def test_what_was_decided_instead_says_what_was_proposed(browser, window):
    found(browser, window, {**ROT, "field.finding.treatment": "leave"})
    page = browser.get(window)
    (one,) = page.context["doing"].treated
    assert (one.what, one.proposed) == ("leave", "splice")
    assert "proposed: splice" in said(page)


def test_the_list_and_the_drawing_say_the_same_share(browser, window):
    found(browser, window, ROT)
    page = browser.get(window).text
    (drawn,) = set(re.findall(r"([\d.]+) % of the old timber kept", page))
    (listed,) = re.findall(r"<dt>old timber kept</dt><dd>([\d.]+) %", page)
    assert drawn == listed


def test_the_first_test_of_a_symptom_is_the_most_telling(browser, window):
    typed = {"was": "", "field.symptom.what": "drops", "field.symptom.sash": "lower"}
    browser.post(f"{window}found/symptoms/new/", typed)
    page = browser.get(window)
    (one,) = page.context["doing"].asked
    assert all(one.first.bits >= other.bits for other in one.others)
    assert f"Try first: {one.first.ask}" in said(page)


def test_new_panes_carry_their_sizes_and_their_cautions(browser, demo_house):
    pages = [
        browser.get(f"/house/{demo_house.pk}/window/{part.key.ident}/")
        for part in standing_parts(demo_house)
        if part.key.kind == "window"
    ]
    glazed = [page for page in pages if page.context["doing"].glass]
    codes = {note.code for page in glazed for note in page.context["doing"].notes}
    assert {"measure-rebates", "safety-glass"} <= codes
    assert any("to order" in page.text for page in glazed)


def test_it_agrees_with_the_plan_of_the_whole_house(demo_house):
    parts, survey = standing_parts(demo_house), survey_of(demo_house)
    whole = overhaul_of(plan_house(survey))
    shown = [
        doing_at(common_to_windows(parts), part.text) for part in parts if part.key.kind == "window"
    ]
    for one, doing in zip(whole.windows, shown, strict=True):
        assert [each.what for each in doing.treated] == [
            each.what for each in one.repair.treatments
        ]
        assert doing.fabric == one.repair.fabric


def test_a_window_that_follows_another_has_its_page(demo_house):
    parts = standing_parts(demo_house)
    first, second, *_ = (part for part in parts if part.key.kind == "window")
    text = json.dumps({**second.body, "after": first.key.ident})
    assert doing_at(common_to_windows(parts), text) is not None
