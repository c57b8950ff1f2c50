"""A row of windows, each with one lower sash, allotted as each test needs."""

from __future__ import annotations

import copy

import pytest

from evenhung.plan import plan_house
from evenhung.plan.allotment import allot_house, allotment_document
from evenhung.survey import survey_from

NO_STOCK = {"most_pieces": 0}
"""Nothing to be had but the weights that are there."""

PIECES = {
    "make_weight": [
        {"mass": "1/4 lb", "length": "13 mm", "price": "1.20"},
        {"mass": "1/2 lb", "length": "26 mm", "price": "2.00"},
    ]
}


def iron(mass, length="300 mm", **more):
    """A weight found."""
    return {"weighed": mass, "length": length, "diameter": "38 mm", **more}


class Row:
    """Makes houses of like windows: a sash of 11 lb wants a pair of 9 1/2 to 10 lb."""

    def __init__(self, window, house):
        self.window, self.house_part = window, house

    def survey(self, pairs, *, loose=(), decisions=(), sash=None, window=None, **house):
        """Make a survey: for each window the weights at its left and right, None where missing."""
        windows = []
        for number, (left, right) in enumerate(pairs, 1):
            one = copy.deepcopy(self.window)
            one |= {"tag": f"W{number}", **copy.deepcopy((window or {}).get(number, {}))}
            one["lower"]["left"] = iron(left) if isinstance(left, str) else left
            one["lower"]["right"] = iron(right) if isinstance(right, str) else right
            for side in ("left", "right"):
                one["lower"][side] = one["lower"][side] or {"hung": "none"}
            one["lower"] |= (sash or {}).get(number, {})
            windows.append(one)
        weights = [
            {"tag": tag, **(iron(weight) if isinstance(weight, str) else weight)}
            for tag, weight in dict(loose).items()
        ]
        return {
            "form": 1,
            "house": {**copy.deepcopy(self.house_part), "stock": NO_STOCK, **house},
            "window": windows,
            "weight": weights,
            "decision": list(decisions),
        }

    def allotment(self, pairs, **rest):
        """Allot and give the whole record."""
        return allot_house(plan_house(survey_from(self.survey(pairs, **rest))))

    def document(self, pairs, **rest):
        """Allot and give plain data."""
        return allotment_document(self.allotment(pairs, **rest))

    def sides(self, pairs, **rest):
        """Allot and give what is said of each side, by window and side."""
        found = self.document(pairs, **rest)
        return {f"{one['window']} {one['side']}": one["says"] for one in found["sides"]}


@pytest.fixture
def row(cast):
    """Give a row of windows."""
    survey = cast.survey("lower")
    return Row(survey["window"][0], survey["house"])


@pytest.fixture
def pieces():
    """Give a stock of two sizes of make-weight."""
    return copy.deepcopy(PIECES)


@pytest.fixture
def weight():
    """Gives ``weight(mass, length, ...)``: a weight found."""
    return iron
