"""Box: the formulas against shapes in shapely, turned through every angle."""

import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import LineString, Point
from shapely.geometry import box as rectangle

from evenhung.physics import box

ANGLES = np.arange(0.0, 90.0, 0.25)
ALLOWED_MM = 0.02  # a circle of 64 chords a quarter falls short of round by this at most


def compartments():
    draws = np.random.default_rng(5)
    for _ in range(20):
        yield draws.uniform(20, 60), draws.uniform(40, 70), draws.uniform(40, 70)


def room_turning(shape, width, depth):
    """Least that the compartment leaves, either way, over a whole turn."""
    left = []
    for angle in ANGLES:
        low_x, low_y, high_x, high_y = affinity.rotate(shape, angle).bounds
        left.append(min(width - (high_x - low_x), depth - (high_y - low_y)))
    return min(left)


def disagreement(module):
    """Greatest distance of a formula from what the shapes leave, mm."""
    apart = []
    for across, width, depth in compartments():
        round_weight = Point(0, 0).buffer(across / 2, quad_segs=64)
        square_weight = rectangle(0, 0, across, across)
        for shape, is_square in ((round_weight, False), (square_weight, True)):
            ours = module.turning_room_mm(
                across_mm=across,
                is_square=is_square,
                compartment_width_mm=width,
                compartment_depth_mm=depth,
            )
            apart.append(ours - room_turning(shape, width, depth))
        whole = width + across + 10.0
        first = Point(across / 2, 0).buffer(across / 2, quad_segs=64)
        second = Point(whole - depth / 4, 0).buffer(depth / 4, quad_segs=64)
        ours = module.passing_room_mm(
            box_width_mm=whole, first_swept_mm=across, second_swept_mm=depth / 2
        )
        between = first.distance(second)
        if between > 0.0:
            apart.append(ours - between)
        runs = [(across, width + 30.0), (depth, depth + 25.0)]
        shared = LineString([(0, y) for y in runs[0]]).intersection(
            LineString([(0, y) for y in runs[1]])
        )
        ours = module.overlap_mm(
            first_low_mm=runs[0][0],
            first_high_mm=runs[0][1],
            second_low_mm=runs[1][0],
            second_high_mm=runs[1][1],
        )
        apart.append(max(0.0, ours) - shared.length)
    return max(abs(np.array(apart)))


def test_room_in_the_box():
    assert disagreement(box) < ALLOWED_MM


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("math.sqrt(2.0)", "math.pi / 2.0"),
        (
            "return box_width_mm - first_swept_mm - second_swept_mm",
            "return box_width_mm - first_swept_mm",
        ),
        ("return top - bottom", "return top + bottom"),
    ],
    ids=["diagonal", "one weight", "sum"],
)
def test_the_shapes_notice_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(box, true_text, false_text)) > ALLOWED_MM
