"""What the tests of the pack share: houses, their packs, pages as text and as pictures."""

from __future__ import annotations

import copy
import math
import tomllib
from datetime import date
from functools import cache
from typing import NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from evenhung.plan import plan_house
from evenhung.plan.allotment import allot_house
from evenhung.sheets.pack.files import Wish, pack_files
from evenhung.sheets.pack.house import Edition, pack_house, revision_of
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from
from evenhung.survey.members import PARTS, SEEN

DEMO = SURVEY
DAY = date(2026, 3, 9)
ALL = Wish(is_drawn=True)
LONG = "The gardener's daughter's old reading room above the stable arch, north-east side, "
NOTE = f"First word. {(LONG * 30)[:1970].rstrip()}. Last word."
"""Nearly as long as a survey takes a note."""
UNBROKEN = "Donaudampfschifffahrtsgesellschaftskapitän" * 4


def tollgate():
    return tomllib.loads(DEMO.read_text(encoding="utf-8"))


def forty():
    """Give a house of forty windows: the demo house's, over and over."""
    survey = tollgate()
    found = survey["window"]
    survey["window"] = [copy.deepcopy(found[number % len(found)]) for number in range(40)]
    for number, window in enumerate(survey["window"], 1):
        window["tag"] = f"W{number}"
    return survey


def ten():
    """Give a house of ten windows, whose owner's record would break amid a list and a window."""
    survey = forty()
    survey["window"] = survey["window"][:10]
    return survey


def longest():
    """Give a house whose every name is as long as a survey takes it, or nearly."""
    survey = tollgate()
    survey["house"] |= {"name": (LONG * 30)[:2000], "note": LONG * 4}
    for number, window in enumerate(survey["window"]):
        window["tag"] = ("W" * 90 if number else LONG * 4) + str(number)
        window["room"], window["note"] = UNBROKEN, LONG * 8
    survey["window"][1]["lower"]["left"]["marked"] = "9" * 300
    for weight in survey["weight"]:
        weight["tag"] = LONG * 2 + weight["tag"]
    return survey


def emptiest():
    """Give a house with one window of nothing but what must be stated, and one without a sash."""
    box = {
        "clear_width": "860 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
    }
    bare = {"tag": "1", "box": box, "pulley": {"wheel": "44 mm"}}
    sash = {"height": "840 mm", "width": "857 mm", "cord_end": "260 mm"}
    return {
        "form": 1,
        "house": {"name": "x"},
        "window": [
            {**bare, "upper": sash, "lower": sash | {"height": "850 mm"}},
            bare | {"tag": "2"},
        ],
    }


def dense():
    """Give a house with something found of every part of every window: more than a card holds."""
    survey = tollgate()
    for number, window in enumerate(survey["window"]):
        window["finding"] = [
            _finding(part, member)
            for part, member in PARTS.items()
            if member.place in ("", *window) and member.kind != "bars"
        ]
        if number == 0:  # one that is only full
            window["finding"] = window["finding"][:7]
    return survey


def wordy():
    """Give a house of which as much is said as a survey takes: of every pane, in long notes."""
    survey = tollgate()
    window = survey["window"][4]
    for place in ("upper", "lower"):
        window[place]["panes"] = {"across": 8, "up": 8}
    window["note"] = NOTE
    window["finding"] = [
        {"part": f"{place} {part}", "seen": seen, "column": column, "row": row}
        for place in ("upper", "lower")
        for part, seen in (("glass", "cracked"), ("putty", "perished"))
        for column in range(1, 9)
        for row in range(1, 9)
    ]
    for one in survey["window"][1]["finding"]:
        one["note"] = NOTE
    return survey


def _finding(part, member):
    """Give the worst that can be found of a part."""
    if member.kind in ("stile", "rail", "sill", "head", "pulley stile", "lining"):
        end = member.ends[0]
        rot = {"measured_from": end, "length": "90 mm", "depth": "20 mm", "moisture_pct": 28.0}
        return {"part": part, "seen": "rot", **rot}
    worst = "missing" if member.kind in ("bead", "slip", "pocket") else SEEN[member.kind][-2]
    return {"part": part, "seen": worst}


def tried():
    """Give a house of which one window is proved, and of another one sash drops."""
    survey = tollgate()
    stays = {"shut": "stays", "half": "stays", "open": "stays"}
    proved, dropped = survey["window"][0], survey["window"][1]
    proved["upper"]["completion"] = {"let_go": stays, "on": "2026-11-26", "by": "Ann"}
    proved["lower"]["completion"] = {
        "let_go": stays,
        "raising": ["5 lb"],
        "lowering": ["2 lb 8 oz"],
        "on": "2026-11-27",
        "note": "Left runner waxed again.",
    }
    dropped["lower"]["completion"] = {
        "let_go": {"shut": "stays", "half": "drops"},
        "raising": ["9 lb"],
        "holding": ["1 lb"],
    }
    survey["decision"] = [
        {"what": "hung", "sash": "W1 lower", "side": "left", "weighed": "9 lb 1 oz"}
    ]
    return survey


def windowless():
    return {"form": 1, "house": {"name": "x"}}


HOUSES = {
    "plain": tollgate,
    "forty": forty,
    "ten": ten,
    "longest": longest,
    "emptiest": emptiest,
    "dense": dense,
    "wordy": wordy,
    "windowless": windowless,
    "tried": tried,
}


@cache
def packed(which, paper="a4", *, with_allotment=False, linked=False):
    """Give a house as its sheets have it."""
    survey = survey_from(HOUSES[which]())
    plan = plan_house(survey)
    link = (lambda window: f"https://sash.example/window/{window.tag}/") if linked else None
    edition = Edition(revision_of(survey), DAY, paper, link)
    return pack_house(plan, edition, allot_house(plan) if with_allotment else None)


@cache
def file_of(name, which="plain", paper="a4", **options):
    """Give one file of a pack."""
    house = packed(which, paper, **options)
    (made,) = (one.make() for one in pack_files(house, ALL) if one.name == name)
    return made


@pytest.fixture(scope="session")
def house_of():
    return packed


@pytest.fixture(scope="session")
def file():
    return file_of


class Letter(NamedTuple):
    """One letter on a page, measured from its upper left [pt]."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    size: float


class Page(NamedTuple):
    """All letters of a page [pt]."""

    width: float
    height: float
    letters: list[Letter]


@pytest.fixture(scope="session")
def letters_of():
    """Give the pages of a PDF with every letter's box, as PDFium measures it."""

    @cache
    def letters(data):
        return [_page(one) for one in pypdfium2.PdfDocument(data)]

    return letters


def _page(page):
    text, height = page.get_textpage(), page.get_height()
    box, turned = pdfium.FS_RECTF(), pdfium.FS_MATRIX()
    found = []
    for number in range(text.count_chars()):
        if pdfium.FPDFText_IsGenerated(text, number):
            continue  # a space or the end of a line, which PDFium adds
        assert pdfium.FPDFText_GetLooseCharBox(text, number, box)
        assert pdfium.FPDFText_GetMatrix(text, number, turned)
        size = pdfium.FPDFText_GetFontSize(text, number) * math.hypot(turned.c, turned.d)
        letter = chr(pdfium.FPDFText_GetUnicode(text, number))
        found.append(
            Letter(letter, box.left, height - box.top, box.right, height - box.bottom, size)
        )
    return Page(page.get_width(), height, found)


@pytest.fixture(scope="session")
def text_of():
    """Give the words of a PDF, page by page, its fractions as they are typed elsewhere."""

    @cache
    def text(data):
        pages = pypdfium2.PdfDocument(data)
        return [as_typed(page.get_textpage().get_text_range()) for page in pages]

    return text


def as_typed(text):
    """Give a text as it is typed elsewhere: its fractions with a plain bar, no marks of breaks."""
    plain = {"\N{FRACTION SLASH}": "/", "\N{NO-BREAK SPACE}": " ", "\N{ZERO WIDTH SPACE}": None}
    return text.translate(str.maketrans(plain))


@pytest.fixture(scope="session")
def picture_of():
    """Give one page as a picture."""

    def picture(data, page=0, scale=3.0):
        return pypdfium2.PdfDocument(data)[page].render(scale=scale).to_pil()

    return picture
