"""Fit for everybody: WCAG 2.2 AA by axe, thumbs in gloves, keyboard only, paper."""

from __future__ import annotations

import re

import pytest

from .conftest import DESK, PHONE

SMALLEST_TARGET = 44
"""Side of what is pressed, in CSS pixels: twice what WCAG 2.2 (2.5.8, AA) demands, less 4."""

OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
TARGETS = """
[...document.querySelectorAll("button, .button, .whole, select, input, textarea, .crumbs a")]
  .filter(one => one.type !== "hidden" && one.checkVisibility())
  .map(one => [one.outerHTML.slice(0, 80), one.getBoundingClientRect()])
  .filter(([_, box]) => box.height < %d || box.width < %d)
  .map(([text, box]) => `${text} ${box.width} x ${box.height}`)
"""


def pages(page, house):
    """Give the address of every screen, by a name for it."""
    page.goto(house)
    window = page.locator("a.whole").nth(1).get_attribute("href")
    return {
        "houses": "/",
        "house": house,
        "about": f"{house}about/",
        "history": f"{house}history/",
        "visitors": f"{house}visitors/",
        "weigh-in": f"{house}weigh-in/",
        "weights": f"{house}weights/",
        "loose weight": f"{house}weights/loose/",
        "people": "/people/",
        "window": window,
        "window new": f"{house}window/new/",
        "as found": f"{window}?side=lower.left&as=found",
        "section": f"{window}edit/lower/",
        "tried": f"{window}edit/lower-tried/",
        "photos": f"{window}photos/",
        "stock": f"{house}stock/",
        "bar": f"{house}stock/bars/0/",
        "worths": f"{house}stock/worths/",
        "allotment": f"{house}allotment/",
        "sheets": f"{house}pack/",
        "nowhere": "/nowhere/",
        "log in": "/log-in/",
        "visit": "/visit/",
    }


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_every_page_is_within_reach_of_everybody(open_page, demo, faults_of_access, size, scheme):
    page = open_page(size, color_scheme=scheme)
    found = {}
    for name, address in pages(page, demo(page)).items():
        page.goto(address)
        found[name] = faults_of_access(page)
        assert page.evaluate(OVERFLOW) <= 0, f"{name} is wider than the screen"
        small = page.evaluate(TARGETS % (SMALLEST_TARGET, SMALLEST_TARGET))
        assert small == [], name
    assert found == {name: [] for name in found}


def test_the_check_itself_notices_what_is_wrong(open_page, faults_of_access):
    page = open_page()
    page.goto("/")
    page.evaluate(
        """document.querySelector("main").innerHTML +=
        "<img src='/no.png'><input name='unnamed'><p><font color='#ddd'>pale</font>" """
    )
    found = {fault.partition(":")[0] for fault in faults_of_access(page)}
    assert {"image-alt", "label", "color-contrast"} <= found


def test_a_window_is_added_with_the_keyboard_alone(open_page, demo):
    page = open_page()
    demo(page)

    def go_to(text):
        for _ in range(60):
            page.keyboard.press("Tab")
            focused = page.evaluate("document.activeElement.textContent.trim()")
            if focused.startswith(text):
                return
        pytest.fail(f"{text} cannot be reached")

    go_to("Add a window")
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("window/new"))
    page.locator("#field\\.tag").focus()
    for text in ("W9", "Attic", "860 mm", "1650 mm", "1545 mm", "90 mm", "44 mm"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="W9").wait_for()


def test_the_first_stop_of_the_keyboard_skips_to_the_page_itself(open_page, demo):
    page = open_page()
    demo(page)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"


def test_on_paper_there_is_nothing_to_press(open_page, demo):
    page = open_page()
    demo(page)
    page.emulate_media(media="print")
    assert page.get_by_role("heading", name="Tollgate House").is_visible()
    for pressed in page.locator("button, .button").all():
        assert not pressed.is_visible()


def test_a_figure_shows_its_other_system_on_a_tap(open_page, demo):
    page = open_page(PHONE, has_touch=True)
    demo(page)
    page.get_by_role("link", name="W2").click()
    figure = page.locator("data.figure").first
    assert "lb" in figure.inner_text()
    figure.tap()
    assert figure.inner_text().endswith("kg")
