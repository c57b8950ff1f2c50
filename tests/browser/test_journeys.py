"""The journeys of a day: a house surveyed, two who edit, a connection lost, a visitor."""

from __future__ import annotations

import os
import re
import subprocess
import sys

from PIL import Image

from .conftest import DESK, PHONE

BOX = {
    "tag": "W1",
    "room": "Parlour",
    "box.clear_width": "860 mm",
    "box.clear_height": "5 ft 5 in",
    "box.weight_space": "1545 mm",
    "box.pulley_drop": "90 mm",
    "pulley.wheel": "1 3/4 in",
}
SASH = {
    "lower.height": "33 in",
    "lower.width": "857 mm",
    "lower.cord_end": "260 mm",
    "lower.weighed": "11 lb 4 oz",
}

WATCH_FOR_SHIFTS = """
window.moved = [];
new PerformanceObserver((list) => window.moved.push(...list.getEntries()))
  .observe({ type: "layout-shift", buffered: true });
"""
"""A script that takes down whatever slides to another place without being asked to."""


def fill(page, fields):
    for path, text in fields.items():
        page.locator(f'[name="field.{path}"]').fill(text)


def wait_until_saved(page):
    page.locator("#told", has_text="Saved.").wait_for()
    page.wait_for_url(lambda url: "saved=" not in url)  # its scripts have run


def save(page):
    page.get_by_role("button", name="Save", exact=True).click()


def edit(page, section, fields):
    page.get_by_role("link", name=section, exact=True).click()
    fill(page, fields)
    save(page)
    wait_until_saved(page)


def begin_house(page, name):
    page.goto("/")
    page.get_by_label("Its name").fill(name)
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("link", name="Add a window").click()
    fill(page, BOX)
    save(page)
    wait_until_saved(page)


def weigh(page, tag, masses):
    """Weigh what is left of a window, one thing after another, with the keyboard alone."""
    for what, mass in masses.items():
        label = f"{tag}: lower sash{what}"
        page.get_by_label(label, exact=True).wait_for()
        page.keyboard.type(mass)
        page.keyboard.press("Enter")
        wait_until_saved(page)


def test_a_house_from_the_first_window_to_the_file(open_page, tmp_path):
    page = open_page(PHONE)
    begin_house(page, "Ferry Row")
    sizes = {name: text for name, text in SASH.items() if not name.endswith("weighed")}
    edit(page, "Lower sash", sizes)
    for side in ("left", "right"):
        weight = {f"lower.{side}.length": "12 in", f"lower.{side}.diameter": "1 1/2 in"}
        edit(page, f"Lower sash, {side} weight", weight)
    page.get_by_role("link", name="Ferry Row").click()
    page.get_by_role("link", name="Add a window").click()
    page.get_by_label("Begin with the sizes of").select_option("W1")
    page.get_by_role("button", name="Fill in its sizes").click()
    fill(page, {"tag": "W2", "room": "Hall"})
    save(page)
    wait_until_saved(page)
    page.get_by_role("link", name="Ferry Row").click()
    page.get_by_role("link", name="Weigh-in").click()
    weigh(page, "W1", {"": "11 lb 4", ", left weight": "5 lb", ", right weight": "5 lb"})
    weigh(page, "W2", {"": "11 lb 4", ", left weight": "4 lb", ", right weight": "4 lb 1/2 oz"})
    page.get_by_text("Everything in this house has been weighed").wait_for()
    assert page.get_by_role("heading", name="W2 lower: adjust").is_visible()
    page.get_by_role("link", name="Ferry Row").click()
    assert page.locator(".tally > div").all_inner_texts() == ["hangs true\n1", "adjust\n1"]
    page.get_by_role("link", name="Weights", exact=True).click()
    page.get_by_role("link", name="Which hangs where").click()
    page.get_by_role("button", name="Work it out").click()
    page.get_by_role("heading", name=re.compile("In this order|Not served")).first.wait_for()
    page.get_by_role("link", name="Ferry Row").click()
    with page.expect_download() as download:
        page.get_by_role("link", name="Take out as a file").click()
    taken = tmp_path / "house.zip"
    download.value.save_as(taken)
    first = page.request.get(f"{page.url}survey.toml").body()
    page.goto("/")
    page.get_by_label("A survey").set_input_files(taken)
    page.get_by_role("button", name="Bring it in").click()
    page.wait_for_url("**/house/*/")
    assert page.request.get(f"{page.url}survey.toml").body() == first


def test_the_sash_is_opened_on_the_page_and_its_weight_moves(open_page, demo):
    page = open_page()
    demo(page)
    page.get_by_role("link", name="W2").click()
    weight = page.locator("#section [data-shift-per-mm]").first
    page.get_by_role("slider").wait_for()
    before = weight.get_attribute("transform")
    page.get_by_role("slider").focus()
    for _ in range(5):
        page.keyboard.press("ArrowRight")
    page.wait_for_timeout(700)
    after = weight.get_attribute("transform")
    assert before != after
    page.get_by_role("link", name="Upper, left").click()
    page.get_by_role("link", name="Upper, left", exact=True).and_(
        page.locator("[aria-current]")
    ).wait_for()
    page.get_by_role("slider").wait_for()
    page.locator("svg.elevation a.part").nth(3).click()
    page.get_by_role("button", name="Save", exact=True).wait_for()


def test_what_is_typed_is_echoed_and_refused_beside_its_field(open_page):
    page = open_page()
    begin_house(page, "Echo House")
    page.get_by_role("link", name="Box", exact=True).click()
    width = page.locator('[name="field.box.clear_width"]')
    width.fill("2 ft 9 1/2 in")
    page.get_by_text("2 ft 9 1/2 in = 851 mm").wait_for()
    width.fill("86 mm")
    page.get_by_text("a length from 150 mm to 3 m").wait_for()
    save(page)
    assert width.input_value() == "86 mm"
    assert width.get_attribute("aria-invalid") == "true"


def test_two_who_edit_one_weight_settle_it_field_by_field(open_page):
    ann, ben = open_page(), open_page(PHONE)
    begin_house(ann, "Two Tabs")
    edit(ann, "Lower sash", SASH)
    edit(ann, "Lower sash, left weight", {"lower.left.weighed": "5 lb"})
    ann.get_by_role("link", name="Lower sash, left weight").click()
    ben.goto(ann.url)
    fill(ben, {"lower.left.weighed": "6 lb", "lower.left.marked": "6"})
    save(ben)
    wait_until_saved(ben)
    fill(ann, {"lower.left.weighed": "7 lb", "lower.left.note": "chipped"})
    save(ann)
    ann.get_by_role("heading", name="Two versions").wait_for()
    ann.get_by_label("6 lb").check()
    ann.get_by_role("button", name="Save what I chose").click()
    wait_until_saved(ann)
    ann.get_by_role("link", name="Lower sash, left weight").click()
    values = {
        name: ann.locator(f'[name="field.lower.left.{name}"]').input_value()
        for name in ("weighed", "marked", "note")
    }
    assert values == {"weighed": "6 lb", "marked": "6", "note": "chipped"}


def test_a_draft_outlives_a_reload_and_is_taken_up_again(open_page):
    page = open_page(PHONE)
    begin_house(page, "Draft House")
    page.get_by_role("link", name="Box", exact=True).click()
    fill(page, {"box.compartment_width": "55 mm"})
    page.reload()
    page.get_by_role("button", name="Take it up again").click()
    assert page.locator('[name="field.box.compartment_width"]').input_value() == "55 mm"
    save(page)
    wait_until_saved(page)
    page.get_by_role("link", name="Box", exact=True).click()
    assert not page.get_by_role("button", name="Take it up again").is_visible()


def test_a_draft_outlives_a_lost_connection(chromium, server_on, tmp_path):
    server = server_on(tmp_path / "data").start()
    context = chromium.new_context(viewport=PHONE, base_url=server.address)
    page = context.new_page()
    begin_house(page, "Lost Lane")
    page.get_by_role("link", name="Box", exact=True).click()
    form = page.url
    fill(page, {"box.compartment_width": "55 mm"})
    server.kill()
    page.get_by_role("button", name="Save", exact=True).click()
    page.wait_for_timeout(300)
    server.start()
    page.goto(form)
    page.get_by_role("button", name="Take it up again").click()
    save(page)
    wait_until_saved(page)
    context.close()
    server.kill()


def test_a_press_on_save_is_not_lost_to_an_answer_that_comes_meanwhile(open_page):
    """Leaving the last field asks how it is understood; the line that answers moves no button."""
    page = open_page()
    page.goto("/")
    page.get_by_label("Its name").fill("Pressed")
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("link", name="Add a window").click()
    fill(page, BOX)
    button = page.get_by_role("button", name="Save", exact=True)
    page.wait_for_function("() => document.querySelectorAll('.answer:not(:empty)').length >= 4")
    field = page.locator('[name="field.box.clear_height"]')
    field.fill("5 ft 5 ells")
    before = button.bounding_box()
    page.mouse.move(before["x"] + before["width"] / 2, before["y"] + before["height"] / 2)
    with page.expect_response("**/understood/"):
        page.mouse.down()
    page.wait_for_timeout(100)
    assert button.bounding_box() == before
    page.mouse.up()
    page.locator(".has-fault").wait_for()


def test_an_answer_does_not_wait_for_a_release_that_is_never_told(open_page):
    page = open_page()
    begin_house(page, "Never Released")
    page.get_by_role("link", name="Never Released").click()
    page.get_by_role("link", name="Add a window").click()
    page.locator("body").dispatch_event("pointerdown")
    field = page.locator('[name="field.box.clear_height"]')
    field.fill("5 ft 5 in")
    with page.expect_response("**/understood/"):
        field.blur()
    page.locator(".answer:not(:empty)").wait_for()


def test_a_draft_taken_up_leaves_the_sizes_that_were_filled_in_meanwhile(open_page):
    """Its name was typed first, then the sizes of another window were filled in."""
    page = open_page(PHONE)
    begin_house(page, "Filled In")
    page.get_by_role("link", name="Filled In").click()
    page.get_by_role("link", name="Add a window").click()
    fill(page, {"tag": "W2"})
    page.get_by_label("Begin with the sizes of").select_option("W1")
    page.get_by_role("button", name="Fill in its sizes").click()
    page.get_by_role("button", name="Take it up again").click()
    assert page.locator('[name="field.tag"]').input_value() == "W2"
    assert page.locator('[name="field.box.clear_width"]').input_value() == "860 mm"


def test_a_field_that_was_emptied_is_empty_in_the_draft_too(open_page):
    page = open_page(PHONE)
    begin_house(page, "Emptied")
    page.get_by_role("link", name="Box", exact=True).click()
    depth = page.locator('[name="field.box.clear_height"]')
    depth.fill("")
    save(page)
    page.locator(".has-fault").wait_for()
    fill(page, {"box.compartment_width": "55 mm"})
    page.goto(page.url)
    page.get_by_role("button", name="Take it up again").click()
    assert depth.input_value() == ""
    assert page.locator('[name="field.box.compartment_width"]').input_value() == "55 mm"


def test_what_a_save_tells_pushes_nothing_away(open_page):
    """The page tells it from the start; on a slow phone a finger is down before a script comes."""
    page = open_page(PHONE)
    begin_house(page, "Still House")
    page.add_init_script(WATCH_FOR_SHIFTS)
    slow = {"offline": False, "latency": 300, "downloadThroughput": -1, "uploadThroughput": -1}
    page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", slow)
    page.get_by_role("link", name="Box", exact=True).click()
    fill(page, {"box.compartment_width": "55 mm"})
    save(page)
    page.wait_for_url("**/window/*/")  # cleared of what it told
    assert page.locator("#told").inner_text() == "Saved."
    assert page.evaluate("window.moved.map((one) => one.value)") == []


def test_photos_that_come_late_push_no_button_away(open_page, demo, tmp_path):
    page = open_page(PHONE)
    demo(page)
    page.get_by_role("link", name="W2").click()
    page.wait_for_url("**/window/*/")
    page.goto(f"{page.url}photos/")
    names = [tmp_path / f"{number}.png" for number in range(3)]
    for number, name in enumerate(names):
        Image.new("RGB", (400, 200 + 200 * number), (number, 90, 60)).save(name)
    page.get_by_label("Photos to add").set_input_files(names)
    page.get_by_role("button", name="Add", exact=True).click()
    page.locator(".card img").nth(2).wait_for()
    page.add_init_script(WATCH_FOR_SHIFTS)
    page.route("**/small.jpg", lambda route: (page.wait_for_timeout(200), route.continue_()))
    page.goto(page.url)
    page.wait_for_function("() => [...document.images].every((one) => one.complete)")
    page.wait_for_timeout(200)
    assert page.evaluate("window.moved.map((one) => one.value)") == []


def test_looking_for_a_weight_leaves_one_step_back_to_the_house(open_page, demo):
    page = open_page()
    house = demo(page)
    page.get_by_role("link", name="Weights", exact=True).click()
    for text in ("W", "W2", "W2 l"):
        with page.expect_response(lambda answer: "text=" in answer.url):
            page.get_by_label("Look for").fill(text)
    page.wait_for_url("**text=W2%20l**")
    page.go_back()
    assert page.url == house


def test_a_figure_shows_its_other_system_to_a_finger_and_to_the_keyboard(open_page, demo):
    page = open_page()
    demo(page)
    page.get_by_role("link", name="W2").click()
    figure = page.locator(".figure").first
    one, other = figure.inner_text(), figure.get_attribute("title")
    figure.click()
    assert figure.inner_text() == other
    figure.focus()
    page.keyboard.press("Enter")
    assert figure.inner_text() == one


def begin_booking(page, hours):
    """Fill in hours at the demo house, and leave saving them to the test."""
    page.get_by_role("link", name="Price", exact=True).click()
    page.get_by_role("link", name="Book hours", exact=True).first.click()
    page.get_by_label("window needed").select_option(index=2)
    page.get_by_label("operation needed").select_option("free a sash")
    page.get_by_label("hours needed").fill(hours)


def test_a_double_tap_books_hours_once(open_page, demo):
    """The line is slow, so the first press still waits for its answer when the second comes."""
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    demo(page)
    begin_booking(page, "2.75")
    button = page.get_by_role("button", name="Save", exact=True)
    slow = {"offline": False, "latency": 400, "downloadThroughput": -1, "uploadThroughput": -1}
    page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", slow)
    button.scroll_into_view_if_needed()
    place = button.bounding_box()
    for _ in range(2):
        page.touchscreen.tap(place["x"] + place["width"] / 2, place["y"] + place["height"] / 2)
        page.wait_for_timeout(120)
    wait_until_saved(page)
    page.goto(f"{page.url.partition('?')[0]}")
    assert page.get_by_text("free a sash, 2.75 h").count() == 1


def test_hours_whose_answer_was_lost_are_not_booked_again_with_the_draft(open_page, demo):
    """The server has saved them; the phone lost the signal before it could be told so."""
    page = open_page(PHONE)
    page.add_init_script("delete Navigator.prototype.serviceWorker")  # as without a certificate
    demo(page)
    begin_booking(page, "3.25")
    form = page.url

    def lose_the_answer(route):
        if route.request.method == "POST":
            route.fetch(max_redirects=0)
            route.abort("connectionreset")
        else:
            route.continue_()

    page.route(form, lose_the_answer)
    with page.expect_event("requestfailed"):
        page.get_by_role("button", name="Save", exact=True).click(no_wait_after=True)
    page.wait_for_timeout(300)  # the browser says that the page cannot be reached
    page.unroute(form)
    page.goto(form)
    page.get_by_role("button", name="Take it up again").click()
    save(page)
    wait_until_saved(page)
    assert page.get_by_text("free a sash, 3.25 h").count() == 1


def test_what_is_typed_is_still_echoed_after_a_list_took_the_release(open_page):
    """A list that opens under a press gets its release; the page is told of the press alone."""
    page = open_page()
    begin_house(page, "Released")
    page.get_by_role("link", name="Box", exact=True).click()
    page.locator("select").first.dispatch_event("pointerdown", {"buttons": 1})
    width = page.locator('[name="field.box.clear_width"]')
    width.focus()
    width.press("Control+A")
    page.keyboard.type("2 ft 9 1/2 in")
    page.get_by_text("2 ft 9 1/2 in = 851 mm").wait_for()


def test_a_draft_on_an_older_revision_is_settled_not_forced(open_page):
    """What was typed before someone else saved goes against the revision it was typed on."""
    page, other = open_page(), open_page()
    begin_house(page, "Old Draft")
    page.get_by_role("link", name="Box", exact=True).click()
    other.goto(page.url)
    fill(page, {"box.clear_width": "861 mm"})
    fill(other, {"box.clear_width": "862 mm"})
    save(other)
    wait_until_saved(other)
    page.reload()
    page.get_by_role("button", name="Take it up again").click()
    save(page)
    page.get_by_role("heading", name="Two versions").wait_for()


def test_a_visitor_sees_one_house_until_the_link_is_revoked(chromium, server_on, tmp_path):
    data = tmp_path / "data"
    begin = (
        "from evenhung.web.config import Config;"
        "from evenhung.web.database import bring_up_to_date;"
        "bring_up_to_date(Config.from_variables());"
        "from evenhung.web.access.people import add_person;"
        "add_person('Ann', 'keeper', 'oak sill and iron weight')"
    )
    server = server_on(data, EVENHUNG_DATA=str(data), EVENHUNG_HOSTS="127.0.0.1")
    variables = {**os.environ, **server.variables}
    subprocess.run([sys.executable, "-c", begin], env=variables, check=True)
    server.start("--share")
    assert server.address.startswith("https://")
    options = {"base_url": server.address, "ignore_https_errors": True}
    keeper = chromium.new_context(viewport=DESK, **options).new_page()
    keeper.goto("/")
    keeper.get_by_label("Name").fill("Ann")
    keeper.get_by_label("Passphrase").fill("oak sill and iron weight")
    keeper.get_by_role("button", name="Log in").click()
    keeper.get_by_role("button", name="Open the demo house").click()
    keeper.get_by_role("link", name="Visitors").click()
    keeper.get_by_label("Who it is for").fill("the owner")
    keeper.get_by_role("button", name="Make a link").click()
    link = keeper.locator("code").inner_text()
    visitor = chromium.new_context(viewport=PHONE, **options).new_page()
    visitor.goto(link)
    visitor.get_by_role("heading", name="Tollgate House").wait_for()
    assert "#" not in visitor.url
    assert not visitor.get_by_role("link", name="Add a window").is_visible()
    visitor.get_by_role("link", name="W2").click()
    visitor.get_by_role("heading", name=re.compile("Lower sash")).wait_for()
    keeper.get_by_role("button", name="Revoke").click()
    visitor.reload()
    visitor.get_by_role("heading", name="Log in").wait_for()
    keeper.context.close()
    visitor.context.close()
    server.kill()


LONG = "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch"


def test_a_long_name_widens_no_page(open_page):
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    page.goto("/")
    page.get_by_label("Its name").fill(LONG)
    page.get_by_role("button", name="Begin").click()
    house = page.url
    page.get_by_role("link", name="Add a window").click()
    fill(page, {**BOX, "tag": LONG[:40], "room": LONG})
    save(page)
    wait_until_saved(page)
    beneath = ("", "weigh-in/", "weights/", "price/", "programme/", "pack/", "history/", "about/")
    for address in (page.url, f"{page.url}photos/", *(house + one for one in beneath)):
        page.goto(address)
        assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"], address


def test_text_twice_as_large_still_fits_a_phone(open_page, demo):
    page = open_page(PHONE)
    house = demo(page)
    page.get_by_role("link", name="W2").click()
    page.get_by_role("slider").wait_for()
    window = page.url
    for address in (window, f"{window}edit/lower-tried/", f"{house}weigh-in/", house):
        page.goto(address)
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"], address
