"""The blank forms on paper: room to write in, every part and every word."""

from __future__ import annotations

import io
from datetime import date
from functools import cache

import pdfplumber
import pytest

from evenhung.sheets.blank.forms import blank_forms
from evenhung.sheets.pack.house import Edition
from evenhung.survey.finding import GRADES, SYMPTOMS
from evenhung.survey.members import EVERY_SEEN, PARTS
from evenhung.survey.surroundings import Surroundings

POINTS_IN_MM = 72 / 25.4
LEAST_ROW_MM = 7.0
LEAST_TYPE = 9.0

papers = pytest.mark.parametrize("paper", ["a4", "letter"])


@cache
def pages(paper):
    with pdfplumber.open(io.BytesIO(blank_forms(Edition("blank", date(2026, 3, 9), paper)))) as pdf:
        return [(page, page.chars, page.find_tables(), page.extract_text()) for page in pdf.pages]


@papers
def test_a_house_is_one_page_and_a_window_three(paper):
    assert [text.splitlines()[0] for _, _, _, text in pages(paper)] == [
        "House",
        "Window",
        "Window: its sashes",
        "Window: what was found",
    ]


@papers
def test_every_letter_is_on_the_page_and_large_enough(paper):
    for page, letters, _, _ in pages(paper):
        assert all(one["x0"] >= 0 and one["x1"] <= page.width for one in letters)
        assert all(one["top"] >= 0 and one["bottom"] <= page.height for one in letters)
        assert min(one["size"] for one in letters) == pytest.approx(LEAST_TYPE)


@papers
def test_every_row_can_be_written_in_by_hand(paper):
    count = 0
    for page, _, tables, _ in pages(paper):
        for table in tables:
            for cell in (cell for row in table.rows for cell in row.cells if cell):
                if not page.crop(cell).extract_text().strip():
                    is_head = cell[1] == table.bbox[1]  # the corner above what is asked
                    count += not is_head
                    assert is_head or (cell[3] - cell[1]) / POINTS_IN_MM >= LEAST_ROW_MM
    assert count > 300


@papers
def test_findings_and_symptoms_have_their_words(paper):
    _, _, tables, text = pages(paper)[3]
    found = tables[0].extract()
    heads = ["part", "seen", "measured\nfrom", "begins", "length", "depth", "moisture %", "grade"]
    assert found[0] == [*heads, "photo"]
    assert len(found) > 12
    said = " ".join(text.split())
    for word in (*EVERY_SEEN, *GRADES, *SYMPTOMS):
        assert word in said
    for name, member in PARTS.items():
        bare = name.removeprefix(f"{member.place} ")
        assert bare.replace("left ", "").replace("right ", "") in said, name


@papers
def test_the_surroundings_have_room(paper):
    text = pages(paper)[1][3]
    for field in Surroundings.entries:
        assert field.replace("_", " ") in text
