"""The elevation: every part where the survey and the plan have it."""

import importlib.util
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenhung.plan import plan_house
from evenhung.plan.positions import positions_of
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.elevation.sash import Arch, sight_arch
from evenhung.sheets.glyph import glyph_of, in_words, key_of
from evenhung.sheets.scene import Rect
from evenhung.sheets.section import section_of
from evenhung.sheets.sizes import Sizes, sash_sizes
from evenhung.sheets.svg import svg_of
from evenhung.survey import survey_from

DRAWN = Path(__file__).parents[1] / "agreement" / "drawn_surveys.py"
ZERO_TRAVEL = 0.0


def drawn_surveys():
    """The random surveys, which lie beside the tests of agreement: tests are no package."""
    spec = importlib.util.spec_from_file_location("drawn_surveys", DRAWN)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


Draw = drawn_surveys().Draw


def part(drawing, path):
    """Give the room of a part, the sashes shut."""
    (found,) = (group for group in drawing.every_group() if group.part == path)
    return found.room(ZERO_TRAVEL)


def test_sashes_stand_where_they_are_when_shut(house):
    drawing = elevation_of(house.windows[0])
    assert part(drawing, "upper.stile") == pytest.approx((-428.5, 810.0, 428.5, 1650.0))
    assert part(drawing, "lower.stile") == pytest.approx((-428.5, 0.0, 428.5, 850.0))


def test_panes_and_bars_divide_a_sash_evenly(house):
    drawing = elevation_of(house.windows[4])
    (bars,) = (group for group in drawing.every_group() if group.part == "lower.bar")
    uprights = sorted(bar.room().left for bar in bars.shapes() if not isinstance(bar, Rect))
    # 897 between the edges, two stiles of 48 and two bars of 22 leave three panes of 252 1/3
    assert uprights == pytest.approx([-448.5 + 48 + 757 / 3, -448.5 + 48 + 2 * 757 / 3 + 22])
    (level,) = (bar for bar in bars.shapes() if isinstance(bar, Rect))
    # 876 high, rails of 36 and 75: the bar stands in the middle of what is left
    assert level.y + level.height / 2 == pytest.approx(75 + (876 - 36 - 75) / 2)


def test_weights_stand_in_their_boxes_where_the_plan_has_them(house):
    plan = house.windows[1]
    drawing = elevation_of(plan)
    for place in ("upper", "lower"):
        hung = positions_of(getattr(plan, place)).hung
        for side in ("left", "right"):
            at, room = getattr(hung, side), part(drawing, f"{place}.{side}")
            assert room.bottom == pytest.approx(at.weight_foot.shut_mm)
            assert room.top == pytest.approx(at.weight_top.shut_mm)
            assert 430.0 + 25.0 < abs(room.left) < 430.0 + 25.0 + 60.0


def test_what_nobody_measured_is_marked_and_listed(house):
    bare, measured = elevation_of(house.windows[0]), elevation_of(house.windows[4])
    assert {"stiles", "meeting rails", "staff beads", "head"} <= set(bare.assumed)
    assert not {"stiles", "meeting rails", "glazing bars"} & set(measured.assumed)
    marked = {g.part: g.is_assumed for g in bare.every_group() if g.part.endswith(".stile")}
    assert marked == {"upper.stile": True, "lower.stile": True}
    marked = {g.part: g.is_assumed for g in measured.every_group() if g.part.endswith(".stile")}
    assert marked == {"upper.stile": False, "lower.stile": False}


def test_a_round_head_is_a_half_circle_and_its_rail_follows_it():
    arch = Arch(half_width=300.0, rise=300.0, springing=500.0)
    assert arch.radius == 300.0
    assert arch.height(0.0) == 800.0
    assert arch.height(300.0) == 500.0
    assert arch.points(-300.0, 300.0)[12] == pytest.approx((0.0, 800.0))
    assert Arch(300.0, 0.0, 500.0).points(-300.0, 300.0) == [(-300.0, 500.0), (300.0, 500.0)]


def test_the_sight_line_of_a_curved_head_is_as_far_below_it_as_the_rail_is_wide(house):
    sizes = sash_sizes("upper", house.windows[5].upper.sash, Sizes())
    arch = sight_arch(sizes)
    assert arch.height(0.0) == pytest.approx(540.0 - sizes.top_rail.mm)
    assert arch.half_width == pytest.approx(557.0 / 2 - sizes.stile.mm)


def test_horns_go_on_past_the_meeting_rail(house):
    room = part(elevation_of(house.windows[4]), "upper.horn")
    assert (room.top, room.bottom) == pytest.approx((1700 - 860, 1700 - 860 - 60))


def test_the_words_say_the_verdict_of_each_sash(house):
    drawing = elevation_of(house.windows[3])
    assert "upper sash: fixed" in drawing.description
    assert "lower sash: cannot run" in drawing.description
    assert drawing.title == "W4, Landing: the window seen from inside, to scale"


def test_a_glyph_marks_each_verdict_by_its_own_hatch(house, parsed):
    marks = {}
    for verdict in ("hangs true", "adjust", "rehang", "cannot run", "unknown", "fixed"):
        svg = parsed(svg_of(key_of(verdict)))
        marks[verdict] = [path.get("d") for path in svg.all("path")] + svg.words()
    assert marks["hangs true"] == []
    assert marks["unknown"] == ["?"]
    assert len({tuple(mark) for mark in marks.values()}) == len(marks)
    assert in_words(house.windows[2]) == "upper hangs true, lower rehang"
    assert glyph_of(house.windows[2]).title == "W3: upper hangs true, lower rehang"


def test_levels_of_bars_end_at_the_curve():
    house = {
        "form": 1,
        "house": {"name": "Round"},
        "window": [
            {
                "tag": "W1",
                "box": {
                    "clear_width": "860 mm",
                    "clear_height": "1650 mm",
                    "weight_space": "1545 mm",
                    "pulley_drop": "90 mm",
                },
                "pulley": {"wheel": "44 mm"},
                "upper": {
                    "height": "840 mm",
                    "width": "857 mm",
                    "cord_end": "500 mm",
                    "head": "round",
                    "stile": "48 mm",
                    "top_rail": "48 mm",
                    "panes": {"across": 2, "up": 4},
                    "left": {"hung": "none"},
                    "right": {"hung": "none"},
                },
            }
        ],
    }
    (window,) = plan_house(survey_from(house)).windows
    drawing = elevation_of(window)
    (bars,) = (group for group in drawing.every_group() if group.part == "upper.bar")
    levels = sorted(bar.room() for bar in bars.shapes() if isinstance(bar, Rect))
    centre, radius = 810.0 + 840.0 - 857.0 / 2, 857.0 / 2 - 48.0
    above = [room for room in levels if room.top > centre]
    assert len(above) == 2
    for room in above:  # the upper corners of a level lie on the sight line
        assert room.right**2 + (room.top - centre) ** 2 == pytest.approx(radius**2)
    assert not [group for group in drawing.every_group() if group.part.startswith("upper.right")]


@pytest.mark.slow
@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**9))
def test_whatever_can_be_planned_can_be_drawn(seed):
    for window in plan_house(survey_from(Draw(seed).survey(2))).windows:
        half = window.window.box.clear_width.mm / 2.0
        head = window.window.box.clear_height.mm
        drawing = elevation_of(window)
        assert "nan" not in svg_of(drawing)
        assert "nan" not in svg_of(glyph_of(window))
        for place, sash in window.window.sashes():
            rail = part(drawing, f"{place}.top_rail")
            room = part(drawing, f"{place}.stile").joined(rail)  # a curved head rises over both
            assert room.right <= half
            assert room.top - room.bottom == pytest.approx(sash.height.mm)
            assert room.top <= head + 1e-6
        for plan in (window.upper, window.lower):
            if plan is None:
                continue
            drawn = [section_of(plan, side="left"), section_of(plan, as_found=True)]
            assert all(
                ("nan" not in svg_of(one)) if one else not plan.sash.is_running for one in drawn
            )


def test_a_window_without_sashes_is_a_frame():
    survey = {
        "form": 1,
        "house": {"name": "Bare"},
        "window": [
            {
                "tag": "W1",
                "box": {
                    "clear_width": "860 mm",
                    "clear_height": "1650 mm",
                    "weight_space": "1545 mm",
                    "pulley_drop": "90 mm",
                },
                "pulley": {"wheel": "44 mm"},
            }
        ],
    }
    (window,) = plan_house(survey_from(survey)).windows
    drawing = elevation_of(window)
    assert drawing.description == "No sash is recorded."
    assert "1650 mm (5 ft 4 15/16 in)" in svg_of(drawing)
    assert glyph_of(window).title == "W1: no sash"
