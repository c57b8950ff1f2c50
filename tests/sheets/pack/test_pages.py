"""Every page of every sheet: within its bounds, large enough to read, told what it belongs to."""

from __future__ import annotations

import io
import re
from itertools import pairwise

import pdfplumber
import pypdfium2
import pytest

from evenhung.sheets.pack.records import CARE

pytestmark = pytest.mark.slow  # sheets are set by the dozen, or a process is waited for

SHEETS = (
    "house-sheet.pdf",
    "quotation.pdf",
    "programme.pdf",
    "method-and-risks.pdf",
    "bench-cards.pdf",
    "lists.pdf",
    "tags-adhesive.pdf",
    "tags-cut-out.pdf",
    "marking-strips.pdf",
    "completion-record.pdf",
    "owners-record.pdf",
    "drawings.pdf",
)
READ = (
    "house-sheet.pdf",
    "quotation.pdf",
    "programme.pdf",
    "method-and-risks.pdf",
    "lists.pdf",
    "completion-record.pdf",
    "owners-record.pdf",
)
"""Sheets of running text, with headings."""
HOUSES = (
    ("plain", "a4"),
    ("longest", "a4"),
    ("emptiest", "a4"),
    ("windowless", "a4"),
    ("wordy", "a4"),
    ("plain", "letter"),
    ("longest", "letter"),
    ("dense", "letter"),
    pytest.param(("forty", "a4"), marks=pytest.mark.long),
)
LEAST_PT = 9.0
SLACK_PT = 0.1
LEAST_HEADING_PT = 12.5
FOOT_PT = 43.0
"""A page's lower margin, with what it belongs to."""


every_house = pytest.mark.parametrize("house", HOUSES, ids="-".join)
every_sheet = pytest.mark.parametrize("name", SHEETS)


@every_sheet
@every_house
def test_no_letter_leaves_its_page_and_none_is_tiny(file, letters_of, name, house):
    pages = letters_of(file(name, *house))
    assert pages
    for page in pages:
        assert page.letters
        for letter in page.letters:
            assert -SLACK_PT <= letter.left <= letter.right <= page.width + SLACK_PT, letter
            assert letter.top >= -SLACK_PT, letter
            assert letter.bottom <= page.height + SLACK_PT, letter
            if letter.text.strip() and letter.text != "\N{FRACTION SLASH}":
                assert letter.size >= LEAST_PT - SLACK_PT, letter


@pytest.mark.parametrize("which", ["plain", "longest", "emptiest", "wordy", "ten"])
@pytest.mark.parametrize("name", READ)
def test_no_page_ends_on_a_heading(file, letters_of, name, which):
    for number, page in enumerate(letters_of(file(name, which)), 1):
        body = [one for one in page.letters if one.bottom < page.height - FOOT_PT]
        last = max(one.bottom for one in body)
        line = [one for one in body if one.bottom > last - 6.0]
        said = "".join(one.text for one in line)
        assert min(one.size for one in line) < LEAST_HEADING_PT, (number, said)


@pytest.mark.parametrize("which", ["plain", "longest", "wordy", "ten"])
def test_what_is_told_in_a_list_stays_on_one_page(file, text_of, which):
    pages = [" ".join(page.split()) for page in text_of(file("owners-record.pdf", which))]
    (page,) = (page for page in pages if "How to keep them" in page)
    for one in CARE:
        assert one in page


@pytest.mark.parametrize("which", ["plain", "longest", "ten"])
def test_both_sashes_of_a_window_stand_on_one_page_of_the_owners_record(file, house_of, which):
    seen = 0
    with pdfplumber.open(io.BytesIO(file("owners-record.pdf", which))) as pdf:
        for page in pdf.pages:
            words = page.extract_words()
            heads = [
                one["x0"]
                for before, one in pairwise(words)
                if (before["text"], one["text"]) == ("window", "sash")
            ]
            named = [
                one["text"]
                for one in words
                if one["text"] in ("upper", "lower")
                and any(abs(one["x0"] - head) < 1.0 for head in heads)
            ]
            assert named == ["upper", "lower"] * (len(named) // 2)
            seen += len(named)
    assert seen == len(list(house_of(which).plan.sashes()))


def test_a_long_note_is_told_whole_on_the_house_sheet(file, house_of, text_of):
    said = " ".join(" ".join(text_of(file("house-sheet.pdf", "wordy"))).split())
    findings = house_of("wordy").plan.survey.window[1].finding
    assert said.count("First word.") == said.count("Last word.") == len(findings) + 1
    assert len(findings) == 3


def test_the_house_sheet_counts_sashes_not_windows(file, text_of):
    said = " ".join(text_of(file("house-sheet.pdf"))[0].split())
    assert "6 windows with 12 sashes: hangs true 4" in said


@pytest.mark.parametrize("which", ["plain", "longest"])
@pytest.mark.parametrize("name", [one for one in SHEETS if one != "tags-adhesive.pdf"])
def test_every_page_says_what_it_belongs_to(file, house_of, text_of, name, which):
    pages = text_of(file(name, which))
    revision = house_of(which).edition.revision
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
        assert f"survey {revision} · 9 March 2026" in page


@every_sheet
def test_a_sheet_has_a_title_bookmarks_and_tags(file, name):
    document = pypdfium2.PdfDocument(file(name))
    assert document.get_metadata_value("Title").startswith("Tollgate House: ")
    assert [one.get_title() for one in document.get_toc()]
    assert b"/MarkInfo" in file(name)
    assert b"/StructTreeRoot" in file(name)
    assert b"pdfuaid" in file(name)


@every_sheet
def test_every_font_is_embedded(file, name):
    data = file(name)
    fonts = set(re.findall(rb"/BaseFont ?/([^\s/]+)", data))
    assert fonts
    assert all(re.match(rb"[A-Z]{6}\+SourceSans3", font) for font in fonts), fonts
    assert data.count(b"/FontFile3") >= len({font.split(b"-Identity")[0] for font in fonts})


@pytest.mark.parametrize("which", ["plain", "longest", "emptiest", "dense"])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_bench_card_is_one_page(file, house_of, which, paper):
    pages = pypdfium2.PdfDocument(file("bench-cards.pdf", which, paper))
    assert len(pages) == len(house_of(which).plan.windows)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("which", ["plain", "longest", "emptiest"])
def test_a_card_has_its_drawings_or_says_where_they_are(file, text_of, which, paper):
    for page in text_of(file("bench-cards.pdf", which, paper)):
        has_section, has_elevation = "right box, shut" in page, "Seen from inside" in page
        assert ("drawn in drawings.pdf" in page) == (not has_elevation and not has_section)
        assert ("seen from inside: drawings.pdf" in page) == (has_section and not has_elevation)


@pytest.mark.parametrize(("paper", "bare"), [("a4", []), ("letter", ["W3", "W5"])])
def test_only_the_densest_cards_of_the_demo_house_go_without_drawings(file, text_of, paper, bare):
    pages = text_of(file("bench-cards.pdf", "plain", paper))
    found = [page.split()[0] for page in pages if "drawn in drawings.pdf" in page]
    assert found == bare  # their repairs, with sizes and cautions, come first


@pytest.mark.parametrize(
    "name", [one for one in SHEETS if "tags" not in one and "strips" not in one]
)
def test_every_sheet_that_is_worked_by_defers_to_local_codes(file, text_of, name):
    said = " ".join(" ".join(text_of(file(name))).split())
    assert "Local codes, and whoever is licensed to do the work" in said


def test_what_is_estimated_is_marked(file, text_of):
    with pdfplumber.open(io.BytesIO(file("bench-cards.pdf"))) as pdf:
        card = pdf.pages[4]
        for left, right in ((0.0, 0.5), (0.5, 1.0)):  # its sashes stand side by side
            half = card.crop((left * card.width, 0, right * card.width, card.height))
            said = " ".join(half.extract_text().split())
            assert "estimated" in said
            assert "weigh it before any weight is changed" in said
    assert "estimated" not in text_of(file("bench-cards.pdf"))[0]


def test_what_may_hurt_stands_on_every_card(file, text_of):
    for page in text_of(file("bench-cards.pdf", "longest")):
        said = " ".join(page.split())
        for words in ("prop or wedge it", "Tie off or peg the weight", "lead until a test says"):
            assert words in said
