"""Who may do what: by every address there is."""

from __future__ import annotations

import pytest
from django.urls import get_resolver

from evenhung.web.records.latest import standing_parts

OPEN = {"log-in", "log-out", "visit", "away-worker", "away-not-seen", "away-not-saved"}
FOR_VISITORS = {"house", "window", "photos", "photo-whole", "photo-small"}
FOR_VISITORS |= {"weights", "allotment", "standing", "price"}
NOT_THERE = {"photo-whole", "photo-small", "programme-calendar"}
"""What a house has not that has no photos, and whose programme was never worked out."""
FOR_VISITORS |= {"programme", "programme-standing", "programme-calendar"}


def patterns(resolver=None, prefix=""):
    for one in (resolver or get_resolver()).url_patterns:
        route = prefix + str(one.pattern)
        if hasattr(one, "url_patterns"):
            yield from patterns(one, route)
        else:
            yield one, route


def status(phone, address):
    answer = phone.get(address)
    answer.close()  # it may hold a file
    return answer.status_code


def addresses(house):
    """Give every address by its name, filled in for a house and its first window."""
    (window,) = (part for part in standing_parts(house) if part.key.kind == "window")
    known = {
        "<str:house>": house.pk,
        "<str:window>": window.key.ident,
        "<slug:section>": "box",
        "<int:number>": "1",
        "<int:run>": "1",
        "<slug:shelf>": "bars",
        "<str:photo>": "none",
    }
    for pattern, route in patterns():
        address = route
        for name, value in known.items():
            address = address.replace(name, value)
        yield pattern.name, "/" + address


def test_every_address_is_named_and_those_open_to_all_are_few():
    open_ones = {one.name for one, _ in patterns() if getattr(one.callback, "is_open", False)}
    assert all(one.name for one, _ in patterns())
    assert open_ones == OPEN


def test_a_stranger_is_sent_to_log_in_wherever_he_goes(phone, small_house):
    for name, address in addresses(small_house):
        if name not in OPEN:
            for answer in (phone.get(address), phone.post(address)):
                assert answer.status_code == 302, (name, answer.status_code)
                assert answer.headers["Location"].startswith("/log-in/?next=")


@pytest.mark.parametrize(
    ("page", "led_to"),
    [
        ("https://192.0.2.7/house/x/history/?before=9", "/house/x/history/%3Fbefore%3D9"),
        ("https://elsewhere.example/house/x/", "/"),
        ("", "/"),
    ],
)
def test_whose_log_in_ran_out_comes_back_to_the_page_that_was_pressed_on(phone, page, led_to):
    """An undo has an address of its own that shows nothing."""
    answer = phone.post("/house/x/undo/1/", headers={"referer": page} if page else {})
    assert answer.headers["Location"] == f"/log-in/?next={led_to}"


def test_a_joiner_may_edit_but_not_let_others_in(logged_in, small_house):
    phone = logged_in("joiner")
    found = {
        name: status(phone, address)
        for name, address in addresses(small_house)
        if name != "log-out"
    }
    assert max(found.values()) < 500, found
    refused = {name for name, one in found.items() if one == 403}
    assert refused == {"people", "person", "visitors", "revoke", "put-away"}


def visitor_of(phone, keeper, house):
    answer = keeper.post(f"/house/{house.pk}/visitors/", {"visitor": "the owner"})
    token = answer.context["address"].partition("#")[2]
    assert phone.post("/visit/", {"token": token}).status_code == 302
    return token


def test_a_visitor_reads_one_house_and_nothing_else(phone, logged_in, small_house, demo_house):
    visitor_of(phone, logged_in("keeper"), small_house)
    seen = {
        name
        for name, address in addresses(small_house)
        if name not in OPEN and status(phone, address) not in (403, 404)
    }
    assert seen == FOR_VISITORS - NOT_THERE
    assert phone.get(f"/house/{demo_house.pk}/").status_code == 403
    for page in ("", "weights/", "allotment/"):  # nothing there that would be refused
        assert 'action="/house/' not in phone.get(f"/house/{small_house.pk}/{page}").text
    for name, address in addresses(small_house):
        if name not in OPEN:
            assert phone.post(address).status_code == 403, name


def test_a_link_that_is_revoked_ends_at_once(phone, logged_in, small_house):
    keeper = logged_in("keeper")
    token = visitor_of(phone, keeper, small_house)
    page = f"/house/{small_house.pk}/"
    assert phone.get(page).status_code == 200
    link = small_house.visitor_links.get()
    assert keeper.post(f"{page}visitors/{link.pk}/revoke/").status_code == 302
    assert phone.get(page).status_code == 302
    assert phone.post("/visit/", {"token": token}).status_code == 403


def test_a_link_is_not_kept_as_it_is(logged_in, phone, small_house):
    token = visitor_of(phone, logged_in("keeper"), small_house)
    (kept,) = small_house.visitor_links.values()
    assert token not in str(kept)


def test_whoever_is_shut_out_is_out_at_once(logged_in):
    keeper, joiner = logged_in("keeper"), logged_in("joiner")
    assert joiner.get("/").status_code == 200
    keeper.post(f"/people/{joiner.person.pk}/", {"do": "shut-out"})
    assert joiner.get("/").status_code == 302


def test_another_passphrase_ends_every_log_in(logged_in):
    keeper, joiner = logged_in("keeper"), logged_in("joiner")
    keeper.post(
        f"/people/{joiner.person.pk}/",
        {"do": "passphrase", "passphrase": "another sill and weight"},
    )
    assert joiner.get("/").status_code == 302


def test_the_machine_itself_asks_nobody_while_it_is_not_shared(browser):
    answer = browser.get("/")
    assert answer.status_code == 200
    assert answer.context["access"].role == "keeper"


@pytest.mark.parametrize("host", ["evil.example", "192.0.2.9", "localhost.evil.example"])
def test_a_name_that_is_not_ours_is_refused(browser, host):
    """A page elsewhere that points its own name at this machine gets nothing."""
    assert browser.get("/", headers={"host": host}).status_code == 400
