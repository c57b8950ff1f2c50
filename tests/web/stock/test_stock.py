"""The stock of a house: its lists edited item by item, what gives way to what."""

from __future__ import annotations

import json
import re

import pytest

from evenhung.web.records.latest import survey_of

PIECE = {
    "field.stock.make_weight.mass": "1 lb",
    "field.stock.make_weight.length": "2 in",
    "field.stock.make_weight.price": "3.60",
}


@pytest.fixture
def stock(small_house):
    return f"/house/{small_house.pk}/stock/"


def pieces(house):
    stated = survey_of(house).house.stock
    return None if stated is None else [one.mass.text for one in stated.make_weight]


def test_an_item_is_added_edited_and_removed(browser, small_house, stock):
    assert "Nothing is stated" in browser.get(stock).text
    assert browser.post(f"{stock}make-weights/", PIECE).status_code == 302
    typed = {**PIECE, "field.stock.make_weight.mass": "1/2 lb"}
    assert browser.post(f"{stock}make-weights/", typed).status_code == 302
    assert pieces(small_house) == ["1 lb", "1/2 lb"]
    form = browser.get(f"{stock}make-weights/1/")
    assert 'value="1/2 lb"' in form.text
    typed = {**typed, "was": form.context["was"], "field.stock.make_weight.mass": "1/4 lb"}
    assert browser.post(f"{stock}make-weights/1/", typed).status_code == 302
    assert pieces(small_house) == ["1 lb", "1/4 lb"]
    was = browser.get(stock).context["shelves"][0][1][0]["was"]
    assert browser.post(f"{stock}make-weights/0/remove/", {"was": was}).status_code == 302
    assert pieces(small_house) == ["1/4 lb"]


def test_what_is_wrong_stands_beside_its_field_and_nothing_is_lost(browser, small_house, stock):
    typed = {**PIECE, "field.stock.make_weight.mass": "a lump"}
    answer = browser.post(f"{stock}make-weights/", typed)
    assert answer.status_code == 422
    (field,) = (one for one in answer.context["fields"] if one.path.endswith("mass"))
    assert (field.value, bool(field.fault)) == ("a lump", True)
    assert 'value="3.60"' in answer.text
    assert pieces(small_house) is None


def test_a_needed_field_that_is_empty_is_named(browser, stock):
    answer = browser.post(f"{stock}bars/", {"field.stock.bar.metal": "lead"})
    assert answer.status_code == 422
    faulty = {one.label for one in answer.context["fields"] if one.fault}
    assert faulty == {"diameter", "length"}


def test_what_no_item_can_do_without_is_marked_before_it_is_missed(browser, stock):
    page = browser.get(f"{stock}make-weights/").text
    labels = re.findall(r'<label for="field\.stock\.make_weight\.(\w+)">(.*?)</label>', page)
    assert {name: "needed" in label for name, label in labels} == {
        "mass": True,
        "length": True,
        "price": False,
    }


def test_an_item_that_somebody_has_changed_is_not_overwritten(browser, small_house, stock):
    browser.post(f"{stock}make-weights/", PIECE)
    was = browser.get(f"{stock}make-weights/0/").context["was"]
    browser.post(
        f"{stock}make-weights/0/", {**PIECE, "was": was, **dict.fromkeys(list(PIECE)[2:], "9.99")}
    )
    typed = {**PIECE, "was": was, "field.stock.make_weight.length": "3 in"}
    late = browser.post(f"{stock}make-weights/0/", typed)
    assert late.status_code == 409
    assert 'value="3 in"' in late.text
    assert pieces(small_house) == ["1 lb"]
    gone = browser.post(f"{stock}make-weights/0/remove/", {"was": was})
    assert gone.status_code == 409
    assert pieces(small_house) == ["1 lb"]


def test_a_house_can_have_nothing_but_its_own_weights(browser, small_house, stock):
    assert browser.post(f"{stock}empty/").status_code == 302
    assert pieces(small_house) == []
    assert "must do with the weights that are in it" in browser.get(stock).text


def test_worths_are_edited_and_cleared(browser, small_house, stock):
    typed = {"base": "1", "field.policy.trim": "yes", "field.policy.worth.home": "50"}
    assert browser.post(f"{stock}worths/", typed).status_code == 302
    policy = survey_of(small_house).house.policy
    assert (policy.trim, policy.worth.home.text) == ("yes", "50")
    assert (
        browser.post(f"{stock}worths/", {"base": "2", "field.policy.trim": ""}).status_code == 302
    )
    assert survey_of(small_house).house.policy.trim is None


def test_what_is_not_there_is_not_found(browser, stock):
    assert browser.get(f"{stock}hooks/").status_code == 404
    assert browser.get(f"{stock}bars/7/").status_code == 404
    assert browser.post(f"{stock}bars/0/", {"was": "{"}).status_code == 400
    assert (
        browser.post(f"{stock}bars/0/remove/", {"was": json.dumps({"metal": "lead"})}).status_code
        == 409
    )
