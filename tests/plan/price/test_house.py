"""A price adds up to the penny, every line says where it comes from, and nothing is invented."""

from __future__ import annotations

import copy
import tomllib
from decimal import ROUND_HALF_UP, Decimal

import pytest

from evenhung.plan import plan_house
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.price import price_document, price_house
from evenhung.plan.price.materials import Needed
from evenhung.plan.work import Work
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

DEMO = tomllib.loads(SURVEY.read_text(encoding="utf-8"))


@pytest.fixture
def priced():
    """Give ``priced(house, booked=..., **options)``: the demo house priced, its tables replaced."""

    def make(house, booked=(), **options):
        document = copy.deepcopy(DEMO)
        for table in ("price", "rate", "material", "programme"):
            document["house"].pop(table, None)
        document["house"] |= house
        document["booked"] = list(booked)
        return price_house(plan_house(survey_from(document)), **options)

    return make


FULL = {
    "price": {"rate": "40.00", "overhead_pct": 10, "tax_pct": 20},
    "material": [{"name": "cord, 6 mm", "per": "m", "price": "0.90"}],
}


def test_it_adds_up_to_the_penny(priced):
    found = priced(FULL)
    offered, document = found.offered, price_document(found)["offered"]
    assert offered.before_tax == offered.labour + offered.materials + offered.overhead
    cent = Decimal("0.01")
    share = (offered.labour + offered.materials) / 10
    assert offered.overhead == share.quantize(cent, ROUND_HALF_UP)
    assert offered.tax == (offered.before_tax / 5).quantize(cent, ROUND_HALF_UP)
    assert Decimal(document["whole"]) == offered.whole
    assert offered.labour == pytest.approx(Decimal(found.offered_hours) * 40, abs=Decimal("0.01"))
    assert offered.materials == found.materials[0].amount > 0


def test_what_is_offered_is_more_than_what_is_expected_and_more_the_surer_it_is(priced):
    sure, surer = priced(FULL, confidence_pct=80.0), priced(FULL, confidence_pct=95.0)
    assert sure.expected.whole < sure.offered.whole < surer.offered.whole
    assert sure.hours.chance_of(sure.offered_hours) == pytest.approx(0.8, abs=1e-6)


def test_every_line_leads_to_window_part_and_reason(priced):
    document = price_document(priced(FULL))
    for line in document["labour"]:
        assert line["quantity"] == pytest.approx(sum(one["quantity"] for one in line["work"]))
        assert all(one["window"] and one["part"] and one["why"] for one in line["work"])
        assert line["source"]
    hours = sum(line["hours"] for line in document["labour"])
    assert hours == pytest.approx(document["hours"]["expected"], rel=1e-3)


def test_own_hours_come_first_and_are_no_example(priced):
    found = priced({**FULL, "rate": [{"operation": "re-cord a side", "hours": 0.5}]})
    line = next(one for one in found.labour if one.operation == "re-cord a side")
    assert (line.taken.source, line.taken.is_example) == ("this survey", False)
    assert line.hours == pytest.approx(0.5 * line.quantity)
    stripped = Work(operation="strip a sash", window="W1", part="upper", quantity=1, why="putty")
    (line,) = priced(FULL, work=[stripped]).labour
    assert "Preservation Brief 9" in line.taken.source or "Historic Wooden" in line.taken.source


def test_without_a_rate_there_are_hours_and_no_price(priced):
    found = priced({})
    assert found.offered is None
    assert found.offered_hours > 0
    assert {line.amount for line in found.labour} == {None}


def test_a_material_without_a_price_is_named_and_left_out(priced):
    needed = [Needed("putty", "kg", 2.5, "W1"), Needed("cord, 6 mm", "m", 10, "W1")]
    found = priced(FULL, materials=needed)
    assert [line.name for line in found.unpriced] == ["putty"]
    assert found.offered.materials == Decimal("9.00")


def test_a_crew_is_weighted_by_its_numbers(priced):
    crew = [{"who": "joiner", "rate": "40"}, {"who": "improver", "count": 3, "rate": "20"}]
    assert priced({"price": {"crew": crew}}).rate == Decimal("25.00")


def test_options_stand_beside_the_price(priced):
    options = [
        {"name": "Lifts", "price": "14.00"},
        {"name": "Seals", "operation": "draught-strip", "quantity": 24},
    ]
    price = {**FULL["price"], "option": options}
    with_them, without = priced({"price": price}), priced({"price": FULL["price"]})
    assert with_them.offered == without.offered
    lifts, seals = with_them.options
    assert lifts.with_tax == Decimal("16.80")
    assert seals.amount > 24 * Decimal("0.1") * 40
    assert priced({"price": {"option": options}}).options[1].amount is None


def test_booked_hours_move_the_price_of_this_house_and_of_another(priced):
    slow = [{"window": "W1", "operation": "re-cord a side", "hours": 0.8}] * 4
    before, after = priced(FULL), priced(FULL, booked=slow)
    assert after.expected.whole > before.expected.whole
    document = copy.deepcopy(DEMO)
    document["booked"] = slow
    document["house"].pop("rate")
    learnt = priced(FULL, history=[survey_from(document)])
    assert learnt.expected == after.expected


def test_nothing_to_do_costs_nothing(priced):
    found = priced({"price": {"rate": "40"}}, work=[], materials=[])
    assert found.offered.whole == 0
    assert price_document(found)["hours"]["expected"] == pytest.approx(0.0, abs=1e-6)


def test_hanging_asks_for_work_only_where_something_is_to_be_done():
    plan = plan_house(survey_from(copy.deepcopy(DEMO)))
    work = hanging_work(plan)
    asked = {one.window for one in work}
    true = {
        window.window.tag
        for window in plan.windows
        if all(
            one is None or one.judgement.verdict in ("hangs true", "fixed", "unknown")
            for one in (window.upper, window.lower)
        )
    }
    assert asked
    assert not {tag for tag in asked & true if not _has_worn_cord(plan, tag)}
    for window in asked:
        done = [one.operation for one in work if one.window == window]
        assert done.count("take out a sash") == done.count("refit a sash") > 0
        assert done.count("re-cord a side") == 2 * done.count("refit a sash")


def _has_worn_cord(plan, tag):
    window = next(one.window for one in plan.windows if one.window.tag == tag)
    return any(
        weight and weight.state in ("frayed", "broken", "painted in")
        for _, sash in window.sashes()
        for _, weight in sash.weights()
    )
