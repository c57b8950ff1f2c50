"""What pages say, and what becomes of what is typed."""

from __future__ import annotations

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from evenhung.store.parts import Key
from evenhung.web.records.history import history
from evenhung.web.records.latest import standing_parts, survey_of
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import save

ODD_ID = b"""form = 1
house = { name = "Ferry Row" }
[[window]]
tag = "W1"
id = "../W1"
pulley = { wheel = "44 mm" }
[window.box]
clear_width = "860 mm"
clear_height = "1650 mm"
weight_space = "1545 mm"
pulley_drop = "90 mm"
"""


@pytest.fixture
def window(small_house):
    (part,) = (part for part in standing_parts(small_house) if part.key.kind == "window")
    return f"/house/{small_house.pk}/window/{part.key.ident}/"


def base_of(answer):
    return re.search(r'name="base" value="(\d+)"', answer.text)[1]


def test_a_house_shows_its_windows_and_their_verdicts(browser, demo_house):
    answer = browser.get(f"/house/{demo_house.pk}/")
    assert [card.tag for card in answer.context["cards"]] == [
        "W1",
        "W2",
        "W3",
        "W4",
        "W5",
        "W6",
    ]
    assert "Lower: adjust" in answer.text


def test_the_verdicts_are_those_of_a_plan_of_the_whole_house(browser, demo_house):
    from evenhung.plan import plan_house

    cards = browser.get(f"/house/{demo_house.pk}/").context["cards"]
    shown = [(card.tag, one.place, one.verdict) for card in cards for one in card.sashes]
    plan = plan_house(survey_of(demo_house))
    assert shown == [(s.window.tag, s.place, s.judgement.verdict) for s in plan.sashes()]


def test_a_window_is_begun_and_surveyed_section_by_section(browser):
    house = browser.post("/new/", {"name": "Ferry Row", "shown_in": "metric"}).headers["Location"]
    form = browser.get(f"{house}window/new/")
    typed = {
        "base": base_of(form),
        "field.tag": "W1",
        "field.room": "Hall",
        "field.box.clear_width": "860 mm",
        "field.box.clear_height": "5 ft 5 in",
        "field.box.weight_space": "1545 mm",
        "field.box.pulley_drop": "90 mm",
        "field.pulley.wheel": "1 3/4 in",
    }
    saved = browser.post(f"{house}window/new/", typed)
    window = saved.headers["Location"].partition("?")[0]
    page = browser.get(window).text
    assert "W1" in page
    assert page.index("No sash yet") < page.index("What was found")
    sash = {
        "base": "1",
        "field.lower.height": "840 mm",
        "field.lower.width": "857 mm",
        "field.lower.cord_end": "260 mm",
        "field.lower.weighed": "11 lb 4 oz",
        "field.lower.panes.across": "3",
        "field.lower.panes.up": "2",
    }
    assert browser.post(f"{window}edit/lower/", sash).status_code == 302
    page = browser.get(window).text
    assert "No sash yet" not in page
    assert "unknown" in page  # its weights are not surveyed yet


def test_a_window_is_begun_with_the_sizes_of_another(browser, demo_house):
    first = next(part for part in standing_parts(demo_house) if part.key.kind == "window")
    page = f"/house/{demo_house.pk}/window/new/?like={first.key.ident}"
    form = browser.get(page)
    width = first.body["box"]["clear_width"]
    assert f'name="field.box.clear_width" value="{width}"' in form.text
    typed = {"base": "0", "field.tag": "W9", "field.room": "", "field.box.clear_width": "900 mm"}
    assert browser.post(page, typed).status_code == 302
    window = survey_of(demo_house).window[-1].as_typed()
    assert (window["tag"], window["box"]["clear_width"]) == ("W9", "900 mm")
    assert window["lower"]["height"] == first.body["lower"]["height"]
    assert "room" not in window
    assert not {"weighed", "left", "right"} & set(window["lower"])


def test_what_is_wrong_stands_beside_its_field_and_what_was_typed_is_still_there(browser, window):
    typed = {
        "base": "1",
        "field.lower.left.weighed": "5 stone of feathers",
        "field.lower.left.note": "kept",
    }
    answer = browser.post(f"{window}edit/lower-left/", typed)
    assert answer.status_code == 422
    assert 'value="5 stone of feathers"' in answer.text
    assert ">kept</textarea>" in answer.text
    field = answer.text.partition('id="field.lower.left.weighed-answer"')[2].partition("</p>")[0]
    assert "feathers" in field or "lb" in field
    assert base_of(answer) == "1"


def test_a_fault_elsewhere_is_said_above_the_form(browser, demo_house):
    first = next(part for part in standing_parts(demo_house) if part.key.kind == "window")
    page = f"/house/{demo_house.pk}/window/{first.key.ident}/edit/window/"
    answer = browser.post(page, {"base": "1", "field.tag": "W5"})
    assert answer.status_code == 422
    assert answer.context["general"] == ["tag: 'W5': one of its own; window[0] has this tag"]


def test_two_tabs_are_settled_field_by_field(browser, window):
    page = f"{window}edit/lower-left/"
    first, second = browser.get(page), browser.get(page)
    assert base_of(first) == base_of(second) == "1"
    browser.post(
        page, {"base": "1", "field.lower.left.weighed": "6 lb", "field.lower.left.marked": "6"}
    )
    typed = {"base": "1", "field.lower.left.weighed": "7 lb", "field.lower.left.note": "chipped"}
    asked = browser.post(page, typed)
    assert asked.status_code == 409
    (choice,) = asked.context["choices"]
    assert (choice.before, choice.theirs, choice.ours) == ("5 lb", "6 lb", "7 lb")
    settled = {
        "base": base_of(asked),
        "field.lower.left.note": "chipped",
        "field.lower.left.weighed": "7 lb",
        "choice.lower.left.weighed": "ours",
    }
    assert settled["field.lower.left.note"] == asked.context["kept"]["field.lower.left.note"]
    assert browser.post(page, settled).status_code == 302
    weight = browser.get(page).text
    assert 'value="7 lb"' in weight
    assert 'value="6"' in weight
    assert ">chipped</textarea>" in weight


def test_choosing_theirs_leaves_theirs(browser, window):
    page = f"{window}edit/lower-left/"
    browser.post(page, {"base": "1", "field.lower.left.weighed": "6 lb"})
    settled = {
        "base": "2",
        "field.lower.left.weighed": "7 lb",
        "choice.lower.left.weighed": "theirs",
    }
    assert browser.post(page, settled).status_code == 302
    assert 'value="6 lb"' in browser.get(page).text


def test_undo_takes_back_one_change_and_nothing_after_it(browser, small_house, window):
    browser.post(f"{window}edit/lower-left/", {"base": "1", "field.lower.left.weighed": "6 lb"})
    browser.post(f"{window}edit/window/", {"base": "2", "field.room": "Hall"})
    undo = f"/house/{small_house.pk}/undo"
    assert browser.post(f"{undo}/2/").status_code == 302
    found = survey_of(small_house).window[0]
    assert (found.room, found.lower.left.weighed.text) == ("Hall", "5 lb")
    assert browser.post(f"{undo}/4/").status_code == 302  # and brings it again
    assert survey_of(small_house).window[0].lower.left.weighed.text == "6 lb"
    lines = [one.lines for one in history(small_house)]
    assert lines[0] == ["W1 lower left: weighed 6 lb, was 5 lb"]
    assert lines[1] == ["W1 lower left: weighed 5 lb, was 6 lb"]


def test_a_window_that_was_removed_comes_back_in_its_place(browser, demo_house):
    windows = [part for part in standing_parts(demo_house) if part.key.kind == "window"]
    before = survey_of(demo_house)
    browser.post(f"/house/{demo_house.pk}/window/{windows[2].key.ident}/remove/")
    assert len(survey_of(demo_house).window) == 5
    browser.post(f"/house/{demo_house.pk}/undo/2/")
    assert survey_of(demo_house) == before


def test_an_undo_that_a_later_change_stands_in_the_way_of_says_so(browser, small_house, window):
    for base, mass in (("1", "6 lb"), ("2", "7 lb")):
        browser.post(f"{window}edit/lower-left/", {"base": base, "field.lower.left.weighed": mass})
    answer = browser.post(f"/house/{small_house.pk}/undo/2/")
    assert answer.status_code == 409
    assert "lower.left.weighed" in answer.text


def test_what_is_taken_out_and_brought_in_is_the_same_house(browser, demo_house):
    taken = browser.get(f"/house/{demo_house.pk}/take-out/")
    data = b"".join(taken.streaming_content)
    taken.close()
    answer = browser.post("/bring/", {"file": SimpleUploadedFile("house.zip", data)})
    address = answer.headers["Location"]
    first = browser.get(f"/house/{demo_house.pk}/survey.toml").content
    assert browser.get(f"{address}survey.toml").content == first


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("house.toml", b"form = 99\n[house]\nname = 'x'\n", "written by a newer Evenhung"),
        ("house.zip", b"not a zip", "no zip"),
        ("house.exe", b"MZ", "a filled-in workbook (.xlsx) or a house"),
        ("house.json", b"[" * 100_000, "nested too deeply"),
        ("house.toml", b"", "empty"),
        ("house.toml", ODD_ID, "letters, figures, . _ and -"),
    ],
)
def test_a_file_that_is_not_a_house_is_refused_and_begins_nothing(browser, name, data, said):
    before = len(browser.get("/").context["houses"])
    answer = browser.post("/bring/", {"file": SimpleUploadedFile(name, data)})
    assert answer.status_code == 422
    assert said in answer.text
    assert len(browser.get("/").context["houses"]) == before


def test_more_than_is_allowed_is_refused_unread(browser, window):
    answer = browser.post(f"{window}edit/window/", {"base": "1", "field.note": "x" * 3_000_000})
    assert answer.status_code == 413
    huge = browser.generic("POST", "/bring/", b"", headers={"content-length": str(10**12)})
    assert huge.status_code == 413


def test_too_many_fields_are_refused(browser, window):
    typed = {f"field.{number}": "x" for number in range(2001)}
    assert browser.post(f"{window}edit/window/", typed).status_code == 400


def test_every_answer_carries_the_headers(browser, small_house):
    for address in ("/", f"/house/{small_house.pk}/", "/no-such-page/"):
        headers = browser.get(address).headers
        assert "script-src 'self'" in headers["Content-Security-Policy"]
        assert "unsafe" not in headers["Content-Security-Policy"]
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["X-Frame-Options"] == "DENY"


def test_text_that_someone_typed_is_never_taken_for_markup(browser, small_house, window):
    evil = '"><script>alert(1)</script>'
    browser.post(f"{window}edit/window/", {"base": "1", "field.tag": evil, "field.room": evil})
    for address in (
        window,
        f"/house/{small_house.pk}/",
        f"{window}edit/window/",
        f"/house/{small_house.pk}/history/",
        f"{window}photos/",
    ):
        assert "<script>alert" not in browser.get(address).text


def test_a_house_put_away_is_off_the_list_and_not_lost(browser, small_house):
    browser.post(f"/house/{small_house.pk}/put-away/", {"away": "yes"})
    assert small_house.pk not in browser.get("/").text
    assert browser.get(f"/house/{small_house.pk}/").status_code == 200


def test_how_a_quantity_is_understood_is_said_beside_it(browser):
    def answer(text):
        typed = {"kind": "window", "path": "box.clear_width", "field.box.clear_width": text}
        return browser.post("/understood/", typed).text

    assert "2 ft 9 1/2 in = 851 mm" in answer("2 ft 9 1/2 in")
    assert "is-fault" in answer("86 mm")
    assert browser.post("/understood/", {"kind": "window", "path": "nothing"}).status_code == 400


def test_the_newest_change_is_told_first_whatever_the_clock_says(small_house, monkeypatch):
    """A clock that is set back changes no order and loses nothing."""
    from datetime import timedelta

    from django.utils import timezone

    now = timezone.now()
    key = next(part.key for part in standing_parts(small_house) if part.key.kind == "window")
    monkeypatch.setattr("django.utils.timezone.now", lambda: now - timedelta(days=900))
    save(small_house, [Edit(key, 1, {"room": "Hall"})], who="Ben")
    assert [one.change.number for one in history(small_house)] == [2, 1]
    assert survey_of(small_house).window[0].room == "Hall"


def test_a_part_tells_its_own_history(demo_house):
    first, second, *_ = (
        part.key for part in standing_parts(demo_house) if part.key.kind == "window"
    )
    save(demo_house, [Edit(first, 1, {"note": "seen"})], who="Ben")
    assert [one.lines for one in history(demo_house, key=second)] == [["W2 added"]]
    assert [one.change.number for one in history(demo_house, key=first)] == [2, 1]
    assert list(history(demo_house, before=1)) == []
    assert Key("window", "none") not in {first, second}


def test_notes_say_apart_where_they_come_from(browser, demo_house):
    (w2,) = (part for part in standing_parts(demo_house) if part.body.get("tag") == "W2")
    page = browser.get(f"/house/{demo_house.pk}/window/{w2.key.ident}/").text
    assert 'renew it <span class="says">[from the survey]</span>' in page


@pytest.mark.parametrize("page", ["history/", "visitors/"])
def test_a_page_of_a_house_names_it_on_the_way_back(browser, small_house, page):
    name = survey_of(small_house).house.name
    assert (
        f'/house/{small_house.pk}/">{name}</a>'
        in browser.get(f"/house/{small_house.pk}/{page}").text
    )


def test_the_age_of_a_house_and_its_glass_rules_are_stated_in_the_app(browser, small_house):
    here = f"/house/{small_house.pk}/about/"
    stated = {"built": "1868", "protected": "no", "glass_rules": "england"}
    typed = {f"field.{field}": value for field, value in stated.items()}
    about = browser.get(here)
    named = {"field.name": survey_of(small_house).house.name, "base": base_of(about)}
    assert browser.post(here, {**typed, **named}).status_code == 302
    house = survey_of(small_house).house
    assert (house.built, house.protected, house.glass_rules) == (1868, "no", "england")


def test_a_note_that_is_left_empty_needs_no_explanation(browser, window):
    page = browser.get(f"{window}edit/lower/").text
    assert "left empty: nothing" not in page
    assert "left empty: required" not in page
    assert "required of a sash that runs" in page


def test_no_page_tells_of_a_save_unasked(browser, demo_house):
    pages = browser.get(f"/house/{demo_house.pk}/along/").json()["pages"]
    pages += ["/", f"/house/{demo_house.pk}/history/"]
    silent = '<p id="told" class="told" role="status" hidden></p>'
    assert [page for page in pages if silent not in browser.get(page).text] == []


def test_a_page_that_a_save_led_to_says_so_from_the_start(browser, small_house):
    def told(**query):
        page = browser.get(f"/house/{small_house.pk}/", query).text
        return re.search(r'<p id="told"[^>]*>.*?</p>', page)[0]

    assert told() == '<p id="told" class="told" role="status" hidden></p>'
    assert told(saved="x") == '<p id="told" class="told" role="status">Saved.</p>'
    assert "as well: W1 &lt;b&gt; changed</p>" in told(saved="x", also="W1 <b> changed")


def test_a_form_of_a_window_that_was_removed_meanwhile_says_so(browser, window):
    """What was typed is not saved into nothing, and is no fault of ours."""
    page = f"{window}edit/lower-left/"
    base = base_of(browser.get(page))
    browser.post(f"{window}remove/")
    answer = browser.post(page, {"base": base, "field.lower.left.weighed": "6 lb"})
    assert answer.status_code == 409
    assert "keeper removed this while you were typing" in answer.text
    assert browser.get(page).status_code == 404


def test_two_who_edit_one_list_settle_it_too(browser, window):
    page = f"{window}edit/lower-tried/"
    field = "field.lower.completion.raising"
    browser.post(page, {"base": "1", field: "12 N; 13 N"})
    asked = browser.post(page, {"base": "1", field: "14 N"})
    assert asked.status_code == 409
    (choice,) = asked.context["choices"]
    assert (choice.before, choice.theirs, choice.ours) == ("nothing", "12 N; 13 N", "14 N")
