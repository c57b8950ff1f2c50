"""The scene: room, mirror, motion, strokes; nothing of windows."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenhung.plan.positions import Run
from evenhung.sheets.scene import (
    Arc,
    Circle,
    Dimension,
    Drawing,
    Group,
    Line,
    Polygon,
    Rect,
    Shift,
    Stretch,
    Words,
)
from evenhung.sheets.scene.strokes import broken_off, hatching, scale_bar, strokes_of
from evenhung.sheets.section.names import spread

SHAPES = [
    Line((1.0, 2.0), (30.0, 40.0), 6.0),
    Polygon(((0.0, 0.0), (20.0, 5.0), (10.0, 30.0))),
    Rect(5.0, 6.0, 70.0, 80.0, 3.0),
    Circle((9.0, 8.0), 7.0),
    Arc((9.0, 8.0), 7.0, 0.0, 90.0, 2.0),
    Words((3.0, 4.0), "box bottom", 12.0),
    Words((3.0, 4.0), "box bottom", 12.0, "end"),
    Words((3.0, 4.0), "box bottom", 12.0, "middle", is_upright=True),
    Dimension(0.0, 500.0, 90.0, (40.0, 50.0), "500 mm", 12.0),
    Dimension(0.0, 500.0, -90.0, (-40.0, -50.0), "500 mm", 12.0, is_upright=False),
]
NAMES = [f"{type(shape).__name__}-{number}" for number, shape in enumerate(SHAPES)]
positive = st.floats(1.0, 2000.0)


@pytest.mark.parametrize("shape", SHAPES, ids=NAMES)
def test_a_mirror_turns_the_room_over_and_twice_gives_the_shape_back(shape):
    room, mirrored = shape.room(), shape.mirrored().room()
    assert mirrored[1::2] == pytest.approx(room[1::2])
    assert mirrored.right - mirrored.left == pytest.approx(room.right - room.left)
    if not (isinstance(shape, Words) and shape.is_upright):  # its middle stays, its foot does not
        assert (mirrored.left, mirrored.right) == pytest.approx((-room.right, -room.left))
    twice = shape.mirrored().mirrored()
    assert twice.room() == pytest.approx(shape.room())


@pytest.mark.parametrize("shape", SHAPES, ids=NAMES)
def test_raised_is_the_same_so_far_up(shape):
    assert shape.raised(25.0).room() == pytest.approx(shape.room().moved(25.0))


def test_a_drawing_has_room_for_all_that_moves():
    sash = Group("sash", (Rect(0.0, 0.0, 10.0, 100.0),), motion=Shift(1.0))
    cord = Group(
        "cord", (Line((5.0, 300.0), (5.0, 0.0), 6.0),), motion=Stretch(300, 300, Run(300, -1))
    )
    drawing = Drawing("section", "a sash", "", (sash, cord), margin_mm=5.0, travel_mm=400.0)
    assert drawing.room() == pytest.approx((-5.0, -8.0, 15.0, 505.0))
    assert {group.layer for group in drawing.every_group()} == {"sash", "cord"}
    assert len(list(sash.shapes())) == 1


def test_a_drawing_of_nothing_is_refused():
    empty = Drawing("section", "W1 lower sash", "", (Group("sash", ()),), margin_mm=5.0)
    with pytest.raises(ValueError, match="W1 lower sash: a drawing of nothing has no size"):
        empty.room()


@given(positive, positive, st.floats(5.0, 300.0), st.booleans())
def test_hatching_stays_in_its_rectangle_at_45_degrees(width, height, spacing, is_falling):
    rect = Rect(-7.0, 11.0, width, height)
    room = rect.room().widened(1e-6)
    lines = list(hatching(rect, spacing, is_falling=is_falling))
    assert len(lines) == max(0, math.ceil((width + height) / spacing) - 1)
    for (x1, y1), (x2, y2), _ in lines:
        assert room.left <= min(x1, x2) <= max(x1, x2) <= room.right
        assert room.bottom <= min(y1, y2) <= max(y1, y2) <= room.top
        assert y2 - y1 == pytest.approx((x1 - x2) if is_falling else (x2 - x1), abs=1e-6)


def test_a_scale_bar_is_one_foot_over_300_millimetres():
    filled, rest = scale_bar(100.0, 50.0, 40.0)
    foot, metric = (shape for shape in rest if isinstance(shape, Rect))
    assert (foot.width, metric.width) == (304.8, 300.0)
    assert foot.y == pytest.approx(metric.y + metric.height)
    assert [rect.width for rect in filled] == pytest.approx([76.2, 76.2, 100.0, 100.0])


def test_a_dimension_measures_between_its_ends():
    lines = [s for s in strokes_of(SHAPES[-2]) if isinstance(s, Line)]
    assert lines[0] == Line((90.0, 0.0), (90.0, 500.0))
    (words,) = (s for s in strokes_of(SHAPES[-2]) if isinstance(s, Words))
    assert words.text == "500 mm"
    assert words.at[1] == 250.0


def test_broken_edges_that_meet_wave_alike():
    upper, lower = (
        broken_off(-150.0, low, 0.0, high, origin=840.0) for low, high in ((75.0, 800.0), (0, 75))
    )
    assert upper.points[-1] == pytest.approx(lower.points[2])


@given(st.lists(st.floats(0.0, 1000.0), max_size=12), st.floats(1.0, 100.0))
def test_names_are_spread_apart_in_their_order_about_the_same_middle(heights, apart):
    heights = sorted(heights, reverse=True)
    placed = spread(heights, apart)
    assert len(placed) == len(heights)
    assert all(a - b >= apart - 1e-6 for a, b in pairwise(placed))
    assert sum(placed) == pytest.approx(sum(heights), abs=1e-6)


def test_names_with_room_stay_where_they_are():
    assert spread([300.0, 200.0, 100.0], 50.0) == [300.0, 200.0, 100.0]
