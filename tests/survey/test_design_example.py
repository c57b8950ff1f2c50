"""The survey that the design shows is one that the program reads and plans."""

from __future__ import annotations

from pathlib import Path

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.survey import read_survey

EXAMPLE = Path(__file__).with_name("design-example.toml")


@pytest.fixture(scope="module")
def plan():
    """The plan of the one window of the example."""
    (window,) = document_of(plan_house(read_survey(EXAMPLE.read_bytes())))["windows"]
    return window


def test_both_sashes_hang_true(plan):
    assert plan["upper"]["found"]["verdict"] == "hangs true"
    assert plan["lower"]["found"]["verdict"] == "hangs true"


def test_the_upper_cord_is_what_a_hand_reckoning_gives(plan):
    # Y = 1650 - 90 = 1560, B = 1560 - 1545 = 15, r = (44 + 6)/2 = 25, pi r = 78.5398,
    # E_up = 1650 - 260 = 1390: working = 2 Y + pi r - E_up - B - 55 - 542 = 1196.5398;
    # n = 260 - 110 = 150: cut = (1196.5398 - 150)/1.01 + 150 + 150 = 1336.178.
    cord = plan["upper"]["cord"]
    assert cord["working_mm"] == pytest.approx(1196.5398, abs=1e-3)
    assert cord["cut_mm"] == pytest.approx(1336.178, abs=1e-3)


def test_the_lower_cord_is_what_a_hand_reckoning_gives(plan):
    # E_down = 850 - 260 = 590, q = 37, k = 40:
    # working = Y + pi r - E_down + q + 40 + k = 1560 + 78.5398 - 590 + 37 + 40 + 40 = 1165.5398.
    assert plan["lower"]["cord"]["working_mm"] == pytest.approx(1165.5398, abs=1e-3)
