"""The last day of a job: each sash let go and pulled, taken down on a phone, proved or not."""

from __future__ import annotations

import pytest

from .conftest import DESK, PHONE


@pytest.fixture
def trying(demo):
    """Gives ``trying(page)``: open the form for the lower sash of the first window."""

    def opened(page):
        page.goto(demo(page))
        page.locator("a.whole").first.click()
        page.get_by_role("link", name="Take down how it runs: lower sash").click()

    return opened


def tap(page, where, did):
    """Tap what a sash did at a place; the whole of what is shown is pressed."""
    page.get_by_role("radiogroup", name=where, exact=True).get_by_text(did, exact=True).click()


def save(page):
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("#told", has_text="Saved.").wait_for()
    page.wait_for_url(lambda url: "saved=" not in url)  # its scripts have run


def test_a_sash_is_tried_on_the_phone_and_counted_in_the_house(open_page, trying):
    page = open_page(PHONE)
    trying(page)
    for where in ("shut", "half", "open"):
        tap(page, where, "stays")
    page.get_by_label("raising", exact=True).fill("5 lb; 4 lb 12 oz")
    page.get_by_label("lowering", exact=True).fill("2 lb 8 oz")
    page.locator(".answer", has_text="5.0 lbf = 22 N; 4.8 lbf = 21 N").wait_for()
    save(page)
    proof = page.locator("[data-verdict=proved]")
    assert "stays shut, half open and open; raising takes" in proof.inner_text()
    page.get_by_role("link", name="Tollgate House").click()
    assert "proved\n1 of 11" in page.locator(".tally").inner_text().replace("\n\n", "\n")


def test_a_drop_says_why(open_page, trying):
    page = open_page(DESK)
    trying(page)
    tap(page, "half", "drops")
    save(page)
    proof = page.locator('.proof [data-verdict="not proved"]')
    assert "drops when left half open: the pair is" in proof.inner_text()


def test_what_was_tapped_outlives_a_reload(open_page, trying):
    page = open_page(PHONE)
    trying(page)
    tap(page, "half", "rises")
    tap(page, "open", "stays")
    page.reload()
    page.get_by_role("button", name="Take it up again").click()
    chosen = page.locator("input[type=radio]:checked")
    values = [one.get_attribute("value") for one in chosen.all()]
    assert values == ["", "", "rises", "", "stays"]
    save(page)
    assert "rises when left half open" in page.locator(".proof").first.inner_text() + (
        page.locator(".proof").last.inner_text()
    )
