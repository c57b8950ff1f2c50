"""The price of a house on its page: what it is made of, its terms, and hours that are booked."""

from __future__ import annotations

import pytest

from evenhung.plan import plan_house
from evenhung.plan.price import price_house
from evenhung.store.parts import Key
from evenhung.web.price.reckoning import window_job
from evenhung.web.records.history import history
from evenhung.web.records.latest import standing_parts, survey_of


def address(house, rest=""):
    return f"/house/{house.pk}/price/{rest}"


def base_of(house, key):
    (part,) = (part for part in standing_parts(house) if part.key == key)
    return str(part.number)


def windows_of(house):
    return [part.key.ident for part in standing_parts(house) if part.key.kind == "window"]


def last_lines(house):
    (last, *_) = history(house)
    return last.lines


@pytest.fixture
def state_terms(browser):
    def state(house, **fields):
        typed = {f"field.{path}": text for path, text in fields.items()}
        typed["base"] = base_of(house, Key("house"))
        return browser.post(address(house, "terms/"), typed)

    return state


def test_the_page_gives_the_price_of_the_plan(browser, demo_house):
    expected = price_house(plan_house(survey_of(demo_house)))
    page = browser.get(address(demo_house))
    shown = page.context["price"]
    assert shown.offered == expected.offered
    assert f"{expected.offered.whole:,.2f}".replace(",", "\N{NARROW NO-BREAK SPACE}") in page.text
    for line in expected.labour:
        assert line.operation in page.text
    assert "no price: not in the total" in page.text
    assert f"{len(expected.unpriced)} materials have no price" in page.text
    assert "Plaster and wallpaper beside the linings" in page.text


def test_window_by_window_it_comes_to_what_the_whole_house_comes_to(browser, demo_house):
    expected = price_house(plan_house(survey_of(demo_house)))
    shown = browser.get(address(demo_house)).context["price"]
    assert shown.materials == expected.materials
    assert shown.labour == expected.labour
    assert shown.options == expected.options


def test_only_what_has_changed_is_worked_out_again(browser, demo_house, state_terms):
    window_job.cache_clear()
    browser.get(address(demo_house))
    first = window_job.cache_info().misses
    assert first == len(windows_of(demo_house))
    state_terms(demo_house, **{"price.rate": "41.00"})
    browser.get(address(demo_house))
    assert window_job.cache_info().misses == first
    one = windows_of(demo_house)[0]
    typed = {"was": "", "field.finding.part": "sill", "field.finding.seen": "worn"}
    browser.post(f"/house/{demo_house.pk}/window/{one}/found/findings/new/", typed)
    browser.get(address(demo_house))
    assert window_job.cache_info().misses == first + 1


def test_it_is_looked_at_at_another_confidence_and_nothing_is_saved(browser, demo_house):
    before = len(list(history(demo_house)))
    usual, surer = (browser.get(address(demo_house, rest)) for rest in ("", "?sure=95"))
    assert "80 % confidence" in usual.text
    assert "95 % confidence" in surer.text
    assert surer.context["price"].offered.whole > usual.context["price"].offered.whole
    assert len(list(history(demo_house))) == before
    assert browser.get(address(demo_house, "?sure=1e9")).context["sure"] == "80"


def test_without_a_rate_there_are_hours_and_no_price(browser, small_house):
    page = browser.get(address(small_house))
    assert page.status_code == 200
    assert page.context["price"].offered is None


def test_a_house_without_windows_has_nothing_to_do(browser, small_house):
    browser.post(f"/house/{small_house.pk}/window/{windows_of(small_house)[0]}/remove/")
    assert "Nothing is to be done" in browser.get(address(small_house)).text


def test_the_terms_are_edited_and_the_history_tells(small_house, state_terms):
    stated = {
        "price.rate": "40.00",
        "price.overhead_pct": "12",
        "price.exclusions": "Plaster\nA hoist",
    }
    assert state_terms(small_house, **stated, currency="GBP").status_code == 302
    terms = survey_of(small_house).house.price
    assert (terms.rate.text, terms.overhead_pct) == ("40.00", 12)
    assert terms.exclusions == ("Plaster", "A hoist")
    assert "Alder Row price: rate 40.00" in last_lines(small_house)


def test_a_term_that_cannot_be_is_refused_beside_its_field(small_house, state_terms):
    answer = state_terms(small_house, **{"price.overhead_pct": "900", "price.rate": "forty"})
    assert answer.status_code == 422
    assert answer.text.count('aria-invalid="true"') == 2
    assert 'value="forty"' in answer.text


def test_a_crew_beside_one_rate_for_all_is_refused_with_its_reason(
    browser, small_house, state_terms
):
    state_terms(small_house, **{"price.rate": "40.00"})
    typed = {"was": "", "field.price.crew.who": "joiner", "field.price.crew.rate": "38.00"}
    answer = browser.post(address(small_house, "crew/new/"), typed)
    assert answer.status_code == 422
    assert "where the crew has rates of its own" in answer.text


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ({"likely": "2"}, 2),
        ({"least": "1", "likely": "2", "most": "4,5"}, (1, 2, 4.5)),
    ],
)
def test_own_hours_take_the_place_of_the_examples(browser, demo_house, typed, kept):
    before = browser.get(address(demo_house, "hours/new/?operation=splice"))
    assert '<option value="splice" selected>' in before.text
    fields = {f"field.rate.hours.{name}": text for name, text in typed.items()}
    answer = browser.post(
        address(demo_house, "hours/new/"), {"was": "", "field.rate.operation": "splice", **fields}
    )
    assert answer.status_code == 302
    rates = survey_of(demo_house).house.rate
    hours = rates[-1].hours
    assert (hours if isinstance(kept, int) else (hours.least, hours.likely, hours.most)) == kept
    again = browser.get(address(demo_house, f"hours/{len(rates) - 1}/")).text
    for name, text in typed.items():
        value = text.replace(",", ".")
        assert f'name="field.rate.hours.{name}" value="{value}"' in again
    assert last_lines(demo_house)[0].startswith("Tollgate House rate added: operation splice")


@pytest.mark.parametrize(
    ("typed", "allowed"),
    [
        ({"likely": "-2"}, "0.01"),
        ({"least": "3", "likely": "2", "most": "4"}, "in rising order"),
        ({"least": "1", "likely": "2"}, "the most, where it goes badly"),
    ],
)
def test_hours_that_cannot_be_are_refused_beside_their_field(browser, small_house, typed, allowed):
    fields = {f"field.rate.hours.{name}": text for name, text in typed.items()}
    answer = browser.post(
        address(small_house, "hours/new/"), {"was": "", "field.rate.operation": "splice", **fields}
    )
    assert answer.status_code == 422
    assert 'aria-invalid="true"' in answer.text
    assert allowed in answer.text
    assert survey_of(small_house).house.rate == ()


def test_an_unpriced_material_is_priced_from_its_line(browser, demo_house):
    (line, *_) = browser.get(address(demo_house)).context["price"].unpriced
    form = browser.get(address(demo_house, "materials/new/"), {"name": line.name, "per": line.per})
    assert f'value="{line.name}"' in form.text
    typed = {
        "was": "",
        "field.material.name": line.name,
        "field.material.per": line.per,
        "field.material.price": "12.50",
    }
    assert browser.post(address(demo_house, "materials/new/"), typed).status_code == 302
    after = browser.get(address(demo_house)).context["price"]
    assert line.name not in [one.name for one in after.unpriced]
    typed["field.material.price"] = "13"
    twice = browser.post(address(demo_house, "materials/new/"), typed)
    assert twice.status_code == 422
    assert "does not state already" in twice.text


def test_an_option_is_added_changed_and_taken_out(browser, small_house):
    typed = {"was": "", "field.price.option.name": "Lifts", "field.price.option.price": "84.00"}
    assert browser.post(address(small_house, "options/new/"), typed).status_code == 302
    page = browser.get(address(small_house))
    assert "Lifts: 84.00" in page.text
    row = next(rows for shelf, rows in page.context["terms"] if shelf.slug == "options")[0]
    typed = {**typed, "was": row["was"], "field.price.option.price": "90.00"}
    assert browser.post(address(small_house, "options/0/"), typed).status_code == 302
    gone = browser.post(address(small_house, "options/0/remove/"), {"was": row["was"]})
    assert gone.status_code == 409
    typed["was"] = browser.get(address(small_house)).context["terms"][3][1][0]["was"]
    browser.post(address(small_house, "options/0/remove/"), {"was": typed["was"]})
    assert survey_of(small_house).house.price.option == ()


def test_a_list_that_there_is_not_is_not_found(browser, small_house):
    assert browser.get(address(small_house, "omens/new/")).status_code == 404
    assert browser.get(address(small_house, "crew/7/")).status_code == 404


def book(browser, house, **fields):
    typed = {"base": "0", **{f"field.{name}": text for name, text in fields.items()}}
    return browser.post(address(house, "booked/new/"), typed)


def test_booked_hours_sharpen_what_is_to_be_expected(browser, demo_house):
    window = windows_of(demo_house)[1]
    form = browser.get(address(demo_house, f"booked/new/?window={window}&operation=splice")).text
    assert f'<option value="{window}" selected>W2' in form
    before = browser.get(address(demo_house)).context["price"]
    for hours in ("5", "6", "5,5"):
        fields = {"window": window, "operation": "splice", "hours": hours, "on": "2026-03-10"}
        assert book(browser, demo_house, **fields).status_code == 302
    assert last_lines(demo_house) == ["W2, splice: 5.5 h booked"]
    page = browser.get(address(demo_house))
    factors = [price.pace.factor("splice") for price in (before, page.context["price"])]
    assert factors[0] < factors[1]
    assert "learnt from 3 bookings" in page.text
    assert "W2: splice, 5 h" in page.text


def test_a_booking_is_changed_and_taken_out_in_words(browser, small_house):
    (window,) = windows_of(small_house)
    book(browser, small_house, window=window, operation="splice", hours="3")
    (one,) = browser.get(address(small_house)).context["booked"]
    key = Key("booked", one.ident)
    typed = {"base": base_of(small_house, key), "field.hours": "4"}
    assert browser.post(address(small_house, f"booked/{one.ident}/"), typed).status_code == 302
    assert last_lines(small_house) == ["W1, splice: hours 4, was 3"]
    assert browser.get(address(small_house, f"booked/{one.ident}/")).status_code == 200
    browser.post(address(small_house, f"booked/{one.ident}/remove/"))
    assert survey_of(small_house).booked == ()
    assert last_lines(small_house) == ["W1, splice: 4 h no longer booked"]


def test_hours_at_no_window_or_none_at_all_are_refused(browser, small_house):
    refused = book(browser, small_house, window="nowhere", operation="splice", hours="0")
    assert refused.status_code == 422
    assert refused.text.count('aria-invalid="true"') >= 1
    unnamed = book(browser, small_house, window="", operation="", hours="")
    assert unnamed.status_code == 422
    assert survey_of(small_house).booked == ()


def test_a_window_is_renamed_and_its_hours_stay(browser, small_house):
    (window,) = windows_of(small_house)
    book(browser, small_house, window=window, operation="splice", hours="3")
    typed = {"base": base_of(small_house, Key("window", window)), "field.tag": "Bay"}
    browser.post(f"/house/{small_house.pk}/window/{window}/edit/window/", typed)
    assert "Bay: splice, 3 h" in browser.get(address(small_house)).text


@pytest.fixture
def worked(browser, small_house):
    """The only window of the small house, with hours booked on it; its address."""
    (window,) = windows_of(small_house)
    book(browser, small_house, window=window, operation="splice", hours="3")
    return f"/house/{small_house.pk}/window/{window}/"


def test_a_window_with_booked_hours_is_not_removed_unasked(browser, small_house, worked):
    answer = browser.post(f"{worked}remove/")
    assert answer.status_code == 409
    assert "W1: splice, 3 h" in answer.text
    assert len(windows_of(small_house)) == 1
    assert browser.post(f"{worked}remove/", {"hours": "perhaps"}).status_code == 409


def test_its_hours_are_kept_as_history_and_still_taught_by(browser, small_house, worked):
    before = browser.get(address(small_house)).context["price"].pace.factor("splice")
    assert browser.post(f"{worked}remove/", {"hours": "keep"}).status_code == 302
    assert windows_of(small_house) == []
    (one,) = survey_of(small_house).booked
    assert (one.window, one.removed, one.hours) == ("W1", "yes", 3)
    page = browser.get(address(small_house))
    assert "W1 (taken out): splice, 3 h" in page.text
    assert page.context["price"].pace.factor("splice") == before != 1.0
    (key,) = (part.key for part in standing_parts(small_house) if part.key.kind == "booked")
    form = browser.get(address(small_house, f"booked/{key.ident}/"))
    assert 'value="W1"' in form.text
    assert 'name="field.removed"' in form.text


@pytest.mark.parametrize("choice", ["keep", "remove"])
def test_one_undo_brings_window_and_hours_back(browser, small_house, worked, choice):
    before = survey_of(small_house)
    browser.post(f"{worked}remove/", {"hours": choice})
    assert len(survey_of(small_house).booked) == (choice == "keep")
    (last, *_) = history(small_house)
    browser.post(f"/house/{small_house.pk}/undo/{last.change.number}/")
    assert survey_of(small_house) == before


def test_hours_of_a_window_that_was_taken_out_do_not_hold_another_of_its_name(
    browser, small_house, worked
):
    (body,) = (part.body for part in standing_parts(small_house) if part.key.kind == "window")
    browser.post(f"{worked}remove/", {"hours": "keep"})
    typed = {"base": "0", "field.tag": "W1"}
    typed |= {f"field.box.{name}": text for name, text in body["box"].items()}
    typed |= {"field.pulley.wheel": body["pulley"]["wheel"]}
    assert browser.post(f"/house/{small_house.pk}/window/new/", typed).status_code == 302
    (again,) = windows_of(small_house)
    assert browser.post(f"/house/{small_house.pk}/window/{again}/remove/").status_code == 302
