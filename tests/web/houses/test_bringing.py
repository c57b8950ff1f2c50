"""A house begins from a workbook that was filled in away from here."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from openpyxl import load_workbook

from evenhung.sheets.blank.workbook import HEAD_ROWS
from evenhung.web.records.latest import survey_of
from evenhung.web.records.models import House

WINDOW = {
    "tag": "W1",
    "room": "Hall",
    "box.clear_width": "860 mm",
    "box.clear_height": "1650 mm",
    "box.weight_space": "1545 mm",
    "box.pulley_drop": "90 mm",
    "pulley.wheel": "1 3/4 in",
}
SASH = {
    "window": "W1",
    "place": "lower",
    "height": "840 mm",
    "width": "857 mm",
    "cord_end": "260 mm",
    "weighed": "11 lb 4 oz",
}


@pytest.fixture
def book(browser):
    answer = browser.get("/survey.xlsx")
    assert answer.headers["Content-Disposition"] == 'attachment; filename="survey.xlsx"'
    book = load_workbook(io.BytesIO(answer.content))
    house = book["House"]
    (row,) = (one for one in range(2, house.max_row + 1) if house.cell(one, 1).value == "name")
    house.cell(row, 2).value = "Weir Cottage"
    for name, record in (("Windows", WINDOW), ("Sashes", SASH)):
        heads = {cell.value: cell.column for cell in book[name][1]}
        for path, value in record.items():
            book[name].cell(HEAD_ROWS + 1, heads[path]).value = value
    return book


def bring(browser, book):
    data = io.BytesIO()
    book.save(data)
    return browser.post("/bring/", {"file": SimpleUploadedFile("survey.xlsx", data.getvalue())})


def test_the_blank_workbook_filled_in_begins_a_house(browser, book):
    answer = bring(browser, book)
    ident = answer.headers["Location"].strip("/").rpartition("/")[2]
    survey = survey_of(House.objects.get(pk=ident))
    assert survey.house.name == "Weir Cottage"
    assert survey.window[0].room == "Hall"
    assert survey.window[0].lower.weighed.text == "11 lb 4 oz"


def test_a_house_taken_out_as_a_workbook_is_the_same_house_brought_in(browser):
    begun = browser.post("/demo/").headers["Location"].strip("/").rpartition("/")[2]
    house = House.objects.get(pk=begun)
    answer = browser.get(f"/house/{house.pk}/survey.xlsx")
    assert answer.headers["Content-Disposition"] == 'attachment; filename="tollgate-house.xlsx"'
    before = set(House.objects.values_list("pk", flat=True))
    assert bring(browser, load_workbook(io.BytesIO(answer.content))).status_code == 302
    (again,) = House.objects.exclude(pk__in=before)
    assert survey_of(again) == survey_of(house)


def test_a_workbook_is_refused_by_the_cell_and_begins_nothing(browser, book):
    cell = next(cell for cell in book["Sashes"][HEAD_ROWS + 1] if cell.value == "11 lb 4 oz")
    cell.value = "11 4"
    before = House.objects.count()
    answer = bring(browser, book)
    assert answer.status_code == 422
    assert f"Sashes!{cell.coordinate} (weighed)" in answer.text
    assert House.objects.count() == before


def test_what_only_calls_itself_a_workbook_is_refused(browser):
    answer = browser.post("/bring/", {"file": SimpleUploadedFile("a.xlsx", b"not a workbook")})
    assert answer.status_code == 422
    assert "a workbook, .xlsx" in answer.text
