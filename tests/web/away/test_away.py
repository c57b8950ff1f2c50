"""What a browser is given for when there is no connection."""

from __future__ import annotations

from evenhung.web.condition.shelves import LISTS
from evenhung.web.records.latest import standing_parts
from evenhung.web.window.sections import SECTIONS, TRIED


def test_the_worker_looks_after_every_page_and_is_kept_by_nobody(browser):
    answer = browser.get("/away.js")
    assert answer.headers["Content-Type"] == "text/javascript"
    assert answer.headers["Cache-Control"] == "no-cache, private"
    assert "evenhung-kept" in answer.text


def test_the_pages_that_stand_in_say_what_became_of_what_was_typed(browser):
    assert "was not looked at on this device" in browser.get("/away/not-seen/").text
    assert "What you typed is kept on this device" in browser.get("/away/not-saved/").text


def test_every_page_that_is_taken_along_can_be_had(browser, demo_house):
    pages = browser.get(f"/house/{demo_house.pk}/along/").json()["pages"]
    assert len(pages) == 8 + 6 * (1 + len(SECTIONS) + len(TRIED) + len(LISTS))
    assert {browser.get(page).status_code for page in pages} == {200}


def test_a_window_that_was_removed_is_not_taken_along(browser, small_house):
    (window,) = (one.key for one in standing_parts(small_house) if one.key.kind == "window")
    browser.post(f"/house/{small_house.pk}/window/{window.ident}/remove/")
    pages = browser.get(f"/house/{small_house.pk}/along/").json()["pages"]
    assert not any(window.ident in page for page in pages)


def test_a_house_that_is_not_there_cannot_be_taken_along(browser):
    assert browser.get("/house/nowhere/along/").status_code == 404
