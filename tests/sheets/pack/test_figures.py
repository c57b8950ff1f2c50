"""What is printed is what the plan says: masses, cords, marks, moves."""

from __future__ import annotations

import re

import pytest

from evenhung.sheets.pack.house import revision_of
from evenhung.sheets.pack.sides import sides_of
from evenhung.survey import survey_from

pytestmark = pytest.mark.slow  # solves or sets for seconds


@pytest.mark.parametrize("with_allotment", [False, True])
def test_cards_give_the_plans_own_figures(file, house_of, text_of, with_allotment):
    house = house_of("plain", with_allotment=with_allotment)
    pages = text_of(file("bench-cards.pdf", with_allotment=with_allotment))
    words = house.words
    for page, window in zip(pages, house.plan.windows, strict=True):
        said = " ".join(page.split())
        for sash in (window.upper, window.lower):
            if sash is None or sash.proposal is None:
                continue
            hang = sash.proposal.hang
            lengths = (hang.cut_mm, hang.mark_slack_mm, hang.working_mm, hang.top_clear_mm)
            figures = [words.mass(side.hung.mass_kg) for side in sides_of(house, sash)]
            figures += map(words.length, lengths)
            for figure in figures:
                _, _, other = figure.rstrip(")").partition(" (")
                assert other in said  # the other system: it stands on one line


def test_an_allotted_weight_names_where_it_comes_from(file, text_of):
    page = text_of(file("bench-cards.pdf", with_allotment=True))[2]
    assert "loose weight A" in page


def test_nothing_is_printed_to_hang_where_nothing_is_known(file, text_of):
    page = " ".join(text_of(file("bench-cards.pdf", "emptiest"))[0].split())
    assert page.count("Hang nothing yet") == 2
    assert "Cut two" not in page
    assert "before anything is hung" in page


def test_a_broken_cord_is_not_said_to_be_fit_to_stay(file, text_of):
    page = " ".join(text_of(file("bench-cards.pdf"))[5].split())
    assert "Left cord is broken" in page
    assert "may stay" not in page


def test_a_sound_cord_may_stay(file, text_of):
    assert "may stay" in " ".join(text_of(file("bench-cards.pdf"))[0].split())


def test_the_house_sheet_tells_every_window(file, house_of, text_of):
    said = " ".join(" ".join(text_of(file("house-sheet.pdf"))).split())
    for window in house_of("plain").plan.windows:
        assert window.window.tag in said
        assert " ".join((window.window.room or "").split()) in said
    for sash in house_of("plain").plan.sashes():
        assert sash.judgement.verdict in said


def test_every_verdict_is_also_a_shade_and_a_hatch(file, picture_of):
    """A page in grey is the page: nothing is told by colour."""
    picture = picture_of(file("bench-cards.pdf"), 1, scale=1.0).convert("RGB")
    assert all(max(pixel) - min(pixel) <= 2 for _, pixel in picture.getcolors(maxcolors=1 << 24))


def test_the_same_survey_and_day_give_the_same_bytes(house_of):
    from evenhung.sheets.pack.files import pack_files

    first, second = (
        {one.name: one.make() for one in pack_files(house_of("plain"))} for _ in range(2)
    )
    assert first == second


def test_another_survey_is_another_revision():
    survey = {"form": 1, "house": {"name": "Alder Row"}}
    other = {"form": 1, "house": {"name": "Alder Row", "note": "roof first"}}
    names = {revision_of(survey_from(one)) for one in (survey, other)}
    assert len(names) == 2
    assert all(re.fullmatch("[0-9a-f]{4}-[0-9a-f]{4}", name) for name in names)
