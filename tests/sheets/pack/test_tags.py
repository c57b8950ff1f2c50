"""Tags: every part has one, and the code on each is read back from the page as it is printed."""

from __future__ import annotations

import pytest
import zxingcpp

from evenhung.errors import DrawingDomainError
from evenhung.sheets.pack.labels import ADHESIVE, CARD, labels_of
from evenhung.sheets.pack.tags import tags, tags_of

PAPER_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


@pytest.mark.parametrize(
    "labels", [*ADHESIVE, *CARD.values()], ids=lambda one: f"{one.name} {one.paper}"
)
def test_codes_open_their_windows(house_of, picture_of, labels):
    house = house_of("plain", labels.paper, linked=True)
    made = [tag for window in house.plan.windows for tag in tags_of(house, window)]
    first = made[: labels.across * labels.down]
    page = picture_of(tags(house, labels), scale=3.0)
    read = sorted(code.text for code in zxingcpp.read_barcodes(page))
    assert read == sorted(f"https://sash.example/window/{tag.window}/" for tag in first)


def test_without_an_app_a_code_says_the_window(file, picture_of):
    read = {code.text for code in zxingcpp.read_barcodes(picture_of(file("tags-adhesive.pdf")))}
    assert "Tollgate House: window W1" in read


def test_the_longest_names_still_make_codes_that_can_be_read(file, picture_of):
    codes = zxingcpp.read_barcodes(picture_of(file("tags-adhesive.pdf", "longest")))
    assert len(codes) == 24


def test_all_that_comes_apart_has_a_tag(house_of):
    house = house_of("plain")
    made = [(tag.what, tag.where) for tag in tags_of(house, house.plan.windows[0])]
    assert len(made) == len(set(made)) == 14
    assert ("Weight", "upper left") in made
    assert ("Sash", "lower") in made
    assert ("Parting bead", "top") in made


@pytest.mark.slow
@pytest.mark.parametrize(
    "labels",
    [one for one in (*ADHESIVE, *CARD.values()) if one.height >= 30.0],  # lower ones have no room
    ids=lambda one: f"{one.name} {one.paper}",
)
def test_a_mass_is_said_shorter_and_never_cut(house_of, text_of, labels):
    house = house_of("plain", labels.paper)
    said = " ".join(" ".join(text_of(tags(house, labels))).split())
    assert "…" not in said
    for sash in house.plan.sashes():
        if sash.mass.found == "estimated":
            own = house.words.mass(sash.mass.kg).partition(" (")[0]
            assert f"estimated {own}" in said or f"about {own}" in said


def test_a_fixed_sash_has_no_weights_to_tag(house_of):
    house = house_of("plain")
    made = [(tag.what, tag.where) for tag in tags_of(house, house.plan.windows[3])]
    assert ("Sash", "upper") in made
    assert ("Weight", "upper left") not in made
    assert ("Weight", "lower left") in made


@pytest.mark.parametrize(
    "labels", [*ADHESIVE, *CARD.values()], ids=lambda one: f"{one.name} {one.paper}"
)
def test_labels_lie_on_their_paper(labels):
    width, height = PAPER_MM[labels.paper]
    across = labels.left + labels.across * labels.width + (labels.across - 1) * labels.gap
    assert across <= width + 0.01
    assert labels.top + labels.down * labels.height <= height + 0.01


def test_labels_of_an_unknown_size_are_refused():
    with pytest.raises(DrawingDomainError, match="labels: '9x9': on a4 paper one of 70x37, 105x57"):
        labels_of("9x9", "a4")
