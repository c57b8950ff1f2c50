"""The marking strips measured in the PDF: every mark where the plan has it, to 0.2 mm."""

from __future__ import annotations

import io
import re

import pdfplumber
import pytest

from evenhung.sheets.pack.strips import PIECE_MM, RULER_MM, strips_of

pytestmark = pytest.mark.slow  # solves or sets for seconds

POINT_MM = 25.4 / 72.0
TO_MM = 0.2
THICK_PT = 1.2
STRIP_MM = 17.4
EDGE_MM = 8.0
"""What many printers leave white."""


@pytest.fixture(params=["a4", "letter"])
def paper(request):
    return request.param


@pytest.fixture
def pages(file, paper):
    with pdfplumber.open(io.BytesIO(file("marking-strips.pdf", "plain", paper))) as pdf:
        yield pdf.pages


def test_every_mark_lies_where_the_plan_has_it(pages, house_of, paper):
    house = house_of("plain", paper)
    first = next(sash for sash in house.plan.sashes() if sash.proposal is not None)
    wanted = []
    for strip in strips_of(first):
        end = strip.marks[-1].mm
        last = max(0, -(-int(end * 1000) // (PIECE_MM[paper] * 1000)) - 1)
        for mark in strip.marks:
            piece = min(int(mark.mm // PIECE_MM[paper]), last)
            wanted.append(mark.mm - piece * PIECE_MM[paper])
    found = [mm for page in pages[:2] for mm in _marks(page)]
    assert len(wanted) == 5
    for mm in wanted:
        assert min(abs(mm - one) for one in found) <= TO_MM, mm


def _marks(page):
    """Give how far below the top of its outline each thick level line lies [mm]."""
    strips = [rect for rect in page.rects if abs(_mm(rect["width"]) - STRIP_MM) < TO_MM]
    top = min(rect["top"] for rect in strips if _mm(rect["height"]) > 50.0)
    lines = [*page.lines, *page.curves, *page.rects]
    levels = [one for one in lines if one["linewidth"] == pytest.approx(THICK_PT, abs=0.01)]
    return [_mm(one["top"] - top) for one in levels if _mm(one["height"]) < 1.0]


def _mm(points):
    return float(points) * POINT_MM


def test_the_check_ruler_is_true(pages, paper):
    out = {"a4": "0.45 mm in 270 mm", "letter": "0.4 mm in 240 mm"}[paper]
    for page in pages:
        (ruler,) = (rect for rect in page.rects if abs(_mm(rect["width"]) - 16.0) < TO_MM)
        assert _mm(ruler["height"]) == pytest.approx(RULER_MM[paper], abs=TO_MM)
        levels = sorted(
            _mm(line["top"] - ruler["top"])
            for line in [*page.lines, *page.curves]
            if abs(line["x0"] - ruler["x0"]) < 0.1
        )
        assert levels == pytest.approx(list(range(0, RULER_MM[paper] + 1, 5)), abs=TO_MM)
        assert _mm(ruler["top"]) > EDGE_MM
        assert _mm(page.height - ruler["bottom"]) > EDGE_MM
        said = " ".join(page.extract_text().split())
        assert "Print at full size: 100 %, no fitting to the page." in said
        assert "throw the sheet away" in said
        letters = "".join(char["text"] for char in page.chars).replace(" ", "")
        assert f"outbymorethan{out}(0.5mmin300)".replace(" ", "") in letters


def test_the_ruler_is_longer_than_any_piece(paper):
    assert RULER_MM[paper] > PIECE_MM[paper]


def test_marks_are_named_with_their_figures(pages, house_of, paper):
    house = house_of("plain", paper)
    hang = next(sash for sash in house.plan.sashes() if sash.proposal is not None).proposal.hang
    letters = "".join(char["text"] for page in pages[:2] for char in page.chars)
    said = "".join(letters.split()).replace("\N{FRACTION SLASH}", "/")
    for mm in (hang.mark_slack_mm, hang.working_mm, hang.cut_mm):
        assert house.words.length(mm).replace(" ", "") in said


def test_sashes_marked_alike_share_a_sheet(house_of, file, text_of):
    pages = text_of(file("marking-strips.pdf", "forty"))
    assert len(pages) < len(house_of("forty").plan.sashes())
    assert any("W1 upper, W7 upper" in page for page in pages)


def test_no_word_is_written_across_a_mark(pages):
    """A mark is a line that is cut or nailed by: nothing may stand on it."""
    seen = 0
    for page in pages:
        lines = [one for one in (*page.lines, *page.curves, *page.rects) if _is_mark(one)]
        for letter in page.chars:
            across, up, *_ = letter["matrix"]
            if abs(across) > abs(up) or not letter["text"].strip():
                continue
            for line in lines:
                if line["x0"] - 1.0 <= letter["x0"] <= line["x1"] + 1.0:
                    seen += 1
                    assert not letter["top"] < line["top"] < letter["bottom"], letter
    assert seen > 100


def test_no_figure_stands_on_a_mark(pages):
    """Nor is a figure of the scale struck through: it then stands below its line."""
    seen = 0
    for page in pages:
        lines = [one for one in (*page.lines, *page.curves, *page.rects) if _is_mark(one)]
        for word in page.extract_words():
            upright = word["upright"] and re.fullmatch(r"\d+|joins|to", word["text"])
            for line in lines if upright else ():
                if line["x0"] - 1.0 <= word["x0"] <= line["x1"] + 1.0:
                    seen += 1
                    assert not word["top"] + 1.0 < line["top"] < word["bottom"] - 1.0, word
    assert seen > 100


def _is_mark(one):
    is_thick = one["linewidth"] == pytest.approx(THICK_PT, abs=0.01)
    return is_thick and _mm(one["height"]) < 1.0 and _mm(one["width"]) > 15.0
