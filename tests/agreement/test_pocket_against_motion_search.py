"""Pocket: the formula against a search of every motion, grid by grid.

A place of the weight is (x, y, angle). The stile is two blocks, one below the opening and one above
it, so that for each angle and each x the free heights y are one interval: its lower end is set by
what the weight may strike below, its upper end by the block above. The interval is there when the
opening is at least the gap that this (angle, x) takes; its ends move continuously, so neighbours on
a fine grid connect. The least opening is then the lowest pass between outside and upright in the
box. The last test does without that reduction: a plain flood through (x, y, angle) with polygons
tested for collision by separating axes.
"""

import math

import numpy as np
import pytest
from scipy import ndimage

from evenhung.physics import pocket

QUARTER = math.pi / 2

TRADE = {
    "ordinary": (542.0, 38.0, 25.0, 60.0),
    "tight box": (542.0, 38.0, 25.0, 40.0),
    "as thick as the box is deep": (300.0, 45.0, 25.0, 45.0),
    "stout": (300.0, 45.0, 20.0, 60.0),
    "long in a deep box": (700.0, 38.0, 25.0, 100.0),
    "no longer than the box is deep": (58.0, 38.0, 25.0, 60.0),
    "a little longer": (62.0, 40.0, 25.0, 60.0),
    "must turn through the opening": (80.0, 58.0, 20.0, 60.0),
    "a paper wall": (200.0, 38.0, 0.01, 45.0),
    "a disc, thicker than long": (31.0, 52.0, 20.0, 60.0),
}

NOTICING = (
    "tight box",
    "no longer than the box is deep",
    "must turn through the opening",
    "a disc, thicker than long",
)


def corners(angle, length, across):
    """Corners from the lower tail corner, in order round the weight; shape (4, ...)."""
    c, s = np.cos(angle), np.sin(angle)
    x = np.array([0 * c, length * c, length * c - across * s, -across * s])
    y = np.array([0 * s, length * s, length * s + across * c, across * c])
    return x, y


def gap(angle, slack, weight, *, sill_below=math.inf):
    """Opening that each place takes; `slack` is how far the weight is from the back lining."""
    length, across, wall, depth = weight
    x, y = corners(angle, length, across)
    x = x + (depth - slack - x.max(axis=0))
    y = y + 0 * x
    highest = np.full(x.shape[1:], -math.inf)
    lowest = -highest

    def reaches(where, height):
        nonlocal highest, lowest
        highest = np.where(where, np.maximum(highest, height), highest)
        lowest = np.where(where, np.minimum(lowest, height), lowest)

    for i in range(4):
        j = (i + 1) % 4
        reaches((x[i] > -wall) & (x[i] < 0), y[i])
        for face in (-wall, 0.0):
            with np.errstate(divide="ignore", invalid="ignore"):
                part = (face - x[i]) / (x[j] - x[i])
            reaches((part >= 0) & (part <= 1), y[i] + part * (y[j] - y[i]))
    in_wall = np.isfinite(highest)
    takes = np.where(in_wall, highest - lowest, 0.0)
    if math.isfinite(sill_below):
        outside = np.where(x < -wall, y, math.inf).min(axis=0)
        takes = np.where(in_wall, np.maximum(takes, highest - outside - sill_below), takes)
    return takes


def least_opening(weight, *, angles=1441, step=0.5, sill_below=math.inf):
    """Lowest pass from anywhere outside, tipped up or down, to upright against the back lining."""
    length, across, wall, depth = weight
    angle = np.linspace(-QUARTER, QUARTER, angles)[:, None]
    slack = np.arange(0.0, length + across + depth + wall + 2 * step, step)[None, :]
    takes = gap(angle, slack, weight, sill_below=sill_below)
    upright, outside = (angles - 1, 0), (angles // 2, slack.size - 1)
    too_small, enough = 0.0, length + 2 * across
    while enough - too_small > 0.01:
        opening = (too_small + enough) / 2
        region, _ = ndimage.label(takes <= opening)
        joined = region[upright] != 0 and region[upright] == region[outside]
        too_small, enough = (too_small, opening) if joined else (opening, enough)
    return enough


def disagreement(module, weights):
    """Worst excess over what the grid allows, mm; not above nought where formula and search agree.

    The search may find up to its bisection more than the truth. It may find less by what a motion
    slips past between two angles of the grid: over one of them the steepest need of a weight of
    the trade changes by a three hundredth of its length.
    """
    excess = []
    for weight in weights:
        length, across, wall, depth = weight
        ours = module.needed_opening_mm(
            length_mm=length, across_mm=across, wall_mm=wall, depth_mm=depth
        )
        search = least_opening(weight)
        excess.append(max(search - ours - 0.02, ours - search - 0.0035 * length))
    return max(excess)


def overlaps(x, y, x_from, x_to, y_from, y_to, angle):
    """Whether turned rectangles meet a straight one, by separating axes; x, y shape (4, ...)."""
    apart = x.max(axis=0) <= x_from
    apart |= x.min(axis=0) >= x_to
    apart |= y.max(axis=0) <= y_from
    apart |= y.min(axis=0) >= y_to
    block_x = np.array([x_from, x_to, x_to, x_from])
    block_y = np.array([y_from, y_from, y_to, y_to])
    for axis in ((math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))):
        ours = x * axis[0] + y * axis[1]
        block = block_x * axis[0] + block_y * axis[1]
        apart |= (ours.max(axis=0) <= block.min()) | (ours.min(axis=0) >= block.max())
    return ~apart


def passes_by_flood(weight, opening, *, step, angles):
    """Flood through (angle, x, y) from outside; whether upright inside is reached."""
    length, across, wall, depth = weight
    far = 4 * length
    xs = np.arange(-wall - length - across - step, depth + across, step)
    ys = np.arange(-length - across, opening + across, step)
    free = np.zeros((angles, xs.size, ys.size), dtype=bool)
    for i, angle in enumerate(np.linspace(0.0, QUARTER, angles)):
        x, y = (side.reshape(4, 1, 1) for side in corners(angle, length, across))
        x, y = x + xs[None, :, None], y + ys[None, None, :]
        x, y = np.broadcast_arrays(x, y)
        struck = overlaps(x, y, -wall, 0.0, -far, 0.0, angle)
        struck |= overlaps(x, y, -wall, 0.0, opening, far, angle)
        free[i] = ~(struck | (x.max(axis=0) > depth + 1e-9))
    region, _ = ndimage.label(free)
    upright = free[-1] & (xs >= across)[:, None]  # upright, its tail corner is its right one
    return bool(set(region[-1][upright]) & {region[0, 0, 0]})


@pytest.mark.slow
def test_needed_opening_is_the_least_that_any_motion_does_with():
    assert disagreement(pocket, TRADE.values()) <= 0.0


@pytest.mark.slow
def test_needed_opening_for_weights_of_any_size():
    draws = np.random.default_rng(20)
    weights = []
    for _ in range(12):
        depth = draws.uniform(40, 110)
        weights.append(
            (draws.uniform(40, 500), depth * draws.uniform(0.3, 1), draws.uniform(1, 35), depth)
        )
    assert disagreement(pocket, weights) <= 0.0


@pytest.mark.slow
@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("depth_mm * s / c + length_mm * s\n    tail", "depth_mm * s + length_mm * s\n    tail"),
        ("level - depth_mm + across_mm * s", "level - depth_mm + across_mm * c"),
        ("choose(level < depth_mm, tail_in_box, tail_in_wall)", "tail_in_wall"),
        ("across_mm), length_mm)\n    return choose", "across_mm), 1e9)\n    return choose"),
    ],
    ids=["tail in the wall", "tail in the box", "never in the box", "never upright"],
)
def test_the_search_notices_a_planted_error(planted, true_text, false_text):
    wrong = planted(pocket, true_text, false_text)
    assert disagreement(wrong, [TRADE[name] for name in NOTICING]) > 0.0


def test_a_weight_thicker_than_the_box_is_deep_never_goes_in():
    weight = (300.0, 61.0, 25.0, 60.0)
    assert least_opening(weight, angles=181, step=2.0) >= 300.0, "it stands in the opening itself"
    assert math.isinf(
        pocket.needed_opening_mm(length_mm=300.0, across_mm=61.0, wall_mm=25.0, depth_mm=60.0)
    )


@pytest.mark.slow
@pytest.mark.parametrize("name", ["ordinary", "long in a deep box", "a disc, thicker than long"])
@pytest.mark.parametrize("sill_below", [0.0, 20.0, 60.0, 150.0])
def test_needed_head_is_what_the_sill_of_the_window_adds(name, sill_below):
    weight = length, across, wall, depth = TRADE[name]
    size = {"length_mm": length, "across_mm": across, "wall_mm": wall, "depth_mm": depth}
    ours = max(pocket.needed_opening_mm(**size), pocket.needed_head_mm(**size) - sill_below)
    search = least_opening(weight, sill_below=sill_below)
    assert -0.0035 * length < search - ours < 0.02


@pytest.mark.slow
@pytest.mark.parametrize(
    "weight", [(150.0, 38.0, 25.0, 60.0), (90.0, 40.0, 20.0, 50.0), (45.0, 34.0, 20.0, 50.0)]
)
def test_a_plain_flood_passes_above_the_needed_opening_and_is_stopped_below_it(weight):
    """With no reduction at all, and so only for small weights and to 3 mm."""
    length, across, wall, depth = weight
    least = pocket.needed_opening_mm(
        length_mm=length, across_mm=across, wall_mm=wall, depth_mm=depth
    )
    assert passes_by_flood(weight, least + 3.0, step=1.0, angles=181)
    assert not passes_by_flood(weight, least - 3.0, step=1.0, angles=181)
