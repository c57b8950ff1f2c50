"""The quotation, the programme and the method sheet: what is printed is what was worked out."""

from __future__ import annotations

import copy
import tomllib
from datetime import date

import pytest
from icalendar import Calendar

from evenhung.plan import plan_house
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.price import price_house
from evenhung.plan.programme import programme_of
from evenhung.plan.work import Work
from evenhung.sheets.pack.house import Edition, pack_house, revision_of
from evenhung.sheets.pack.programme import programme_sheet
from evenhung.sheets.pack.quotation import quotation
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

pytestmark = pytest.mark.slow  # solves or sets for seconds

DAY = date(2026, 3, 9)
DEMO = tomllib.loads(SURVEY.read_text(encoding="utf-8"))


def plain(pages):
    """Give the words of a document as they are read, whatever line they stand on."""
    return " ".join(" ".join(pages).split())


@pytest.fixture
def house():
    """Give ``house(**tables)``: the demo house as its sheets have it, tables of it replaced."""

    def make(**tables):
        document = copy.deepcopy(DEMO)
        document["house"] |= tables
        survey = survey_from(document)
        return pack_house(plan_house(survey), Edition(revision_of(survey), DAY, "a4"))

    return make


def test_the_price_on_paper_is_the_price(file, house_of, text_of):
    price = price_house(house_of("plain").plan)
    page = plain(text_of(file("quotation.pdf")))
    assert f"{price.offered.whole:,.2f} GBP".replace(",", " ") in page
    assert "in 80 jobs of a hundred like it" in page
    assert "This stands until 8 April 2026" in page
    assert "rests on hours that Evenhung ships as examples" in page
    for line in price.labour:
        assert line.operation in page
    for option in price.options:
        assert f"{option.with_tax:.2f}" in page


def test_a_material_names_the_entry_that_it_is_priced_by(file, house_of, text_of):
    listed = plain(text_of(file("quotation.pdf")))
    survey = house_of("plain").plan.survey.house
    number = 1 + [one.name for one in survey.material].index("lead")
    assert f"lead 13.63 kg 6.80 a kg price list, line {number} 92.68" in listed
    bought = plain(text_of(file("quotation.pdf", with_allotment=True)))
    made = house_of("plain", with_allotment=True)
    price = price_house(made.plan, allotment=made.allotment)
    (line,) = (one for one in price.materials if one.priced_by == "house.stock.bar[1]")
    assert "bar of lead" in line.name
    assert f"{line.each} stock, bar 2 {line.amount}" in bought


def test_without_a_rate_no_price_is_printed(house, text_of):
    made = house(price={}, material=[])
    page = plain(text_of(quotation(made, price_house(made.plan))))
    assert "No price." in page
    assert "before tax" not in page
    assert "hours of one person are enough with 80 % confidence" in page


def test_a_material_without_a_price_is_said_not_to_be_in_it(house, text_of):
    made = house(material=[])
    page = plain(text_of(quotation(made, price_house(made.plan))))
    assert "Cord, 6 mm: " in page
    assert "for which no price is stated" in page


def test_chart_and_calendar_say_the_same_days(file, house_of, text_of):
    found = programme_of(house_of("plain").plan, today=DAY)
    events = Calendar.from_ical(file("programme.ics")).walk("VEVENT")
    days = {(str(event["summary"]), event.decoded("dtstart")) for event in events}
    assert days == {
        (f"{visit.window.tag}: {step.name}", step.first)
        for visit in found.visits
        for step in visit.steps
    }
    page = plain(text_of(file("programme.pdf")))
    assert f"{found.end.day} March 2026. It cannot end sooner: that is proved." in page


def test_the_chart_goes_on_for_as_many_weeks_as_it_takes(house, text_of):
    made = house(programme={"start": "2026-03-09", "boards": 1})
    bench = [
        Work(operation=operation, window=tag, part="lower", quantity=2, why="old putty")
        for tag in ("W2", "W3", "W4", "W5", "W6")
        for operation in ("strip a sash", "re-bed a pane", "prime and paint")
    ]
    found = programme_of(made.plan, work=[*hanging_work(made.plan), *bench], today=DAY)
    assert (found.end - DAY).days > 35
    letters = plain(text_of(programme_sheet(made, found)))
    for letter in ("O", "B", "1", "2", "R", "·", "March 2026", "April 2026"):
        assert letter in letters


def test_a_conflict_is_printed_instead_of_a_chart(house, text_of):
    made = house(programme={"start": "2026-03-09", "deadline": "2026-03-09", "hours_a_day": 1})
    found = programme_of(made.plan, today=DAY)
    page = plain(text_of(programme_sheet(made, found)))
    assert "It cannot be scheduled, because these cannot all be kept" in page
    assert "The work shall end by 9 March 2026, which leaves 1 day from 9 March 2026: " in page


def test_a_lost_day_is_printed_with_what_moved(house, text_of):
    made = house(programme={"start": "2026-03-09", "lost": ["2026-03-09"]})
    found = programme_of(made.plan, today=DAY)
    assert found.changes
    assert "Moved by days that were lost" in plain(text_of(programme_sheet(made, found)))


def test_a_step_names_its_windows_in_few_letters(file, house_of, text_of):
    tags = [one.window.tag for one in house_of("longest").plan.windows]
    page = "".join(text_of(file("method-and-risks.pdf", "longest")))
    letters = "".join(page.split())
    assert not [tag for tag in tags if "".join(tag.split()) in letters]
    assert letters.count("WWW…WWW") > 10


def test_the_method_asks_before_it_begins(file, text_of):
    page = plain(text_of(file("method-and-risks.pdf")))
    assert "The building is protected: consent may be needed" in page
    assert page.index("Before anything is touched") < page.index("Order of work")
    assert "hangs on one cord or none" in page
    assert "Local codes, and whoever is licensed to do the work" in page


def test_a_sash_of_which_too_little_is_known_is_not_said_to_be_well(file, text_of):
    page = plain(text_of(file("quotation.pdf", "emptiest")))
    assert "Not settled yet, and not in the price." in page
    assert page.count("nothing: it is left as it is") == 1
