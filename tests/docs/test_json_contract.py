"""The page on ``plan --json`` names every key that is printed, and no other."""

import re
from datetime import date
from typing import get_args

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.plan.completion.proof import Verdict as Proven
from evenhung.plan.price import price_document, price_house
from evenhung.plan.programme import programme_document, programme_of
from evenhung.plan.verdict import Verdict
from evenhung.survey import survey_from

DOTTED = ("house", "pair_kg", "ends")
"""Small objects whose keys the page writes as ``house.name``."""


@pytest.fixture
def sections(root):
    """Give for each heading the names in the first column of its tables."""
    page = (root / "docs/json-contract.md").read_text(encoding="utf-8")
    parts = re.split(r"^#+ (.+)$", page, flags=re.MULTILINE)
    return {
        heading.strip("`"): [
            name
            for row in re.findall(r"^\| ([^|]+) \|", body, re.MULTILINE)
            for name in re.findall(r"`([^`]+)`", row)
        ]
        for heading, body in zip(parts[1::2], parts[2::2], strict=True)
    }


@pytest.fixture
def objects(demo_plan):
    """Give an object of each kind that the demo house's plan holds, by the page's heading."""
    house = document_of(demo_plan)
    window = house["windows"][0]
    sash = window["upper"]
    measured = house["windows"][4]["lower"]
    hung = sash["hung"]
    repair = house["windows"][1]["repair"]
    spliced = next(one for one in repair["findings"] if one["splice"] is not None)
    return {
        "The house": house,
        "A window": window,
        "A sash": sash,
        **{name: sash[name] for name in ("cord", "weights", "operation", "pocket")},
        "hung": {**hung, **hung["left"]},
        "readings": measured["readings"],
        "repair": repair,
        "A finding": spliced,
        "splice": spliced["splice"],
        "A symptom": repair["symptoms"][0],
        "fabric": {**house["fabric"], **house["fabric"]["timber"]},
        "glazing": repair["glazing"],
        "work": repair["work"][0],
        "takeoff": house["takeoff"],
        "A note": house["notes"][0],
        "price": price_document(price_house(demo_plan)),
        "programme": programme_document(programme_of(demo_plan, today=date(2026, 3, 9))),
    }


@pytest.fixture
def tried(demo_plan):
    """Give the plan of the demo house as plain data, one sash of it tried."""
    survey = demo_plan.survey.as_typed()
    survey["window"][0]["lower"]["completion"] = {"let_go": {"half": "stays"}, "raising": ["9 N"]}
    return document_of(plan_house(survey_from(survey)))


def keys(given):
    for name, value in given.items():
        if name in DOTTED and isinstance(value, dict):
            yield from (f"{name}.{inner}" for inner in value)
        else:
            yield name


def test_every_key_is_on_the_page_and_no_other(sections, objects):
    for heading, given in objects.items():
        assert sorted(sections[heading]) == sorted(keys(given)), heading


def test_every_key_of_a_completion_is_on_the_page_and_no_other(sections, tried):
    house, sash = tried["completion"], tried["windows"][0]["lower"]["completion"]
    assert sections["Completion of the house"] == list(house)
    said = [*sash, *get_args(Proven), *sash["raising"]]
    assert sections["Completion of a sash"] == said


def test_found_and_its_verdicts_are_on_the_page(sections, objects):
    found = list(objects["A sash"]["found"])
    assert sections["found"] == [*found, *get_args(Verdict)]


def test_every_sash_of_the_demo_house_has_the_same_keys(demo_plan, objects):
    for window in document_of(demo_plan)["windows"]:
        for place in ("upper", "lower"):
            assert list(window[place]) == list(objects["A sash"])


def test_null_comes_with_a_note_or_a_verdict_that_says_why(demo_plan):
    for window in document_of(demo_plan)["windows"]:
        for sash in (window["upper"], window["lower"]):
            if sash["mass_kg"] is None:
                assert "mass-unknown" in {note["code"] for note in sash["notes"]}
            if sash["hung"] is None:
                assert sash["found"]["verdict"] in {"fixed", "unknown"}
