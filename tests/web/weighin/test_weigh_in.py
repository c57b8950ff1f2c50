"""The weigh-in: from one thing to the next, whatever is typed."""

from __future__ import annotations

import re

import pytest

from evenhung.web.records.latest import standing_parts, survey_of
from evenhung.web.weighin.items import as_read_off, items_of, next_to_weigh


def weigh(browser, house, text, at=None):
    """Weigh what is on the scale, as a person would; give the answer."""
    page = browser.get(f"/house/{house.pk}/weigh-in/", {"at": at} if at else {})
    item, base = page.context["at"], page.context["base"]
    typed = {"item": item.name, "base": base, f"field.{item.path}": text}
    return item, browser.post(f"/house/{house.pk}/weigh-in/", typed)


def test_everything_is_there_in_the_order_it_is_walked(demo_house):
    items = items_of(standing_parts(demo_house))
    assert [(item.tag, item.path) for item in items[:4]] == [
        ("W1", "upper.weighed"),
        ("W1", "upper.left.weighed"),
        ("W1", "upper.right.weighed"),
        ("W1", "lower.weighed"),
    ]
    assert ("W3", "lower.right.weighed") not in [(item.tag, item.path) for item in items]  # missing
    fixed = [item.path for item in items if item.tag == "W4" and item.place == "upper"]
    assert fixed == ["upper.weighed"]  # a fixed sash has no weights


def test_what_is_weighed_is_saved_and_the_next_comes(browser, demo_house):
    left = browser.get(f"/house/{demo_house.pk}/weigh-in/").context["left"]
    item, answer = weigh(browser, demo_house, "18 lb 2")
    assert answer.status_code == 302
    page = browser.get(answer.headers["Location"])
    assert page.context["left"] == left - 1
    assert page.context["at"] != item
    assert page.context["done"].weighed == "18 lb 2 oz"
    assert page.context["verdict"].window.tag == item.tag


def test_weighing_all_of_it_leaves_no_sash_unknown_for_want_of_a_mass(browser, demo_house):
    while next_to_weigh(items_of(standing_parts(demo_house))):
        item, answer = weigh(browser, demo_house, "20 lb")
        assert answer.status_code == 302, item
    page = browser.get(f"/house/{demo_house.pk}/weigh-in/")
    assert page.context["at"] is None
    assert "has been weighed" in page.text


@pytest.mark.parametrize("text", ["5", "5 lb of feathers", "900 kg", "-3 lb"])
def test_what_cannot_be_is_refused_and_stays_in_the_field(browser, demo_house, text):
    _, answer = weigh(browser, demo_house, text)
    assert answer.status_code == 422
    assert f'value="{text}"' in answer.text
    assert 'aria-invalid="true"' in answer.text


def test_two_who_weigh_one_thing_hear_of_each_other(browser, small_house):
    item = items_of(standing_parts(small_house))[1]
    page = f"/house/{small_house.pk}/weigh-in/"
    typed = {"item": item.name, "base": item.base, f"field.{item.path}": "5 lb 4"}
    assert browser.post(page, typed).status_code == 302
    asked = browser.post(page, {**typed, f"field.{item.path}": "5 lb 6"})
    assert asked.status_code == 409
    assert "has just saved 5 lb 4 oz" in asked.text
    again = {**typed, "base": asked.context["base"], f"field.{item.path}": "5 lb 6"}
    assert browser.post(page, again).status_code == 302
    assert survey_of(small_house).window[0].lower.left.weighed.text == "5 lb 6 oz"


def test_who_weigh_different_things_are_not_asked(browser, small_house):
    _, left, right = items_of(standing_parts(small_house))
    page = f"/house/{small_house.pk}/weigh-in/"
    for item, mass in ((left, "5 lb 4"), (right, "5 lb 5")):
        typed = {"item": item.name, "base": 1, f"field.{item.path}": mass}
        assert browser.post(page, typed).status_code == 302
    lower = survey_of(small_house).window[0].lower
    assert (lower.left.weighed.text, lower.right.weighed.text) == ("5 lb 4 oz", "5 lb 5 oz")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("5lb2", "5lb2 oz"),
        ("5 lb 2 1/2", "5 lb 2 1/2 oz"),
        ("5 lb 2½", "5 lb 2½ oz"),
        ("5 lb 2.5", "5 lb 2.5 oz"),
        ("5 lb", "5 lb"),
        ("5 1/4 lb", "5 1/4 lb"),
        (" 2.3 kg ", "2.3 kg"),
        ("5", "5"),
    ],
)
def test_the_ounces_after_pounds_go_without_saying(typed, read):
    assert as_read_off(typed) == read


def test_what_is_not_there_is_not_weighed(browser, small_house):
    answer = browser.post(f"/house/{small_house.pk}/weigh-in/", {"item": "x:y", "base": "1"})
    assert answer.status_code == 409


def test_what_is_read_off_is_understood_while_it_is_typed_as_it_is_when_saved(browser, demo_house):
    """The ounces go without saying: what will be saved is not called a fault before."""
    page = browser.get(f"/house/{demo_house.pk}/weigh-in/")
    address = re.search(r'hx-post="([^"]+)"', page.text)[1]
    path = page.context["at"].path

    def said(text):
        typed = {"kind": "window", "path": path, f"field.{path}": text}
        return browser.post(address, typed).text

    assert "18 lb 2 oz = 8.22 kg" in said("18 lb 2")
    assert "is-fault" not in said("18 lb 2")
    assert "add a unit" in said("18")


def test_what_was_removed_while_it_lay_on_the_scale_is_said_in_words(browser, small_house):
    page = f"/house/{small_house.pk}/weigh-in/"
    (item, *_others) = items_of(standing_parts(small_house))
    browser.post(f"/house/{small_house.pk}/window/{item.window}/remove/")
    answer = browser.post(page, {"item": item.name, "base": "1", f"field.{item.path}": "11 lb"})
    assert answer.status_code == 409
    assert "somebody has removed it" in answer.text


def test_a_house_without_a_sash_is_not_said_to_be_weighed(browser, small_house):
    (item, *_others) = items_of(standing_parts(small_house))
    browser.post(f"/house/{small_house.pk}/window/{item.window}/remove/")
    page = browser.get(f"/house/{small_house.pk}/weigh-in/").text
    assert "nothing to weigh yet" in page
    assert "all weighed" not in page
