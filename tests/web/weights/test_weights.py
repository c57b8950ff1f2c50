"""The weights of a house: listed, looked for, drawn to scale; the loose ones edited."""

from __future__ import annotations

import pytest

from evenhung.sheets.rack import CORD_MM, MARGIN_MM, Racked, racked
from evenhung.web.records.latest import survey_of
from evenhung.web.weights.listing import Wanted, by_mass


def names(page):
    return [one.name for one in page.context["weights"]]


def test_every_weight_is_listed_and_on_the_rack_by_its_mass(browser, demo_house):
    page = browser.get(f"/house/{demo_house.pk}/weights/")
    assert names(page)[0] == "W1 upper left"
    assert names(page)[-2:] == ["A", "B"]  # the loose ones
    assert "W3 lower right" not in names(page)  # it is missing
    hung = [hook.weight for hook in page.context["hooks"]]
    assert {one.ident for one in hung} == {one.ident for one in page.context["weights"]}
    masses = [one.kg for one in hung if one.kg is not None]
    assert masses == sorted(masses)
    assert page.text.count('class="drawing racked"') == len(hung)


def test_a_mass_stands_in_both_systems(browser, demo_house):
    page = browser.get(f"/house/{demo_house.pk}/weights/").text
    assert "9 lb 12 oz" in page
    assert "4.42 kg" in page  # 9.75 lb of 0.45359237 kg


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ("which=loose", ["A", "B"]),
        ("which=not+sound", ["W2 upper left", "W6 lower left", "W6 lower right"]),
        ("text=lead", ["W3 upper left", "W3 upper right"]),
        ("text=w6+lower+left", ["W6 lower left"]),
        ("text=nothing+of+that+kind", []),
        ("which=would+move", []),  # nothing is worked out yet
    ],
)
def test_weights_are_looked_for(browser, demo_house, query, expected):
    page = browser.get(f"/house/{demo_house.pk}/weights/?{query}")
    assert names(page) == expected
    assert ("No weight is of that kind." in page.text) == (not expected)


def test_they_are_put_in_the_order_of_their_mass(browser, demo_house):
    page = browser.get(f"/house/{demo_house.pk}/weights/?order=mass&which=nonsense")
    assert page.context["weights"] == by_mass(page.context["every"])
    assert Wanted.from_query({"which": "nonsense"}).which == "all"


def test_a_long_list_comes_in_pages(browser, demo_house, monkeypatch):
    monkeypatch.setattr("evenhung.web.weights.views.PAGE", 10)
    address, seen = f"/house/{demo_house.pk}/weights/", []
    after = "?order=mass"
    while after:
        page = browser.get(address + after)
        seen += names(page)
        after = page.context["pages"].after
    assert seen == [one.name for one in by_mass(page.context["every"])]
    assert names(browser.get(f"{address}?after=1000")) == []
    assert names(browser.get(f"{address}?after=-1"))[0] == "W1 upper left"


def test_a_house_without_weights_says_so(browser):
    house = browser.post("/new/", {"name": "Ferry Row", "shown_in": "metric"}).headers["Location"]
    page = browser.get(f"{house}weights/")
    assert page.status_code == 200
    assert "No weight surveyed yet." in page.text


def test_a_loose_weight_is_added_edited_removed_and_brought_back(browser, small_house):
    typed = {"base": "0", "field.tag": "C", "field.weighed": "9 lb 4 oz"}
    assert browser.post(f"/house/{small_house.pk}/weights/loose/", typed).status_code == 302
    (weight,) = survey_of(small_house).weight
    page = f"/house/{small_house.pk}/weights/loose/{weight.id}/"
    shown = browser.get(page)
    assert shown.context["base"] == 1
    assert 'value="9 lb 4 oz"' in shown.text
    assert browser.post(page, {"base": "1", "field.weighed": "9 lb 6 oz"}).status_code == 302
    assert survey_of(small_house).weight[0].weighed.text == "9 lb 6 oz"
    assert browser.post(f"{page}remove/").status_code == 302
    assert survey_of(small_house).weight == ()
    last = small_house.changes.latest("number").number
    browser.post(f"/house/{small_house.pk}/undo/{last}/")
    assert survey_of(small_house).weight[0].tag == "C"


def test_a_bad_mass_is_refused_beside_its_field(browser, small_house):
    typed = {"base": "0", "field.tag": "C", "field.weighed": "nine"}
    answer = browser.post(f"/house/{small_house.pk}/weights/loose/", typed)
    assert answer.status_code == 422
    assert 'value="nine"' in answer.text
    assert survey_of(small_house).weight == ()


def test_a_weight_on_the_rack_is_as_long_and_as_thick_as_it_is():
    room = racked(Racked("A", "7 lb", 438.0, 38.0)).room()
    assert -room.bottom == pytest.approx(CORD_MM + 438.0 + MARGIN_MM)
    assert room.right - room.left == pytest.approx(38.0 + 2 * MARGIN_MM)


def test_what_was_not_measured_is_dashed_and_said():
    drawing = racked(Racked("A", "7 lb", None, 38.0, is_square=True))
    assert drawing.assumed == ("A",)
    assert any(group.is_assumed for group in drawing.every_group())
    assert racked(Racked("A", "7 lb", 438.0, 38.0)).assumed == ()
