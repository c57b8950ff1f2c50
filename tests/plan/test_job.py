"""The whole job: what hang and overhaul ask for, each piece of work once."""

from __future__ import annotations

from collections import Counter

import pytest

from evenhung.plan import plan_house
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.job import job_of
from evenhung.plan.price import price_house
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey, survey_from


@pytest.fixture(scope="module")
def demo():
    return plan_house(read_survey(SURVEY.read_bytes()))


def surveyed(*findings, adjust=False):
    side = {"weighed": "5 lb", "length": "300 mm", "diameter": "38 mm"}
    sash = {"height": "840 mm", "width": "857 mm", "cord_end": "260 mm", "left": side}
    sash["right"] = side | ({"weighed": "4 lb"} if adjust else {})
    box = {
        "clear_width": "860 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
    }
    window = {
        "tag": "W1",
        "box": box,
        "pulley": {"wheel": "44 mm"},
        "upper": sash | {"weighed": "9 lb 4 oz"},
        "lower": sash | {"weighed": "11 lb 4 oz"},
        "finding": list(findings),
    }
    return plan_house(survey_from({"form": 1, "house": {"name": "Weir"}, "window": [window]}))


def operations(plan):
    return [(one.operation, one.part) for one in job_of(plan).work]


def test_nothing_found_and_hanging_true_is_no_work():
    assert operations(surveyed()) == []


def test_every_piece_of_work_is_there_once(demo):
    seen = Counter((one.operation, one.window, one.part) for one in job_of(demo).work)
    assert set(seen.values()) == {1}
    hang = {(one.operation, one.window, one.part) for one in hanging_work(demo)}
    assert hang <= set(seen)


def test_a_rotten_rail_takes_its_sash_out_and_brings_it_back():
    rot = {"part": "lower bottom rail", "seen": "rot", "length": "150 mm", "depth": "12 mm"}
    found = operations(surveyed(rot))
    assert found[0] == ("protect a room", "room")
    assert found.index(("take out a sash", "lower")) < found.index(("refit a sash", "lower"))
    assert found[-1] == ("prove a sash", "lower")
    assert ("re-cord a side", "lower left") in found
    assert not any(part.startswith("upper") for _, part in found)


def test_the_lower_sash_comes_out_for_the_upper_one():
    found = operations(surveyed({"part": "upper glass", "seen": "broken"}))
    for operation in ("take out a sash", "refit a sash", "prove a sash"):
        assert (operation, "lower") in found
    whys = {
        one.part: one.why
        for one in job_of(surveyed({"part": "upper glass", "seen": "broken"})).work
        if one.operation == "take out a sash"
    }
    assert whys["lower"] == "it stands before the upper sash"


def test_what_hang_and_repair_both_ask_for_has_both_reasons():
    rot = {"part": "lower bottom rail", "seen": "rot", "length": "150 mm", "depth": "12 mm"}
    plan = surveyed(rot, adjust=True)
    (out,) = (
        one
        for one in job_of(plan).work
        if (one.operation, one.part) == ("take out a sash", "lower")
    )
    assert "lower bottom rail" in out.why
    assert "heavier than its pair" in out.why


def test_a_price_counts_the_overhaul_with_what_it_uses_up(demo):
    whole, hang = price_house(demo), price_house(demo, work=hanging_work(demo))
    assert whole.hours.mean > hang.hours.mean
    names = {line.name.partition(",")[0] for line in whole.materials}
    assert {"timber", "putty", "paint", "cord"} <= names
    assert not {"timber", "putty", "paint"} & {
        line.name.partition(",")[0] for line in hang.materials
    }
