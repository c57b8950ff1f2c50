"""What is allotted, surveyed as if it had been found so, is planned as hanging true.

The plan's verdict knows nothing of the allotment. And small houses without stock are allotted by
trying every placing of every weight, each judged by the plan.
"""

from __future__ import annotations

import copy
import importlib.util
from functools import cache
from itertools import permutations
from pathlib import Path

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.plan.allotment import allot_house
from evenhung.survey import survey_from

FEW = [0, 1, 2, 3]
"""Seeds that a quick check tries too."""


@cache
def drawing():
    """Give the module of random surveys."""
    path = Path(__file__).with_name("drawn_surveys.py")
    spec = importlib.util.spec_from_file_location("drawn_surveys", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def as_allotted(survey, found):
    """Give the survey of the house once it hangs as allotted."""
    survey = copy.deepcopy(survey)
    windows = {window["tag"]: window for window in survey["window"]}
    for hanging in found.hangings:
        sash = windows[hanging.place.sash.window.tag][hanging.place.sash.place]
        weight = {"weighed": f"{hanging.kg * 1000:.4f} g"}
        if hanging.length_mm == hanging.length_mm:
            weight["length"] = f"{hanging.length_mm:.4f} mm"
        if hanging.across_mm == hanging.across_mm:
            weight["diameter"] = f"{hanging.across_mm:.3f} mm"
        is_square = hanging.weight is not None and hanging.weight.is_square
        sash[hanging.place.side] = weight | ({"section": "square"} if is_square else {})
    return survey


def drawn(seed, windows=3):
    """Draw a house that the reader accepts."""
    for attempt in range(50):
        survey = drawing().Draw(1000 * seed + attempt).survey(windows)
        try:
            survey_from(survey)
        except ValueError:
            continue
        return survey
    raise AssertionError("no house drawn")


@pytest.mark.parametrize(
    "seed", FEW + [pytest.param(n, marks=pytest.mark.slow) for n in range(4, 25)]
)
def test_an_allotted_house_hangs_true(seed):
    survey = drawn(seed)
    found = allot_house(plan_house(survey_from(survey)))
    assert found.status == "optimal"
    planned = document_of(plan_house(survey_from(as_allotted(survey, found))))
    windows = {window["tag"]: window for window in planned["windows"]}
    for one in found.served:
        plan = one.asked.plan
        verdict = windows[plan.window.tag][plan.place]["found"]
        if "thicker" in verdict["reason"] or "pocket" in verdict["reason"]:
            made_up = one.left.pieces or one.right.pieces
            assert made_up, verdict  # the plan takes a made-up weight for one piece
            continue
        if verdict["verdict"] == "adjust":
            assert "stays put only" in verdict["reason"], verdict  # friction, not the pair
            continue
        assert verdict["verdict"] == "hangs true", (plan.window.tag, plan.place, verdict)


MASSES = ["4 lb 14 oz", "4 lb 10 oz", "5 lb 3 oz", "5 lb", "6 lb 6 oz", "6 lb 4 oz"]


def small_house(seed):
    """Draw two windows of one sash and three or four weights, without stock."""
    draw = drawing().Draw(seed)
    survey = {"form": 1}
    sash = {
        "height": "840 mm",
        "width": "650 mm",
        "travel": "780 mm",
        "cord_end": "260 mm",
        "top_nail": "110 mm",
        "slide_friction": "40 N",
    }
    box = {
        "clear_width": "660 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
    }
    windows = []
    for number in (1, 2):
        lower = {**sash, "weighed": draw.random.choice(["11 lb", "11 lb 8 oz", "14 lb"])}
        for side in ("left", "right"):
            missing = draw.chance(0.25)
            lower[side] = (
                {"hung": "none"}
                if missing
                else {
                    "weighed": draw.random.choice(MASSES),
                    "length": draw.random.choice(["300 mm", "420 mm", "640 mm"]),
                    "diameter": "38 mm",
                }
            )
        windows.append(
            {"tag": f"W{number}", "box": box, "pulley": {"wheel": "44 mm"}, "lower": lower}
        )
    survey["house"] = {"name": "Drawn", "stock": {"most_pieces": 0}}
    survey["window"] = windows
    return survey


def best_by_trying(survey):
    """Give the most sashes that any placing hangs true, and of those the most weights at home."""
    places = [(window, side) for window in (0, 1) for side in ("left", "right")]
    there = {
        place: survey["window"][place[0]]["lower"][place[1]]
        for place in places
        if survey["window"][place[0]]["lower"][place[1]].get("hung") != "none"
    }
    best = (-1, -1)
    options = [*there, *[None] * len(places)]
    for chosen in set(permutations(options, len(places))):
        tried = copy.deepcopy(survey)
        for place, source in zip(places, chosen, strict=True):
            weight = {"hung": "none"} if source is None else there[source]
            tried["window"][place[0]]["lower"][place[1]] = weight
        plan = plan_house(survey_from(tried))
        true = [one.window.tag for one in plan.sashes() if one.judgement.verdict == "hangs true"]
        at_home = sum(
            place == source and f"W{place[0] + 1}" in true
            for place, source in zip(places, chosen, strict=True)
        )
        best = max(best, (len(true), at_home))
    return best


@pytest.mark.parametrize(
    "seed", FEW + [pytest.param(n, marks=pytest.mark.slow) for n in range(4, 12)]
)
def test_no_placing_of_the_weights_is_better(seed):
    survey = small_house(seed)
    found = allot_house(plan_house(survey_from(survey)))
    at_home = sum(hanging.origin == "found" for hanging in found.hangings)
    assert (len(found.served), at_home) == best_by_trying(survey)
