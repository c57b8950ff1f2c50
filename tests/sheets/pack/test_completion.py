"""What was tried once the work was done, on the record that is signed and the one that is kept."""

from __future__ import annotations

import io

import pdfplumber
import pytest

pytestmark = pytest.mark.slow  # sheets are set one by one


@pytest.fixture
def said(file, text_of):
    """Gives ``said(name, ...)``: the words of a sheet of the house that was tried, in one line."""

    def words(name, which="tried", paper="a4"):
        return " ".join(" ".join(text_of(file(name, which, paper))).split())

    return words


def test_what_was_read_stands_in_the_place_of_the_blanks(said):
    text = said("completion-record.pdf")
    assert "Lower: proved. Stays shut, half open and open; raising takes 5.0 lbf (22 N)" in text
    assert "Left runner waxed again." in text
    assert "by itself" in text
    assert "read by Ann on 26 November 2026, 27 November 2026" in text
    assert "9 lb 1 oz" in text  # hung on the left of the lower sash of W1, as it was weighed


def test_a_sash_that_failed_says_why_and_what_is_to_be_looked_at(said):
    text = said("completion-record.pdf")
    assert "Lower: not proved. Drops when left half open: the pair is" in text
    assert "By the pulls the excess is" in text


def test_where_nothing_was_tried_the_sheet_is_as_blank_as_ever(said):
    text = said("completion-record.pdf", "plain")
    assert "proved" not in text
    assert "read by on" in text
    assert "proved" not in said("owners-record.pdf", "plain")


def test_the_owner_reads_which_window_was_proved_on_which_day(file, said):
    with pdfplumber.open(io.BytesIO(file("owners-record.pdf", "tried"))) as pdf:
        sash = next(one for one in pdf.pages[0].extract_words() if one["text"] == "sash")
        names = pdf.pages[0].crop((0, 0, sash["x0"] - 2.0, pdf.pages[0].height)).extract_text()
    named = " ".join(names.split())
    assert named.count("proved on 27 November 2026") == 1  # the later of its two sashes
    text = said("owners-record.pdf")
    assert "Where a window is called proved, each of its sashes was let go" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", ["completion-record.pdf", "owners-record.pdf"])
def test_nothing_runs_off_the_page(file, name, paper):
    with pdfplumber.open(io.BytesIO(file(name, "tried", paper))) as pdf:
        for page in pdf.pages:
            assert all(0 <= one["x0"] <= one["x1"] <= page.width for one in page.chars)
            assert all(0 <= one["top"] <= one["bottom"] <= page.height for one in page.chars)
