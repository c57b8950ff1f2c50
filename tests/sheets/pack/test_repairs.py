"""The overhaul on the sheets: what was found, what is done with which sizes, what is kept."""

from __future__ import annotations

import io
from datetime import date

import pdfplumber
import pytest

from evenhung.plan import plan_house
from evenhung.sheets.kept import kept_lines
from evenhung.sheets.pack.house import Edition, pack_house
from evenhung.sheets.pack.repairs import repairs_of
from evenhung.survey import survey_from

from .conftest import as_typed

pytestmark = pytest.mark.slow  # solves or sets for seconds

BARE = {
    "tag": "1",
    "box": {
        "clear_width": "860 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
    },
    "pulley": {"wheel": "44 mm"},
}


def said_on(text_of, data):
    return " ".join(" ".join(text_of(data)).split())


def cards_of(data, text_of):
    """Give what each card says: across the page, then on the left of its pictures alone."""
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        beside = [
            page.crop((0, 0, page.width - BESIDE_PT, page.height)).extract_text()
            for page in pdf.pages
        ]
    both = zip(text_of(data), beside, strict=True)
    return [" ".join(as_typed(f"{whole} {left}").split()) for whole, left in both]


BESIDE_PT = (56 + 4 + 11) * 72 / 25.4
"""The column of pictures, the gap before it and the margin."""


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_card_has_every_repair_with_its_sizes(file, house_of, text_of, paper):
    house = house_of("plain", paper)
    pages = cards_of(file("bench-cards.pdf", "plain", paper), text_of)
    for said, window in zip(pages, house.plan.windows, strict=True):
        overhaul = house.overhaul_of(window)
        for one in repairs_of(overhaul, house.words) if overhaul else ():
            assert f"{one.part[0].upper()}{one.part[1:]}: {one.what}." in said
        for one in overhaul.repair.treatments if overhaul else ():
            if one.splice is not None:
                long = house.words.length(one.splice.piece_mm).partition(" (")[0]
                assert f"new piece {long}" in said


def test_cautions_of_a_repair_stand_on_its_card(file, text_of):
    kitchen = cards_of(file("bench-cards.pdf"), text_of)[2]
    assert "Sill: may bear load: ask before it is cut." in kitchen
    assert "Sill, lower bottom rail: let it dry before it is glued, filled or painted." in kitchen
    assert "safety glass may be asked for" in kitchen


def test_a_card_without_room_names_the_parts_and_where_their_sizes_are(file, text_of):
    full, crowded, *_ = text_of(file("bench-cards.pdf", "dense", "letter"))
    assert "Cut 1 15/16 in beyond the decay" in " ".join(full.split())
    said = " ".join(crowded.split())
    assert "house sheet" in said
    assert "Cautions on these are on the house sheet: read them first." in said


def test_the_house_sheet_tells_findings_symptoms_and_what_is_kept(file, house_of, text_of):
    house, said = house_of("plain"), said_on(text_of, file("house-sheet.pdf"))
    overhaul = house.job.overhaul
    assert "; ".join(kept_lines(overhaul.repair.fabric)) in said
    for window in overhaul.windows:
        for one in window.repair.symptoms:
            assert one.tests[0].ask.rstrip("?.")[:30] in said
        if window.repair.treatments:
            assert f"Fabric: {'; '.join(kept_lines(window.repair.fabric))}." in said
        for note in window.notes:
            if note.severity != "info":
                assert note.text[:25].split(": ")[0].lower() in said.lower()


def test_the_owner_is_told_what_became_of_each_part(file, house_of, text_of):
    said = said_on(text_of, file("owners-record.pdf"))
    assert "; ".join(kept_lines(house_of("plain").job.overhaul.repair.fabric)) in said
    assert "Spliced: lower left stile." in said
    assert "Spliced: sill." in said
    assert "Kept as found: upper glass." in said


def test_the_completion_record_has_a_box_for_every_repair(file, house_of, text_of):
    said = said_on(text_of, file("completion-record.pdf"))
    for window in house_of("plain").job.overhaul.windows:
        for one in window.repair.treatments:
            if one.what != "leave":
                assert f"{one.finding.part}" in said
    assert "lower left stile: splice" in said


def test_fabric_is_drawn_where_something_new_goes_in(file, text_of):
    titles = [page.splitlines()[0] for page in text_of(file("drawings.pdf"))]
    assert [one for one in titles if "fabric" in one] == [f"W{n}, fabric" for n in (1, 2, 3, 5)]


@pytest.mark.parametrize(
    ("stated", "said"),
    [
        ({}, "rot"),
        ({"length": "95 mm"}, "rot, 95 mm (3 3/4 in) long"),
        (
            {"length": "95 mm", "measured_from": "top", "depth": "30 mm"},
            "rot, 95 mm (3 3/4 in) long from the top, 30 mm (1 3/16 in) deep",
        ),
        (
            {"length": "95 mm", "measured_from": "bottom", "begins": "50 mm", "moisture_pct": 24},
            "rot, 95 mm (3 3/4 in) long from 50 mm (1 15/16 in) above the bottom, 24 % moisture",
        ),
    ],
)
def test_what_was_found_is_said_as_far_as_it_is_recorded(stated, said):
    sash = {"height": "840 mm", "width": "857 mm", "cord_end": "260 mm"}
    survey = {"form": 1, "house": {"name": "x"}, "window": [{**BARE, "lower": sash}]}
    survey["window"][0]["finding"] = [{"part": "lower left stile", "seen": "rot", **stated}]
    survey["house"]["shown_in"] = "metric"
    house = pack_house(plan_house(survey_from(survey)), Edition("x", date(2026, 3, 9), "a4"))
    (one,) = repairs_of(house.overhaul_of(house.plan.windows[0]), house.words)
    assert one.found == said


def test_a_finding_says_how_many_photos_show_it():
    finding = {"part": "sill", "seen": "rot", "photo": ["a", "b"]}
    lower = {"height": "840 mm", "width": "856 mm", "weighed": "19 lb", "cord_end": "260 mm"}
    window = {**BARE, "lower": lower, "finding": [finding]}
    survey = survey_from({"form": 1, "house": {"name": "Alder Row"}, "window": [window]})
    plan = plan_house(survey)
    house = pack_house(plan, Edition("x", date(2026, 3, 9), "a4"))
    (repair,) = repairs_of(house.overhaul_of(plan.windows[0]), house.words)
    assert repair.found == "rot, 2 photos kept"
