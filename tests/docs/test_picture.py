"""The picture is what its tool draws, true to scale, and needs nothing but itself."""

import re
from xml.etree import ElementTree as ET

import pytest

from evenhung.quantities import print_length

SVG = "{http://www.w3.org/2000/svg}"


def box_of(section, kind):
    """Give bottom and top of the one rectangle of a class, in heights above the sill."""
    (found,) = section.findall(f"{SVG}rect[@class='{kind}']")
    top = -float(found.get("y"))
    return top - float(found.get("height")), top


@pytest.fixture
def sections(root):
    """Give the four sections of the picture as it lies in the checkout, by their captions."""
    svg = ET.parse(root / "docs/pictures/hang.svg").getroot()  # noqa: S314 - our own file
    named = {}
    for group in svg.findall(f"{SVG}g"):
        for caption in group.findall(f"{SVG}text[@class='caption']"):
            named[caption.text] = group
    return named


def test_the_picture_is_up_to_date(tool, root):
    drawn = (root / "docs/pictures/hang.svg").read_text(encoding="utf-8")
    assert drawn == tool("draw_hang_picture").picture(), "run: python -m tools.draw_hang_picture"


def test_main_writes_the_picture(tool, tmp_path, monkeypatch):
    module = tool("draw_hang_picture")
    monkeypatch.setattr(module, "PICTURE", tmp_path / "hang.svg")
    module.main()
    assert (tmp_path / "hang.svg").read_text(encoding="utf-8") == module.picture()


def test_it_needs_nothing_from_outside_and_has_its_own_ground(root):
    drawn = (root / "docs/pictures/hang.svg").read_text(encoding="utf-8")
    assert not re.search(r"href|url\(|@import|@font-face|<image|<script", drawn)
    assert re.findall(r"https?://[^\"]+", drawn) == ["http://www.w3.org/2000/svg"]
    whole = ET.fromstring(drawn)  # noqa: S314 - our own file
    first = next(whole.iter(f"{SVG}rect"))
    assert first.get("class") == "ground"


def test_each_sash_stands_at_both_ends_of_its_travel(sections):
    assert list(sections) == [
        "Upper sash lowered",
        "Upper sash shut",
        "Lower sash shut",
        "Lower sash raised",
    ]


@pytest.mark.parametrize(
    ("caption", "place"), [("Upper sash lowered", "upper"), ("Lower sash shut", "lower")]
)
def test_the_knot_is_as_far_below_the_pulley_case_as_the_plan_has_it(
    sections, demo_plan, caption, place
):
    hang = getattr(demo_plan.windows[0], place).proposal.hang
    clear = box_of(sections[caption], "case")[0] - box_of(sections[caption], "knot")[1]
    assert clear == pytest.approx(hang.top_clear_mm, abs=0.01)
    assert_dimensioned(sections[caption], hang.top_clear_mm)


@pytest.mark.parametrize(
    ("caption", "place"), [("Upper sash shut", "upper"), ("Lower sash raised", "lower")]
)
def test_the_weight_is_as_far_above_the_box_bottom_as_the_plan_has_it(
    sections, demo_plan, caption, place
):
    hang = getattr(demo_plan.windows[0], place).proposal.hang
    foot, top = box_of(sections[caption], "iron")
    assert foot - box_of(sections[caption], "cavity")[0] == pytest.approx(
        hang.bottom_clear_mm, abs=0.01
    )
    weight = getattr(demo_plan.windows[0], place).sash.right
    assert top - foot == pytest.approx(weight.length.mm)
    assert_dimensioned(sections[caption], hang.bottom_clear_mm)


def assert_dimensioned(section, mm):
    words = [text.text for text in section.findall(f"{SVG}text")]
    assert print_length(mm, "imperial") in words
    assert print_length(mm, "metric") in words


def test_sash_and_weight_run_equally_far(sections, demo_plan):
    for place, ends in (
        ("upper", ("Upper sash lowered", "Upper sash shut")),
        ("lower", ("Lower sash shut", "Lower sash raised")),
    ):
        run = getattr(demo_plan.windows[0], place).sash.travel.mm
        low, high = (sections[end] for end in ends)
        assert box_of(high, "glass")[0] - box_of(low, "glass")[0] == pytest.approx(run)
        assert box_of(low, "iron")[0] - box_of(high, "iron")[0] == pytest.approx(run)


def test_a_sash_without_a_hang_is_not_drawn(tool, demo_plan):
    fixed = demo_plan.windows[3].upper
    with pytest.raises(LookupError, match="W4 upper: the plan has no hang to draw"):
        tool("draw_hang_picture")._section(fixed, is_lowest=True)
