"""From what was found of a window to a price and a programme, on a phone and by keyboard."""

from __future__ import annotations

import re

from .conftest import DESK, PHONE


def save(page):
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("#told", has_text="Saved.").wait_for()
    page.wait_for_url(lambda url: "saved=" not in url)  # its scripts have run


def field(page, path):
    return page.locator(f'[name="field.{path}"]')


def hours_expected(page):
    said = page.get_by_text(re.compile(r"\d+ h are to be expected")).inner_text()
    return int(re.search(r"(\d+) h are to be expected", said)[1])


def test_from_a_finding_to_a_price_and_a_programme(open_page, demo, faults_of_access):
    page = open_page(PHONE)
    house = demo(page)
    page.goto(f"{house}price/")
    before = hours_expected(page)
    page.goto(house)
    page.get_by_role("link", name="W1").first.click()
    page.get_by_role("link", name="Add a finding").click()
    field(page, "finding.part").select_option("lower left stile")
    field(page, "finding.seen").select_option("rot")
    field(page, "finding.measured_from").select_option("bottom")
    field(page, "finding.length").fill("4 in")
    field(page, "finding.depth").fill("1 in")
    save(page)
    doing = page.locator("#doing")
    assert doing.get_by_text("splice", exact=True).first.is_visible()
    assert doing.locator("svg.fabric .hatch").first.is_visible()
    page.get_by_role("link", name="Tollgate House").click()
    page.get_by_role("link", name="Price").click()
    after = hours_expected(page)
    assert after > before
    page.get_by_role("link", name="State yours: splice").click()
    field(page, "rate.hours.likely").fill("9")
    save(page)
    assert hours_expected(page) > after
    page.get_by_label("How sure it is to be").select_option("95")
    page.get_by_role("button", name="Look at it so").click()
    page.get_by_text("95 % confidence").first.wait_for()
    assert faults_of_access(page) == []
    page.get_by_role("link", name="Programme").click()
    page.get_by_role("button", name="Work it out").click()
    page.get_by_text("is the last day of work").wait_for()
    assert faults_of_access(page) == []
    page.get_by_label("A day that was lost").fill("2026-03-10")
    page.get_by_role("button", name="Book it, and move the rest").click()
    page.get_by_role("heading", name="What the lost days have moved").wait_for()
    with page.expect_download() as download:
        page.get_by_role("link", name="Download for a calendar").click()
    assert download.value.suggested_filename == "tollgate-house-programme.ics"


def test_hours_are_booked_with_the_keyboard_alone(open_page, demo):
    page = open_page(DESK)
    house = demo(page)
    page.goto(f"{house}price/")
    page.get_by_role("link", name="Book hours").focus()
    page.keyboard.press("Enter")
    field(page, "window").wait_for()
    field(page, "window").focus()
    page.keyboard.type("W2")
    page.keyboard.press("Tab")
    page.keyboard.type("splice")
    page.keyboard.press("Tab")
    page.keyboard.type("5,5")
    page.keyboard.press("Enter")
    page.locator("#told", has_text="Saved.").wait_for()
    page.wait_for_url(lambda url: "saved=" not in url)  # its scripts have run
    assert page.get_by_text("W2: splice, 5.5 h").first.is_visible()
    assert page.get_by_text("learnt from 1 booking").is_visible()


def test_what_is_typed_into_an_item_of_a_list_is_offered_again(open_page, demo):
    page = open_page(PHONE)
    house = demo(page)
    page.goto(f"{house}price/options/new/")
    field(page, "price.option.name").fill("Sash lifts")
    page.reload()
    page.get_by_role("button", name="Take it up again").click()
    assert field(page, "price.option.name").input_value() == "Sash lifts"
    field(page, "price.option.price").fill("84")
    save(page)
    assert page.get_by_text("Sash lifts: 84").is_visible()
    page.goto(f"{house}price/options/new/")
    assert page.get_by_role("button", name="Take it up again").is_hidden()


def test_the_forms_of_the_price_are_accessible(open_page, demo, faults_of_access):
    page = open_page(PHONE)
    house = demo(page)
    window = page.locator(".windows a.whole").first.get_attribute("href")
    for path in (
        f"{house}price/terms/",
        f"{house}price/hours/new/?operation=splice",
        f"{house}price/booked/new/",
        f"{house}programme/settings/",
        f"{window}found/needed/new/",
        f"{window}edit/programme/",
        window,
    ):
        page.goto(path)
        assert faults_of_access(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_price_and_programme_need_no_scripts(open_page, demo):
    house = demo(open_page())
    page = open_page(java_script_enabled=False)
    page.goto(f"{house}programme/")
    page.get_by_role("button", name="Work it out").click()
    for _ in range(40):
        if page.get_by_text("is the last day of work").count():
            break
        page.wait_for_timeout(500)
        page.goto(f"{house}programme/")
    assert page.get_by_role("region", name="Windows against days").is_visible()
    page.goto(f"{house}price/options/new/")
    field(page, "price.option.name").fill("Sash lifts")
    field(page, "price.option.price").fill("84")
    page.get_by_role("button", name="Save", exact=True).click()
    assert page.get_by_text("Sash lifts: 84").is_visible()
