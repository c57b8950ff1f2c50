"""A small cast for the tests of the plan: one plain window, changed as each test needs."""

from __future__ import annotations

import copy
import math

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.survey import survey_from

SASH = {
    "height": "840 mm",
    "width": "857 mm",
    "travel": "780 mm",
    "cord_end": "260 mm",
    "top_nail": "110 mm",
    "slide_friction": {"least": "4 N", "likely": "10 N", "most": "25 N"},
    "weighed": "11 lb",  # light for its size: thin, of a light timber, in old thin glass
    "thickness": "28 mm",
    "timber": "western redcedar",
    "glass": {"thickness": "1.8 mm"},
    "left": {"weighed": "4 lb 14 oz", "length": "300 mm", "diameter": "38 mm"},
    "right": {"weighed": "4 lb 14 oz", "length": "300 mm", "diameter": "38 mm"},
}

WINDOW = {
    "tag": "W1",
    "box": {
        "clear_width": "860 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
        "compartment_width": "55 mm",
        "compartment_depth": "60 mm",
        "stile_thickness": "25 mm",
        "pocket_height": "420 mm",
        "parting_slip": "present",
    },
    "pulley": {
        "wheel": "44 mm",
        "axle": "8 mm",
        "friction": 0.15,
        "cord_bend_pct": 3,
        "case_below_axle": "37 mm",
    },
}

HOUSE = {
    "name": "Alder Row",
    "cord": {
        "diameter": "6 mm",
        "mass_per_length": "25 g/m",
        "knot": "40 mm",
        "tail": "150 mm",
        "stretch_pct": 1.0,
    },
}


def changed(whole, changes):
    """Give a copy of nested tables with some paths set; None takes a key out."""
    whole = copy.deepcopy(whole)
    for path, value in changes.items():
        *way, last = path.split(".")
        table = whole
        for step in way:
            table = table.setdefault(step, {})
        if value is None:
            table.pop(last, None)
        else:
            table[last] = value
    return whole


class Cast:
    """Makes surveys of one window and plans them."""

    @staticmethod
    def survey(place="lower", house=None, window=None, **sash):
        """Give a survey of one window with one sash; two underscores in a name are a dot."""
        changes = {name.replace("__", "."): value for name, value in sash.items()}
        return {
            "form": 1,
            "house": changed(HOUSE, house or {}),
            "window": [changed({**WINDOW, place: changed(SASH, changes)}, window or {})],
        }

    def plan(self, place="lower", house=None, window=None, **sash):
        """Give the plan of that one sash as plain data."""
        document = document_of(plan_house(survey_from(self.survey(place, house, window, **sash))))
        return document["windows"][0][place]

    def codes(self, *given, **changes):
        """Give the codes of the notes on that one sash."""
        return {note["code"] for note in self.plan(*given, **changes)["notes"]}


@pytest.fixture
def cast():
    """Give the cast."""
    return Cast()


@pytest.fixture
def near():
    """Compare two numbers to a nanometre or a microgram."""
    return lambda one, other: math.isclose(one, other, rel_tol=0.0, abs_tol=2e-6)
