"""Safety glass and guarding: at each limit in print, just under it and just over it.

Sources
-------
Approved Document K (England, 2013): critical locations in walls up to 800 mm and beside doors
within 300 mm up to 1500 mm; small panes; guarding of opening windows to 800 mm.
International Residential Code 2015: R308.4.2, R308.4.3, R312.2.1. International Building Code:
sill of 36 in. Seen as repeated by others; each row of the reference says so.
"""

from __future__ import annotations

import math

import pytest

from evenhung.plan.glazing.safety import (
    answers_on_a_pane,
    answers_on_an_opening,
    is_small_pane,
)
from evenhung.plan.glazing.standing import Opening, Standing
from evenhung.plan.words import Words
from evenhung.reference import look_up

IN = 25.4
STEP = 0.5
"""Half a millimetre: less than anybody measures."""

WORDS = Words("metric")
FAR = {"door_mm": 5000.0, "walking_mm": 5000.0}
PANE = Standing(
    bottom_mm=1600.0, top_mm=2200.0, width_mm=600.0, height_mm=600.0, glass_mm=3.0, **FAR
)
LARGE = PANE._replace(
    bottom_mm=300.0, top_mm=1500.0, width_mm=1000.0, height_mm=1200.0, walking_mm=300.0
)
"""Hazardous by all four of R308.4.3."""


def on(pane, rule, rules=None):
    (answer,) = [one for one in answers_on_a_pane(pane, WORDS, rules=rules) if rule in one.rule]
    return answer.applies


def guard(opening, rule):
    (answer,) = [
        one for one in answers_on_an_opening(opening, WORDS, rules=None) if rule in one.rule
    ]
    return answer.applies


@pytest.mark.parametrize(("mm", "applies"), [(800 - STEP, True), (800, False), (800 + STEP, False)])
def test_low_in_a_wall_up_to_800_mm(mm, applies):
    """Approved Document K: from the floor up to 800 mm; glass that begins at 800 is above it."""
    assert on(PANE._replace(bottom_mm=mm), "low in a wall") is applies


@pytest.mark.parametrize(("mm", "applies"), [(300 - STEP, True), (300, True), (300 + STEP, False)])
def test_beside_a_door_within_300_mm(mm, applies):
    pane = PANE._replace(bottom_mm=900.0, door_mm=mm)
    assert on(pane, "Document K, beside a door") is applies


@pytest.mark.parametrize(
    ("mm", "applies"), [(1500 - STEP, True), (1500, False), (1500 + STEP, False)]
)
def test_beside_a_door_up_to_1500_mm(mm, applies):
    pane = PANE._replace(bottom_mm=mm, door_mm=100.0)
    assert on(pane, "Document K, beside a door") is applies


@pytest.mark.parametrize(("mm", "grade"), [(900, "class 3"), (900 + STEP, "class 2")])
def test_a_panel_beside_a_door_wider_than_900_mm_takes_class_2(mm, grade):
    pane = PANE._replace(bottom_mm=900.0, door_mm=100.0, width_mm=mm)
    (answer,) = [
        one for one in answers_on_a_pane(pane, WORDS, rules="england") if "door" in one.rule
    ]
    assert grade in answer.says


@pytest.mark.parametrize(
    ("sizes", "is_small"),
    [
        ({"width_mm": 250.0, "height_mm": 1900.0}, True),
        ({"width_mm": 250.0 + STEP, "height_mm": 300.0}, False),
        ({"width_mm": 250.0, "height_mm": 2000.0}, True),
        ({"width_mm": 250.0, "height_mm": 2000.0 + STEP}, False),
        ({"width_mm": 250.0, "height_mm": 300.0, "glass_mm": 6.0 - STEP}, False),
        ({"width_mm": 200.0, "height_mm": 300.0, "glass_mm": 3.0}, False),
    ],
)
def test_small_panes_of_six_mm_are_let_off_and_sash_glass_is_not(sizes, is_small):
    """At most 250 mm wide and 0.5 m2, annealed of 6 mm or more: sash glass of 3 or 4 mm is none."""
    pane = PANE._replace(**{"glass_mm": 6.0, "bottom_mm": 400.0, **sizes})
    assert is_small_pane(pane) is is_small
    assert on(pane, "low in a wall") is not is_small


EDGES = [
    ("bottom_mm", 18 * IN, [True, False, False]),
    ("top_mm", 36 * IN, [False, False, True]),
    ("walking_mm", 36 * IN, [True, True, False]),
]


@pytest.mark.parametrize(("field", "limit", "answers"), EDGES)
def test_a_large_low_pane_by_each_of_its_lengths(field, limit, answers):
    """IRC R308.4.3: bottom less than 18 in, top more than 36 in, walking surface within 36 in."""
    found = [
        on(LARGE._replace(**{field: limit + shift}), "R308.4.3") for shift in (-STEP, 0.0, STEP)
    ]
    assert found == answers


@pytest.mark.parametrize(("square_feet", "applies"), [(8.99, False), (9.0, False), (9.01, True)])
def test_a_pane_of_more_than_nine_square_feet(square_feet, applies):
    """IRC R308.4.3, item 1: larger than 9 ft2 (0.836 m2)."""
    pane = LARGE._replace(width_mm=square_feet * 12 * IN, height_mm=12 * IN)
    assert on(pane, "R308.4.3") is applies


def test_nine_square_feet_are_the_square_metres_printed_beside(agrees):
    agrees(look_up("safety", "IRC", "window_area_over").si, "0.836")


@pytest.mark.parametrize("field", ["bottom_mm", "top_mm", "walking_mm"])
def test_what_is_not_known_leaves_a_large_pane_open(field):
    assert on(LARGE._replace(**{field: math.nan}), "R308.4.3") is None


def test_one_condition_that_fails_decides_whatever_is_not_known():
    pane = LARGE._replace(walking_mm=math.nan, width_mm=300.0, height_mm=300.0)
    assert on(pane, "R308.4.3") is False


@pytest.mark.parametrize(
    ("field", "limit", "answers"),
    [("door_mm", 24 * IN, [True, True, False]), ("bottom_mm", 60 * IN, [True, False, False])],
)
def test_beside_a_door_in_the_states(field, limit, answers):
    """IRC R308.4.2: within 24 in of the door, bottom edge less than 60 in up."""
    pane = PANE._replace(bottom_mm=900.0, door_mm=300.0)
    found = [
        on(pane._replace(**{field: limit + shift}), "R308.4.2") for shift in (-STEP, 0.0, STEP)
    ]
    assert found == answers


@pytest.mark.parametrize(
    ("rule", "field", "limit", "answers"),
    [
        ("Document K", "sill_mm", 800.0, [True, False, False]),
        ("IRC", "sill_mm", 24 * IN, [True, False, False]),
        ("IRC", "ground_mm", 72 * IN, [False, False, True]),
        ("IBC", "sill_mm", 36 * IN, [True, False, False]),
        ("IBC", "ground_mm", 72 * IN, [False, False, True]),
    ],
)
def test_guarding_at_its_limits(rule, field, limit, answers):
    """Approved Document K, diagram 3.1: 800 mm. IRC R312.2.1: 72 in up, sill 24 in. IBC: 36 in."""
    opening = Opening(sill_mm=300.0, ground_mm=4000.0)
    found = [
        guard(opening._replace(**{field: limit + shift}), rule) for shift in (-STEP, 0.0, STEP)
    ]
    assert found == answers


def test_an_opening_of_unknown_height_is_not_judged():
    assert guard(Opening(math.nan, math.nan), "Document K") is None
    assert guard(Opening(300.0, math.nan), "IRC") is None
    assert guard(Opening(2000.0, math.nan), "IRC") is False


@pytest.mark.parametrize(
    ("rules", "names"),
    [
        ("england", {"Approved"}),
        ("united states", {"IRC", "IBC"}),
        (None, {"Approved", "IRC", "IBC"}),
    ],
)
def test_whose_rules_are_told(rules, names):
    told = [*answers_on_a_pane(LARGE, WORDS, rules=rules)]
    told += answers_on_an_opening(Opening(300.0, 4000.0), WORDS, rules=rules)
    assert {one.rule.partition(" ")[0] for one in told} == names
    assert all(one.source for one in told)


def test_windows_are_not_in_the_federal_list():
    """16 CFR 1201.1 lists doors, bath and shower doors and enclosures, and no windows."""
    row = look_up("safety", "16 CFR 1201", "windows")
    assert "windows are not in its list" in row.value
    assert row.known == "confirmed"
