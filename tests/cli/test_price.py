"""``evenhung price``: lines, one JSON object, refusals."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

ALWAYS = {"operation": "re-cord a side", "hours": 0.3}


@pytest.fixture
def priced(tollgate, tmp_path):
    """Give ``priced(**tables)``: a file of the demo house with tables of the house replaced."""

    def write(booked=(), **tables):
        tollgate["house"] |= tables
        tollgate["booked"] = list(booked)
        path = tmp_path / "house.json"
        path.write_text(json.dumps(tollgate))
        return str(path)

    return write


def test_it_prints_one_object(says, priced):
    code, lines, errors = says("price", priced(price={"rate": "38"}), "--json")
    assert (code, errors, len(lines)) == (0, [], 1)
    found = json.loads(lines[0])
    assert found["house"] == {"name": "Tollgate House", "currency": "GBP"}
    assert set(found["offered"]) == {
        *("labour", "materials", "overhead", "before_tax", "tax", "whole"),
    }


def test_the_first_line_is_the_price_and_examples_are_owned_up_to(says, priced):
    _, lines, _ = says("price", priced(price={"rate": "38"}, material=[]), "--confidence", "90")
    assert lines[0].startswith("Tollgate House: ")
    assert lines[0].endswith(" GBP is enough with 90 % confidence")
    assert lines[-1].startswith("taken for granted: hours of ")
    assert any("no price stated: not in the total" in line for line in lines)


def test_a_line_of_labour_is_short_and_its_quantity_is_no_finer_than_measured(says, priced):
    _, lines, _ = says("price", priced(price={"rate": "38"}))
    (painted,) = [line for line in lines if line.startswith("labour: prime and paint: ")]
    assert painted.startswith("labour: prime and paint: 2.93 m2 at 0.7 to 1.1 to 2 h, ")
    assert painted.endswith(" [an example]")
    (hours,) = [line for line in lines if line.startswith("hours: ")]
    assert re.search(
        r"; one job in ten takes no more than [\d.]+, nine in ten no more than ", hours
    )
    whole = [line for line in lines if line.startswith("labour: protect a room: 6 at ")]
    assert len(whole) == 1


def test_one_hour_for_all_is_said_once(says, priced):
    _, lines, _ = says("price", priced(price={"rate": "38"}, rate=[ALWAYS]))
    (line,) = [line for line in lines if line.startswith("labour: re-cord a side: ")]
    assert " at 0.3 h, " in line


@pytest.mark.parametrize(
    ("stated", "said"),
    [
        ({"name": "puty", "per": "kg"}, "; a price is stated for 'puty'"),
        ({"name": "putty", "per": "L"}, "; its price is stated per L, wanted is kg"),
        ({"name": "beeswax", "per": "kg"}, ""),
    ],
)
def test_a_price_that_missed_its_material_is_pointed_at(says, priced, stated, said):
    _, lines, _ = says("price", priced(material=[{**stated, "price": "4.80"}]))
    (line,) = [line for line in lines if line.startswith("material: putty: ")]
    assert line.endswith(f" kg, no price stated: not in the total{said}")


def test_without_a_rate_it_says_what_to_state(says, priced):
    _, lines, _ = says("price", priced(price={}))
    assert "no price, for no rate is stated: rate in [house.price]" in lines[0]


def test_hours_of_another_house_are_learnt_from(says, priced, tmp_path):
    booked = [{"window": "W1", "operation": "re-cord a side", "hours": 0.8}]
    other = tmp_path / "other.json"
    other.write_text(Path(priced(booked, price={"rate": "38"})).read_text())
    path = priced(price={"rate": "38"})
    _, lines, _ = says("price", path, "--history", str(other))
    assert any(line.startswith("learnt: re-cord a side: takes ") for line in lines)


def test_negative_hours_are_refused(says, priced):
    path = priced(rate=[{"operation": "splice", "hours": -2}])
    code, lines, errors = says("price", path)
    assert (code, lines) == (2, [])
    assert errors == ["house.rate[0].hours: -2: at least 0.01"]


def test_nothing_to_do_is_said(says, tmp_path):
    path = tmp_path / "empty.toml"
    path.write_text('form = 1\n[house]\nname = "Alder Row"\n')
    assert says("price", str(path))[1][0] == "Alder Row: nothing is to be done"


def test_on_the_best_use_of_its_weights_a_house_buys_less(says, demo):
    amounts = []
    for options in ([], ["--allot"]):
        code, lines, _ = says("price", demo, "--json", *options)
        assert code == 0
        found = json.loads(lines[0])
        made = {one["operation"]: one["quantity"] for one in found["labour"]}
        paid = [one for one in found["materials"] if one["name"].startswith("making weights")]
        amounts.append(made.get("make a weight", 0) + sum(float(one["quantity"]) for one in paid))
        by_stock = [one for one in found["materials"] if "house.stock." in str(one["priced_by"])]
        assert bool(by_stock) == bool(options)
    assert amounts == [3, 2]
