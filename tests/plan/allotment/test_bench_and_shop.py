"""What is done at the bench, in an order that can be done, and what is bought and cut."""

from __future__ import annotations

import random

import pytest

from evenhung.plan import plan_house
from evenhung.plan.allotment import allot_house
from evenhung.plan.allotment.sentences import move_sentence
from evenhung.survey import survey_from

LB = 0.45359237


def carried_out(found):
    """Do the moves one by one in a house of boxes; give what hangs where at the end."""
    boxes = {
        f"{sash.window.tag} {sash.place} {side}": f"{sash.window.tag} {sash.place} {side}"
        for sash in found.plan.sashes()
        for side, weight in sash.sash.weights()
        if weight is not None and not weight.is_missing
    }
    bench = {weight.tag for weight in found.plan.survey.weight}
    for move in found.moves:
        if move.what == "prop":
            assert {f"{move.name} left", f"{move.name} right"} & set(boxes)
            continue
        if move.what == "change":
            assert boxes[move.hanging.place.name] == move.name
            continue
        if move.name in boxes.values():
            (place,) = (place for place, name in boxes.items() if name == move.name)
            del boxes[place]
            bench.add(move.name)
        if move.what == "hang":
            place = move.hanging.place.name
            assert place not in boxes, f"{place} still holds {boxes.get(place)}"
            weight = move.hanging.weight
            if weight is not None and weight.bought is None:
                bench.remove(move.name)
            boxes[place] = move.hanging.source
    return boxes


@pytest.mark.parametrize("seed", range(8))
def test_the_moves_can_be_done_and_lead_there(row, pieces, seed):
    draw = random.Random(seed)
    masses = ["4 lb 14 oz", "4 lb 10 oz", "5 lb 9 oz", "6 lb 6 oz", "4 lb 2 oz", "7 lb 1 oz"]
    pairs = [(draw.choice([*masses, None]), draw.choice([*masses, None])) for _ in range(6)]
    sash = {number: {"weighed": draw.choice(["11 lb", "12 lb", "14 lb"])} for number in range(1, 7)}
    loose = {name: draw.choice(masses) for name in "AB"}
    stock = {**pieces, "bar": [{"metal": "cast iron", "diameter": "38 mm", "length": "1 m"}]}
    found = row.allotment(pairs, sash=sash, loose=loose, stock=stock)
    boxes = carried_out(found)
    for hanging in found.hangings:
        assert boxes[hanging.place.name] == hanging.source
    served = {hanging.place.name for hanging in found.hangings}
    assert all(boxes[place] == place for place in set(boxes) - served)  # left as they were
    stripped = {
        one.sash.window.tag
        for one in found.unserved
        for side in ("left", "right")
        if getattr(one.sash.sash, side) is not None
        and not getattr(one.sash.sash, side).is_missing
        and f"{one.sash.window.tag} {one.sash.place} {side}" not in boxes
    }
    assert {move.name.split()[0] for move in found.moves if move.what == "prop"} == stripped
    assert all(move_sentence(move, found.plan.words) for move in found.moves)


def test_two_weights_change_places_by_way_of_the_bench(row):
    sash = {2: {"weighed": "14 lb"}}
    pairs = [("6 lb 6 oz", "6 lb 6 oz"), ("4 lb 14 oz", "4 lb 14 oz")]
    found = row.allotment(pairs, sash=sash)
    carried_out(found)
    assert [move.what for move in found.moves].count("take out") == 2


BAR = {
    "metal": "cast iron",
    "diameter": "38 mm",
    "length": "1 m",
    "price": "18.00",
    "making": "2.50",
    "eye": "10 mm",
}


def test_new_weights_are_cut_from_whole_bars(row):
    """Four halves of 4 7/8 lb at 7200 kg/m3 are 271 mm each: three to a bar of a metre."""
    found = row.document([(None, None), (None, None)], stock={"bar": [BAR], "kerf": "3 mm"})
    (line,) = found["buy"]
    assert (line["kind"], line["count"], line["price"], line["making"]) == (
        "bar",
        2,
        "36.00",
        "10.00",
    )
    lengths = [length for bar in line["bars"] for length in bar["lengths_mm"]]
    assert len(lengths) == 4
    for side in found["sides"]:
        assert side["length_mm"] - 10 == pytest.approx(271, abs=4)
    for bar in line["bars"]:
        used = sum(bar["lengths_mm"]) + 3 * len(bar["lengths_mm"])
        assert bar["leftover_mm"] == pytest.approx(1000 - used, abs=0.2)
    assert found["totals"] == {"price": "46.00", "is_whole": True}


def test_two_new_weights_of_a_pair_are_alike(row):
    left, right = row.document([(None, None)], stock={"bar": [BAR]})["sides"]
    assert left["mass_kg"] == right["mass_kg"]
    assert left["length_mm"] == right["length_mm"]


def test_make_weights_are_counted_and_priced(row, pieces):
    pairs = [("4 lb 6 oz", "4 lb 6 oz"), ("4 lb 10 oz", "4 lb 10 oz")]
    policy = {"worth": {"near": "40"}}
    found = row.document(pairs, stock=pieces, policy=policy, currency="GBP")
    bought = {line["name"]: (line["count"], line["price"]) for line in found["buy"]}
    assert bought == {
        "make-weight of 1/4 lb": (2, "2.40"),
        "make-weight of 1/2 lb": (2, "4.00"),
    }
    assert found["totals"] == {"price": "6.40", "is_whole": True}
    assert found["house"]["currency"] == "GBP"


READY = {
    "name": "5 lb sash weight",
    "mass": "4 lb 14 oz",
    "length": "290 mm",
    "diameter": "38 mm",
    "price": "9.00",
}


def test_ready_made_weights_are_bought(row):
    found = row.document([(None, "4 lb 14 oz"), (None, None)], stock={"ready_made": [READY]})
    (line,) = found["buy"]
    assert (line["name"], line["count"], line["price"]) == ("5 lb sash weight", 3, "27.00")


def test_no_more_are_bought_than_there_are(row):
    stock = {"ready_made": [{**READY, "count": 1}]}
    found = row.document([(None, "4 lb 14 oz"), (None, None)], stock=stock)
    assert found["buy"][0]["count"] == 1
    assert len(found["unserved"]) == 1


def test_a_ready_made_weight_too_thick_for_the_box_is_not_bought(row):
    stock = {"ready_made": [{**READY, "diameter": "70 mm"}]}
    assert row.document([(None, None)], stock=stock)["buy"] == []


def test_a_bar_too_short_for_the_weight_is_not_bought(row):
    stock = {"bar": [{**BAR, "length": "200 mm"}]}
    assert row.document([(None, None)], stock=stock)["buy"] == []


def test_the_cheaper_stock_is_bought(row):
    dear = {**READY, "name": "dear", "price": "30.00"}
    found = row.document([(None, None)], stock={"ready_made": [dear, READY]})
    assert [line["name"] for line in found["buy"]] == ["5 lb sash weight"]


def test_what_has_no_price_is_said(row):
    bar = {name: BAR[name] for name in ("metal", "diameter", "length")}
    found = row.document([(None, None)], stock={"bar": [bar]})
    assert found["totals"] == {"price": "0.00", "is_whole": False}


def test_without_a_stock_the_usual_is_taken_to_be_had(row):
    survey = row.survey([("4 lb 6 oz", None)])
    del survey["house"]["stock"]
    found = allot_house(plan_house(survey_from(survey)))
    assert not found.unserved
    assert "stock-assumed" in {note.code for note in found.notes}
