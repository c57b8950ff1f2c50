"""At the window there is no signal: the server is gone, and a person goes on."""

from __future__ import annotations

import pytest

PHONE = {"width": 390, "height": 844}


@pytest.fixture
def own(server_on, tmp_path):
    """Give a server of this test's own, for it will be killed."""
    server = server_on(tmp_path / "data").start()
    yield server
    if server.process.poll() is None:
        server.kill()


@pytest.fixture
def phone(chromium, own):
    context = chromium.new_context(viewport=PHONE, base_url=own.address)
    context.set_default_timeout(10_000)
    yield context.new_page()
    context.close()


def test_a_house_taken_along_is_surveyed_without_a_connection(phone, own):
    phone.goto("/")
    phone.get_by_role("button", name="Open the demo house").click()
    phone.wait_for_url("**/house/*/")
    house = phone.url
    phone.get_by_role("button", name="Take along").click()
    done = phone.get_by_text("Taken along, for where there is no signal:")
    done.wait_for(timeout=40_000)  # a hundred pages, one after another
    own.kill()

    phone.goto(house)
    told = phone.locator("#told")
    told.wait_for()
    assert told.inner_text().startswith("No connection: this page is as it was seen ")
    phone.get_by_role("link", name="W2", exact=False).first.click()
    phone.wait_for_url("**/window/*/")
    assert phone.locator("svg.elevation").is_visible()
    phone.get_by_role("link", name="Lower sash", exact=True).click()
    weighed = phone.get_by_label("weighed", exact=True)
    weighed.fill("23 lb 2 oz")
    phone.get_by_role("button", name="Save").click()
    phone.get_by_role("heading", name="No connection").wait_for()
    assert "This was not saved" in phone.locator("main").inner_text()
    phone.get_by_role("link", name="Back to what I typed").click()
    phone.get_by_role("button", name="Take it up again").click()
    assert weighed.input_value() == "23 lb 2 oz"

    port = own.address.rpartition(":")[2]
    own.start("--port", port)
    phone.get_by_role("button", name="Save").click()
    phone.wait_for_url("**/window/*/*")
    assert "23 lb 2 oz" in phone.locator("main").inner_text()


def test_a_page_that_was_never_looked_at_says_so(phone, own):
    phone.goto("/")
    assert phone.evaluate("navigator.serviceWorker.ready.then(() => true)")
    phone.goto("/")  # the worker looks after the pages that are opened once it is there
    own.kill()
    phone.goto("/house/never-seen/")
    assert "was not looked at on this device" in phone.locator("main").inner_text()


def test_a_device_that_keeps_no_more_still_shows_every_page(phone, own):
    """The browser's own limit for this address is set to a byte: each copy is really refused."""
    said = []
    phone.context.on("console", lambda line: said.append(line.text))
    phone.goto("/")
    assert phone.evaluate("navigator.serviceWorker.ready.then(() => true)")
    full = {"origin": own.address, "quotaSize": 1}
    phone.context.new_cdp_session(phone).send("Storage.overrideQuotaForOrigin", full)

    phone.goto("/")
    phone.get_by_role("button", name="Open the demo house").click()
    phone.wait_for_url("**/house/*/")
    assert phone.get_by_role("heading", name="Tollgate House").is_visible()
    assert phone.evaluate("getComputedStyle(document.body).marginTop") == "0px"  # it has its look
    assert any(line.startswith("evenhung: this device does not keep a page") for line in said)

    phone.get_by_role("button", name="Take along").click()
    phone.get_by_text("This device keeps no more; taken along: 0/").wait_for()
    assert phone.get_by_role("button", name="Take along").is_enabled()


def test_taking_along_where_there_is_no_signal_can_be_tried_again(phone, own):
    phone.goto("/")
    assert phone.evaluate("navigator.serviceWorker.ready.then(() => true)")
    phone.get_by_role("button", name="Open the demo house").click()
    phone.wait_for_url("**/house/*/")
    button = phone.get_by_role("button", name="Take along")
    button.wait_for()
    own.kill()
    button.click()
    phone.get_by_text("The connection was lost; taken along: 0").wait_for()
    assert button.is_enabled()


def test_being_sent_to_log_in_takes_what_was_kept_off_the_device(phone, own):
    phone.goto("/")
    assert phone.evaluate("navigator.serviceWorker.ready.then(() => true)")
    phone.goto("/")
    kept = (
        "(async () => (await (await caches.open('evenhung-kept')).keys()).map((one) => one.url))()"
    )
    assert f"{own.address}/" in phone.evaluate(kept)
    phone.goto("/log-in/")
    left = [one for one in phone.evaluate(kept) if "/static/" not in one]
    assert sorted(left) == [f"{own.address}/away/not-saved/", f"{own.address}/away/not-seen/"]
