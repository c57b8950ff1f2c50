"""Hours, prices and days of a survey: what is kept as typed, what is refused and in which words."""

from __future__ import annotations

import pytest

from evenhung.survey import survey_from
from evenhung.survey.gaps import gaps_in

OURS = {"least": 0.2, "likely": 0.4, "most": 0.9}


@pytest.fixture
def with_house(house):
    """Give ``with_house(**tables)``: the survey of one window with tables of the house changed."""

    def make(**tables):
        house["house"] |= tables
        return house

    return make


def test_hours_prices_and_days_are_kept_as_typed(with_house):
    tables = {
        "built": 1861,
        "protected": "yes",
        "price": {
            "crew": [{"who": "joiner", "rate": "38.00"}, {"who": "improver", "rate": "24.00"}],
            "overhead_pct": 12.5,
            "tax_pct": 20,
            "confidence_pct": 90,
            "valid_days": 45,
            "exclusions": ["Scaffolding", "Plaster"],
            "option": [
                {"name": "Lifts", "price": "14.00"},
                {"name": "Seals", "operation": "draught-strip", "quantity": 24.5},
            ],
        },
        "rate": [
            {"operation": "splice", "hours": OURS},
            {"operation": "make a weight", "hours": 0.75},
        ],
        "material": [{"name": "cord", "per": "m", "price": "0,85"}],
        "programme": {
            "start": "2026-03-09",
            "deadline": "2026-04-30",
            "days": ["Mon", "Tue", "Sat"],
            "holidays": ["2026-04-03"],
            "lost": ["2026-03-10"],
            "hours_a_day": 7.5,
            "crew": 2,
            "benches": 3,
            "sashes_out": 6,
            "boards": 0,
            "coats": 3,
            "putty_skin": {"least": 1, "likely": 7, "most": 14},
            "recoat": {"least": 1, "likely": 1, "most": 2},
        },
    }
    document = with_house(**tables)
    document["window"][0]["needed"] = [{"first": "2026-03-14", "last": "2026-03-15"}]
    document["booked"] = [{"window": "W1", "operation": "splice", "hours": 3, "on": "2026-03-09"}]
    survey = survey_from(document)
    assert survey.as_typed() == document
    assert survey.house.material[0].price.text == "0,85"
    assert not [gap for gap in gaps_in(survey) if "programme" in gap.path or "price" in gap.path]


@pytest.mark.parametrize(
    ("tables", "line"),
    [
        (
            {"rate": [{"operation": "splice", "hours": -1}]},
            "house.rate[0].hours: -1: at least 0.01",
        ),
        (
            {"rate": [{"operation": "splice", "hours": {**OURS, "least": -0.5}}]},
            "house.rate[0].hours.least: -0.5: at least 0",
        ),
        (
            {"rate": [{"operation": "splice", "hours": {**OURS, "least": 1}}]},
            "house.rate[0].hours.likely: 1, 0.4, 0.9: least, likely and most in rising order",
        ),
        (
            {"rate": [{"operation": "splice", "hours": {"least": 0, "likely": 0, "most": 0}}]},
            "house.rate[0].hours.most: 0, 0, 0: more than no hours at all",
        ),
        (
            {"rate": [{"operation": "splise", "hours": 1}]},
            "house.rate[0].operation: 'splise': an operation: did you mean 'splice'? one of ",
        ),
        (
            {"rate": [{"operation": "splice", "hours": 1}] * 2},
            "house.rate[1].operation: 'splice': one that rate[0] does not state already",
        ),
        (
            {"material": [{"name": "cord", "per": "m", "price": "1"}] * 2},
            "house.material[1].name: 'cord': one that material[0] does not state already",
        ),
        (
            {"price": {"rate": "40", "crew": [{"who": "joiner", "rate": "38"}]}},
            "house.price.rate: 40: nothing, where the crew has rates of its own",
        ),
        (
            {"price": {"option": [{"name": "Lifts"}]}},
            "house.price.option[0].price: (absent): either a price or an operation",
        ),
        (
            {"price": {"option": [{"name": "L", "price": "2", "operation": "splice"}]}},
            "house.price.option[0].price: 2: either a price or an operation",
        ),
        ({"price": {"confidence_pct": 100}}, "house.price.confidence_pct: 100: at most 99"),
        (
            {"programme": {"start": "2026-02-30"}},
            "house.programme.start: '2026-02-30': a day, year first",
        ),
        (
            {"programme": {"start": "2026-03-09", "deadline": "2026-03-08"}},
            "house.programme.deadline: '2026-03-08': a day not before the start, 2026-03-09",
        ),
        (
            {"programme": {"holidays": ["2026-13-01"]}},
            "house.programme.holidays[0]: '2026-13-01': a day, year first",
        ),
        (
            {"programme": {"recoat": {"least": 2, "likely": 1, "most": 3}}},
            "house.programme.recoat.likely: 2, 1, 3: least, likely and most in rising order",
        ),
        ({"programme": {"days": []}}, "house.programme.days: []: at least 1 in the list"),
        ({"protected": "maybe"}, "house.protected: 'maybe': one of 'no' or 'yes'"),
    ],
)
def test_what_cannot_be_is_refused(with_house, refused, tables, line):
    (found,) = refused(with_house(**tables))
    assert found.startswith(line)


def test_a_bound_is_said_without_needless_figures(with_house, refused):
    (found,) = refused(with_house(price={"confidence_pct": 100}))
    assert found == "house.price.confidence_pct: 100: at most 99"


@pytest.mark.parametrize(
    ("change", "line"),
    [
        (
            {"needed": [{"first": "2026-03-10", "last": "2026-03-09"}]},
            "window[0].needed[0].last: '2026-03-09': a day not before the first, 2026-03-10",
        ),
        ({"after": "W11"}, "window[0].after: 'W11': a window of this survey; nearest is 'W1'"),
        ({"after": "?"}, "window[0].after: '?': a window of this survey"),
    ],
)
def test_a_window_names_days_and_windows_that_are(house, refused, change, line):
    house["window"][0] |= change
    (found,) = refused(house)
    assert found.startswith(line)


@pytest.mark.parametrize(("window", "near"), [("W11", "; nearest is 'W1'"), ("?", "")])
def test_hours_are_booked_on_a_window_that_is_there(house, refused, window, near):
    house["booked"] = [{"window": window, "operation": "splice", "hours": 1}]
    assert refused(house) == [f"booked[0].window: '{window}': a window of this survey{near}"]


def test_a_window_may_be_named_by_its_id(house):
    house["window"][0]["id"] = "w-1"
    house["booked"] = [{"window": "w-1", "operation": "splice", "hours": 1, "quantity": 2}]
    assert survey_from(house).booked[0].quantity == 2


def test_hours_of_a_window_that_was_taken_out_are_history(house, refused):
    house["booked"] = [{"window": "W9", "operation": "splice", "hours": 2, "removed": "yes"}]
    assert survey_from(house).booked[0].removed == "yes"
    house["booked"][0]["removed"] = "no"
    (fault,) = refused(house)
    assert fault.startswith("booked[0].window: 'W9': a window of this survey")
