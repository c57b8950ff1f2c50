"""The stock of a house, its loose weights, and what is decided: read, and refused where wrong."""

from __future__ import annotations

import pytest

from evenhung.survey import survey_from
from evenhung.survey.money import money_of
from evenhung.survey.names import FoundAt, Loose, Names

STOCK = {
    "make_weight": [{"mass": "1/2 lb", "length": "26 mm", "price": "2,40"}],
    "bar": [{"metal": "lead", "diameter": "38 mm", "length": "1 m", "price": "18"}],
    "ready_made": [{"name": "9 lb", "mass": "9 lb", "length": "500 mm", "count": 4}],
}


@pytest.fixture
def with_more(house):
    """Gives ``with_more(decisions)``: a house with stock, a loose weight and decisions."""

    def make(*decisions, weight=({"tag": "A", "id": "w-7", "weighed": "9 lb"},)):
        house["house"] |= {"stock": STOCK, "currency": "GBP"}
        house["window"][0]["id"] = "w-1"
        for place in ("upper", "lower"):
            for side in ("left", "right"):
                house["window"][0][place][side] = {"weighed": "9 lb"}
        house["window"][0]["upper"]["left"]["id"] = "w-2"
        return {**house, "weight": list(weight), "decision": list(decisions)}

    return make


def test_a_stock_is_kept_as_typed(with_more):
    survey = survey_from(with_more())
    assert survey.house.stock.as_typed() == STOCK
    assert [str(one.price.amount) for one in survey.house.stock.make_weight] == ["2.40"]
    assert survey.weight[0].tag == "A"


@pytest.mark.parametrize("text", ["2.40", "2,4", " 7 ", "999999.99"])
def test_an_amount_is_read(text):
    assert money_of(text).text == text


@pytest.mark.parametrize("text", ["", "2.405", "-1", "1 000", "£2", "1e3", "٣", "1000000"])
def test_what_is_no_amount_is_refused(with_more, refused, text):
    assert money_of(text) is None
    survey = with_more()
    survey["house"]["stock"] = {"bar": [{**STOCK["bar"][0], "making": text}]}
    (line,) = refused(survey)
    assert line.startswith("house.stock.bar[0].making: ")


@pytest.mark.parametrize(
    ("change", "line"),
    [
        ({"currency": "pounds"}, "house.currency: 'pounds': three capitals, the code of a curr"),
        ({"policy": {"worth": {"home": 20}}}, "house.policy.worth.home: 20: a text in quotes"),
        ({"policy": {"moves": "far"}}, "house.policy.moves: 'far': one of 'house', 'room' or 'no"),
    ],
)
def test_a_fault_is_named(with_more, refused, change, line):
    survey = with_more()
    survey["house"] |= change
    assert refused(survey)[0].startswith(line)


HANG = {"what": "hang", "sash": "W1 upper", "side": "left", "weight": "A"}


@pytest.mark.parametrize(
    ("decision", "line"),
    [
        ({**HANG, "side": None}, "decision[0].side: (absent): left or right"),
        ({**HANG, "weight": None}, "decision[0].weight: (absent): which weight"),
        (
            {**HANG, "sash": "W9 upper"},
            "decision[0].sash: 'W9 upper': a sash of this survey; nearest is 'W1 upper'",
        ),
        (
            {**HANG, "weight": "Z"},
            "decision[0].weight: 'Z': a weight of this survey: W1 upper left, w-2",
        ),
        ({**HANG, "what": "hung", "weight": None}, "decision[0].weighed: (absent): what a new"),
        ({**HANG, "on": "2026-02-30"}, "decision[0].on: '2026-02-30': a day, year first"),
        ({**HANG, "on": "20260203"}, "decision[0].on: '20260203': a day, year first"),
    ],
)
def test_a_decision_must_make_sense(with_more, refused, decision, line):
    stated = {name: value for name, value in decision.items() if value is not None}
    (found,) = refused(with_more(stated))
    assert found.startswith(line)


@pytest.mark.parametrize("name", ["W1 upper", "w-1 upper"])
@pytest.mark.parametrize("weight", ["A", "w-7", "W1 lower right", "w-1 lower right", "w-2"])
def test_parts_are_named_by_tag_or_id(with_more, name, weight):
    survey = survey_from(with_more({**HANG, "sash": name, "weight": weight, "on": "2026-03-09"}))
    assert survey.decision[0].weight == weight


def test_no_weight_and_no_place_is_decided_twice(with_more, refused):
    right = {**HANG, "side": "right"}
    assert refused(with_more(HANG, right)) == [
        "decision[1].weight: 'A': one that decision[0] has not taken"
    ]
    other = {**HANG, "weight": "W1 lower left"}
    assert refused(with_more(HANG, other)) == [
        "decision[1].side: 'left': one that decision[0] has not taken"
    ]
    never = {**HANG, "what": "never", "side": "right"}
    survey_from(with_more(HANG, never))
    for against in (
        {**never, "side": "left"},
        {"what": "never", "sash": "w-1 upper", "weight": "w-7"},
    ):
        assert refused(with_more(HANG, against)) == [
            "decision[0].weight: 'A': one that is not barred there by another"
        ]


def test_only_what_is_hung_states_how_it_hangs(with_more, refused):
    assert refused(with_more({**HANG, "added": "1 lb"})) == [
        'decision[0].added: 1 lb: nothing, unless what is "hung"'
    ]


def test_no_weight_goes_by_the_name_of_another(with_more, refused):
    loose = [{"tag": "W1 upper left"}, {"tag": "B", "id": "w-2"}, {"tag": "C", "id": "B"}]
    assert refused(with_more(weight=loose)) == [
        "weight[0].tag: 'W1 upper left': a name that no other weight goes by",
        "weight[1].id: 'w-2': a name that no other weight goes by",
        "weight[2].id: 'B': a name that no other weight goes by",
    ]


def test_loose_weights_have_tags_of_their_own(with_more, refused):
    twice = [{"tag": "A"}, {"tag": "A"}]
    assert refused(with_more(weight=twice)) == [
        "weight[1].tag: 'A': one of its own; weight[0] has this tag"
    ]
    survey = with_more()
    survey["weight"] = {"tag": "A"}
    assert refused(survey)[-1].endswith("a list of weights: begin each with [[weight]]")


def test_a_house_of_few_parts_names_them_all(refused):
    survey = {"form": 1, "house": {"name": "Empty"}, "decision": [{**HANG}]}
    assert refused(survey) == [
        "decision[0].sash: 'W1 upper': a sash of this survey: there is none",
        "decision[0].weight: 'A': a weight of this survey: there is none",
    ]


def test_a_missing_weight_has_no_name(house):
    house["window"][0]["upper"] |= {"left": {"hung": "none"}, "right": {}}
    house["weight"] = [{"tag": "A"}]
    survey = survey_from(house)
    names = Names(survey.window, survey.weight)
    assert "W1 upper left" not in names.weights
    assert names.weights["W1 upper right"] == FoundAt(0, "upper", "right")
    assert names.weights["A"] == Loose(0)
