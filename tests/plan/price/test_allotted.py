"""A house whose weights are allotted pays what the allotment buys, entry by entry of its stock."""

from __future__ import annotations

import copy
import tomllib
from decimal import Decimal

import pytest

from evenhung.plan import plan_house
from evenhung.plan.allotment import allot_house
from evenhung.plan.allotment.applied import on_what_is_allotted
from evenhung.plan.price import price_document, price_house
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

DEMO = tomllib.loads(SURVEY.read_text(encoding="utf-8"))
PIECES = [
    {"mass": "1/4 lb", "length": "13 mm", "price": "1.20"},
    {"mass": "1 lb", "length": "52 mm", "price": "3.75"},
]
BAR = {"metal": "mild steel", "diameter": "38 mm", "length": "1 m", "price": "16.50"}
READY = [
    {"name": f"{lb} lb sash weight", "mass": f"{lb} lb", "length": f"{50 * lb} mm", "price": price}
    for lb, price in ((5, "11.00"), (8, "17.35"), (10, "21.00"))
]


@pytest.fixture
def bought():
    """Gives ``bought(stock, **house)``: the demo house with no weights left in it, priced."""

    def make(stock, **house):
        document = copy.deepcopy(DEMO)
        document["house"] |= {"stock": stock, "price": {"rate": "40.00"}, "material": [], **house}
        document.pop("decision", None)
        document["weight"] = []
        document["window"] = document["window"][:2]
        for window in document["window"]:
            window.pop("after", None)
            for place in {"upper", "lower"} & window.keys():
                for side in {"left", "right"} & window[place].keys():
                    window[place][side] = {"hung": "none"}
        document.pop("booked", None)
        plan = plan_house(survey_from(document))
        allotment = allot_house(plan)
        return allotment, price_house(on_what_is_allotted(plan, allotment), allotment=allotment)

    return make


def lines_of(price):
    return [one for one in price.materials if one.priced_by.startswith("house.stock.")]


def test_ready_made_weights_are_priced_each_by_its_entry(bought):
    allotment, price = bought({"ready_made": READY, "make_weight": PIECES})
    assert allotment.served
    lines = lines_of(price)
    assert sum(one.amount for one in lines) == allotment.basket.total > 0
    for line in lines:
        kind, number = line.priced_by.removeprefix("house.stock.").rstrip("]").split("[")
        stated = {"ready_made": READY, "make_weight": PIECES}[kind][int(number)]["price"]
        assert line.each == Decimal(stated)
        assert line.amount == line.each * line.quantity
        assert line.windows
    assert {one.name for one in lines} >= {
        one.new.name for one in allotment.hangings if one.origin == "ready-made"
    }


def test_whole_bars_are_paid_and_their_making_once(bought):
    allotment, price = bought({"bar": [{**BAR, "making": "4.00"}]})
    bars, making = lines_of(price)
    assert (bars.priced_by, making.priced_by) == (
        "house.stock.bar[0]",
        "house.stock.bar[0].making",
    )
    assert bars.amount == Decimal("16.50") * bars.quantity
    assert making.amount == 4 * len(allotment.hangings)
    assert bars.amount + making.amount == allotment.basket.total
    assert "make a weight" not in {line.operation for line in price.labour}
    assert not [one for one in price.materials if one.per == "kg" and one.name == "mild steel"]


def test_weights_that_nobody_is_paid_to_make_take_hours(bought):
    allotment, price = bought({"bar": [BAR]})
    assert sum(one.amount for one in lines_of(price)) == allotment.basket.total
    (made,) = [line for line in price.labour if line.operation == "make a weight"]
    assert made.quantity == len(allotment.hangings)


def test_the_total_has_what_is_bought(bought):
    allotment, price = bought({"ready_made": READY, "make_weight": PIECES})
    others = sum(one.amount or 0 for one in price.materials if one not in lines_of(price))
    assert price.offered.materials == others + allotment.basket.total


def test_what_the_stock_has_no_price_for_may_have_one_among_the_materials(bought):
    bare = {name: value for name, value in BAR.items() if name != "price"}
    _, price = bought({"bar": [bare]})
    (line,) = [one for one in price.unpriced if one.name.startswith("bar of mild steel")]
    assert (line.per, line.amount, line.priced_by) == ("each", None, "house.stock.bar[0]")
    material = [{"name": line.name, "per": "each", "price": "18.00"}]
    _, again = bought({"bar": [bare]}, material=material)
    (line,) = [one for one in again.materials if one.name == line.name]
    assert (line.amount, line.priced_by) == (18 * line.quantity, "house.material[0]")
    assert price_document(again)["materials"][-1]["priced_by"] == "house.material[0]"


def test_of_a_house_without_a_stock_metal_is_priced_by_the_kilogram():
    document = copy.deepcopy(DEMO)
    document["house"].pop("stock", None)
    metals = ("cast iron", "lead", "mild steel")
    document["house"]["material"] = [
        {"name": name, "per": "kg", "price": "3.00"} for name in metals
    ]
    plan = plan_house(survey_from(document))
    allotment = allot_house(plan)
    price = price_house(on_what_is_allotted(plan, allotment), allotment=allotment)
    assert lines_of(price) == []
    weighed = [one for one in price.materials if one.per == "kg" and one.name in metals]
    assert all(one.priced_by.startswith("house.material[") for one in weighed)
    assert weighed
