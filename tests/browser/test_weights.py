"""The weights of a house, from a loose one found in the cellar to an allotment that is undone."""

from __future__ import annotations

import re

import pytest

from .conftest import DESK, PHONE

OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
LONGEST_MS = 60_000


def work_out(page):
    page.get_by_role("button", name=re.compile("^Work it out")).click()
    page.get_by_text("Working it out.").wait_for()
    page.get_by_text("sashes hang true.").wait_for(timeout=LONGEST_MS)


def add_loose(page, tag, weighed):
    page.get_by_role("link", name="Add a loose weight").click()
    page.locator('[name="field.tag"]').fill(tag)
    page.locator('[name="field.weighed"]').fill(weighed)
    page.get_by_text(re.compile(f"{weighed} = ")).wait_for()
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("#told", has_text="Saved.").wait_for()


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_from_a_loose_weight_to_an_allotment_accepted_and_undone(
    open_page, demo, faults_of_access, size
):
    page = open_page(size)
    house = demo(page)
    page.get_by_role("link", name="Weights", exact=True).click()
    add_loose(page, "cellar", "9 lb 4 oz")
    page.get_by_label("Which").select_option("loose")
    page.get_by_text("3 of 24 weights").wait_for()
    assert page.get_by_role("link", name="cellar").is_visible()
    page.get_by_role("link", name="Which hangs where").click()
    work_out(page)
    assert page.get_by_text("Proved: no other use of the weights is better.").is_visible()
    assert page.evaluate(OVERFLOW) <= 0
    first = page.get_by_role("checkbox").first
    first.check()
    page.reload()
    assert first.is_checked()  # it is kept in the browser
    page.get_by_role("button", name="Accept all of it").click()
    page.get_by_text("held here").first.wait_for()
    page.locator("summary", has_text="weights held").click()
    assert page.get_by_role("button", name=re.compile("^Withdraw: ")).count() > 10
    page.locator("summary", has_text="Decide").first.click()
    assert faults_of_access(page) == []
    page.goto(house)
    assert page.get_by_text("allotment accepted").is_visible()
    page.get_by_role("button", name="Undo").click()
    page.goto(f"{house}allotment/")
    assert not page.get_by_text("held here").first.is_visible()


def test_a_side_is_hung_on_a_phone(open_page, demo, faults_of_access):
    page = open_page(PHONE)
    page.goto(f"{demo(page)}allotment/")
    work_out(page)
    page.locator("summary", has_text="Decide").first.click()
    page.get_by_role("link", name="It is hung").first.click()
    page.get_by_role("heading", name=re.compile("is hung$")).wait_for()
    assert faults_of_access(page) == []
    page.locator('[name="field.by"]').fill("Ann")
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("#told", has_text="Saved.").wait_for()
    mark = page.locator(".mark").first
    assert re.fullmatch(r"hung \d{4}-\d{2}-\d{2}, Ann", mark.inner_text())


def test_a_list_is_narrowed_without_a_script_too(open_page, demo):
    page = open_page(DESK, java_script_enabled=False)
    page.goto(f"{demo(page)}weights/")
    page.get_by_label("Look for").fill("w3 upper")
    page.get_by_role("button", name="Show").click()
    assert page.get_by_text("2 of 23 weights").is_visible()


def test_a_run_is_lost_with_its_server_and_said_to_be(chromium, server_on, tmp_path, demo):
    server = server_on(tmp_path / "data").start()
    context = chromium.new_context(viewport=DESK, base_url=server.address)
    page = context.new_page()
    address = f"{demo(page)}allotment/"
    page.goto(address)
    page.get_by_role("button", name="Work it out").click()
    page.get_by_text("Working it out.").wait_for()
    server.kill()
    server.start()
    page.goto(address)
    page.get_by_text("The last run was lost").wait_for()
    work_out(page)
    context.close()
    server.kill()
