"""An estate planned in columns is planned as each of its houses would be, float by float."""

from __future__ import annotations

import json
import random

import pytest

from evenhung.plan import columns, document_of, plan_house
from evenhung.survey import survey_from

SEED = 7


def estate(cast, count):
    """Give a survey of many unlike windows, some with gaps and faults."""
    draw = random.Random(SEED)
    windows = []
    for number in range(count):
        place = draw.choice(["upper", "lower"])
        changes = {
            "weighed": draw.choice([None, f"{draw.uniform(5, 40):.2f} lb"]),
            "left__weighed": draw.choice([None, f"{draw.uniform(3, 14):.2f} lb"]),
            "left__length": draw.choice([None, f"{draw.uniform(200, 700):.0f} mm"]),
            "right__diameter": draw.choice([None, "38 mm", "50 mm"]),
            "right__hung": draw.choice(["cord", "cord", "none", "chain"]),
            "top_nail": draw.choice([None, "110 mm", "50 mm"]),
            "slide_friction": draw.choice([None, "12 N"]),
            "head": draw.choice(["square", "square", "round"]),
        }
        window = cast.survey(place, window={"tag": f"W{number}"}, **changes)["window"][0]
        windows.append(window)
    return survey_from({**cast.survey(), "window": windows})


@pytest.mark.parametrize("few", [0, 10**9])
def test_columns_and_floats_agree(cast, monkeypatch, few):
    survey = estate(cast, 150)
    usual = document_of(plan_house(survey))
    monkeypatch.setattr(columns.for_each, "__kwdefaults__", {"few": few})
    other = document_of(plan_house(survey))
    assert _rounded(usual) == _rounded(other)


def _rounded(document):
    """Drop the last of the printed places: columns add in another order than floats."""
    return json.loads(json.dumps(document), parse_float=lambda text: round(float(text), 4) + 0.0)


def test_the_plan_of_an_estate_is_plain_json(cast):
    json.dumps(document_of(plan_house(estate(cast, 150))), allow_nan=False)


def test_an_empty_house_is_planned():
    document = document_of(plan_house(survey_from({"form": 1, "house": {"name": "Alder Row"}})))
    assert document["windows"] == []


def test_a_window_without_sashes_gives_none_for_both(cast):
    survey = cast.survey()
    del survey["window"][0]["lower"]
    (window,) = document_of(plan_house(survey_from(survey)))["windows"]
    assert window["upper"] is window["lower"] is None
