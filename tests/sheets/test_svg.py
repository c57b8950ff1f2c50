"""The SVG: clean, the same every time, fit for a page that allows nothing inline."""

import re

import pytest

from evenhung.plan.positions import Run
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.glyph import PIXELS_PER_MM, glyph_of
from evenhung.sheets.scene import Arc, Drawing, Group, Line, Rect, Shift, Stretch, Words
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import stretched, svg_of


def small(*groups, **options):
    return Drawing("section", "a <sash>", 'says "so" & more', groups, margin_mm=0.0, **options)


@pytest.fixture
def all_drawings(house):
    """Give every drawing of the demo house, as SVG."""
    drawn = [elevation_of(window) for window in house.windows]
    drawn += [glyph_of(window) for window in house.windows]
    for sash in house.sashes():
        drawn += [section_of(sash, side=side) for side in ("left", "right")]
        drawn.append(section_of(sash, as_found=True))
    return [svg_of(drawing) for drawing in drawn if drawing is not None]


def test_nothing_is_inline_and_nothing_is_named_twice(all_drawings, parsed):
    assert len(all_drawings) > 40
    for text in all_drawings:
        svg = parsed(text)
        assert not svg.all("script")
        assert not svg.all("style")
        names = {name for element in svg.all() for name in element.keys()}  # noqa: SIM118
        assert not {name for name in names if name.startswith("on")} | (names & {"style", "id"})
        assert "nan" not in text
        assert "inf" not in re.sub(r"<(title|desc)>.*?</\1>", "", text)


def test_every_drawing_says_what_it_is_in_words(all_drawings, parsed):
    for text in all_drawings:
        root = parsed(text).root
        assert root.get("role") == "img"
        assert root[0].tag.endswith("title")
        assert root[0].text == root.get("aria-label")
        assert root[1].tag.endswith("desc")


def test_drawings_are_small(all_drawings):
    assert max(map(len, all_drawings)) < 20_000


def test_the_same_plan_gives_the_same_bytes(house):
    first, second = (svg_of(elevation_of(house.windows[4])) for _ in range(2))
    assert first == second


def test_heights_run_down_and_one_unit_is_a_millimetre(parsed):
    svg = parsed(svg_of(small(Group("sash", (Rect(10.0, 20.0, 30.0, 40.0),)))))
    assert svg.root.get("viewBox") == "10 -60 30 40"
    (rect,) = svg.all("rect")
    assert [rect.get(name) for name in ("x", "y", "width", "height")] == ["10", "-60", "30", "40"]


def test_words_are_escaped(parsed):
    text = svg_of(small(Group("label", (Words((0.0, 0.0), "5 < 6 & 7", 10.0),))))
    svg = parsed(text)
    assert svg.words() == ["5 < 6 & 7"]
    assert svg.root.get("aria-label") == "a <sash>"
    assert svg.root[1].text == 'says "so" & more'


def test_a_size_in_pixels_is_that_of_the_view_box(house, parsed):
    root = parsed(svg_of(glyph_of(house.windows[0]), pixels_per_mm=PIXELS_PER_MM)).root
    *_, width, height = map(float, root.get("viewBox").split())
    assert float(root.get("width")) == pytest.approx(width * PIXELS_PER_MM, abs=0.01)
    assert float(root.get("height")) == pytest.approx(height * PIXELS_PER_MM, abs=0.01)
    assert 60 <= float(root.get("width")) <= 120


def test_moving_groups_carry_what_a_page_multiplies(parsed):
    moving = Group("sash", (Rect(0.0, 0.0, 1.0, 1.0),), motion=Shift(1.0))
    cord = Stretch(1560.0, 1200.0, Run(600.0, -0.5))
    line = Group("cord", (Line((0.0, 1560.0), (0.0, 360.0), 6.0),), motion=cord)
    svg = parsed(svg_of(small(moving, line, travel_mm=400.0)))
    (shifts,) = svg.all("g", shift_per_mm="-1")
    (stretches,) = svg.all("g", stretch_from="-1560")
    assert shifts.get("transform") is None
    assert float(stretches.get("data-stretch-shut")) == 0.5
    assert float(stretches.get("data-stretch-per-mm")) == pytest.approx(-0.5 / 1200.0, abs=1e-9)
    assert stretches.get("transform") == "translate(0 -1560) scale(1 0.5) translate(0 1560)"
    assert stretched(cord, 400.0).split(") ")[1] == "scale(1 0.333333333"
    assert svg.root.get("data-travel-mm") == "400"


def test_only_parts_with_an_address_can_be_tapped(house, parsed):
    drawing = elevation_of(house.windows[0])
    svg = parsed(svg_of(drawing, link_to=lambda part: f"/w1/{part}" if "rail" in part else None))
    parts = {link.get("href") for link in svg.all("a")}
    assert parts == {
        f"/w1/{sash}.{rail}_rail" for sash in ("upper", "lower") for rail in ("top", "bottom")
    }
    assert {link.get("aria-label") for link in svg.all("a")} == {
        "upper sash, top rail",
        "upper sash, meeting rail",
        "lower sash, meeting rail",
        "lower sash, bottom rail",
    }
    assert svg.root.get("role") == "group"


def test_a_link_never_holds_a_link(house, parsed):
    drawing = elevation_of(house.windows[0])
    for wanted in (lambda part: f"/{part}", lambda part: "/lower" if part == "lower" else None):
        svg = parsed(svg_of(drawing, link_to=wanted))
        links = svg.all("a")
        assert links
        assert not [inner for link in links for inner in link if inner.tag == link.tag]
        assert all(len([one for one in link.iter() if one.tag == link.tag]) == 1 for link in links)


def test_lines_that_follow_one_another_are_one_path(parsed):
    lines = tuple(Line((0.0, n), (10.0, n)) for n in (0.0, 5.0, 9.0))
    svg = parsed(svg_of(small(Group("hatch", (*lines, Rect(0.0, 0.0, 10.0, 10.0))))))
    (path,) = svg.all("path")
    assert path.get("d") == "M0 0L10 0M0 -5L10 -5M0 -9L10 -9"


def test_an_arc_runs_anticlockwise(parsed):
    svg = parsed(svg_of(small(Group("cord", (Arc((0.0, 0.0), 25.0, 0.0, 180.0, 6.0),)))))
    (path,) = svg.all("path")
    assert path.get("d") == "M25 0A25 25 0 0 0 -25 0"


def test_a_style_sheet_can_be_carried_along(parsed):
    svg = parsed(svg_of(small(Group("sash", (Rect(0.0, 0.0, 1.0, 1.0),))), style=".sash {}"))
    assert svg.all("style")[0].text == ".sash {}"


def test_what_is_no_shape_is_refused():
    class Star:
        def room(self):
            return Rect(0.0, 0.0, 1.0, 1.0).room()

    with pytest.raises(TypeError, match="Star is no shape to put into <g>"):
        svg_of(small(Group("sash", (Star(),))))
