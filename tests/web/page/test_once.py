"""A form that is pressed twice, or sent again since its answer was lost, is done once."""

from __future__ import annotations

import errno
import os
import re
import threading
import time

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client

from evenhung.web.page.once import KEPT_S
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.models import Change, House


@pytest.fixture
def person():
    """Give a client whose forms are told apart as a browser's are."""
    return Client(
        headers={"host": "localhost"}, enforce_csrf_checks=True, raise_request_exception=False
    )


def mark_of(answer):
    return re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', answer.text)[1]


def hours_booked(house):
    return [part.body["hours"] for part in standing_parts(house) if part.key.kind == "booked"]


@pytest.fixture
def booking(small_house, person):
    """Give where hours are booked, and a filled-in form as one showing of that page has it."""
    where = f"/house/{small_house.pk}/price/booked/new/"
    shown = person.get(where)
    (window,) = (one.key.ident for one in standing_parts(small_house) if one.key.kind == "window")
    typed = {"window": window, "operation": "free a sash", "hours": "2"}
    fields = {f"field.{name}": text for name, text in typed.items()}
    return where, {"csrfmiddlewaretoken": mark_of(shown), "base": "0", **fields}


def test_hours_booked_by_two_presses_are_booked_once(person, booking, small_house):
    where, typed = booking
    first, second = person.post(where, typed), person.post(where, typed)
    assert first.status_code == second.status_code == 302
    assert first["Location"] == second["Location"]
    assert hours_booked(small_house) == [2]


def test_what_was_changed_before_it_was_sent_again_is_saved(person, booking, small_house):
    where, typed = booking
    person.post(where, typed)
    person.post(where, {**typed, "field.hours": "3"})
    assert hours_booked(small_house) == [2, 3]


def test_the_same_hours_from_another_showing_of_the_page_are_other_hours(
    person, booking, small_house
):
    where, typed = booking
    person.post(where, typed)
    person.post(where, {**typed, "csrfmiddlewaretoken": mark_of(person.get(where))})
    assert hours_booked(small_house) == [2, 2]


def test_a_draft_brings_the_mark_of_the_page_that_it_was_typed_on(person, booking, small_house):
    """The answer was lost, and what was typed is sent again from a page that was shown later."""
    where, typed = booking
    person.post(where, typed)
    later = {**typed, "csrfmiddlewaretoken": mark_of(person.get(where))}
    person.post(where, {**later, "mark": typed["csrfmiddlewaretoken"]})
    assert hours_booked(small_house) == [2]


def test_what_was_refused_can_be_sent_again(person, booking, small_house):
    where, typed = booking
    refused = {**typed, "field.hours": "many"}
    assert [person.post(where, refused).status_code for _ in range(2)] == [422, 422]
    assert hours_booked(small_house) == []


def test_two_presses_at_one_moment_begin_one_house(person, monkeypatch):
    """The second comes while the first is being done: it waits, and is led where that leads."""
    from evenhung.web.houses import views

    begin, begun = views.begin, threading.Event()

    def slowly(*arguments, **named):
        begun.set()
        time.sleep(0.3)
        return begin(*arguments, **named)

    monkeypatch.setattr(views, "begin", slowly)
    typed = {"csrfmiddlewaretoken": mark_of(person.get("/")), "name": "Pressed Twice"}
    answers = []

    def press_first():
        answers.append(person.post("/new/", typed))
        connection.close()  # a thread has one of its own

    press = threading.Thread(target=press_first)
    before = House.objects.count()
    press.start()
    assert begun.wait(5)
    answers.append(person.post("/new/", typed))
    press.join()
    assert len({answer["Location"] for answer in answers}) == 1
    assert House.objects.count() == before + 1


def test_files_are_read_whole_and_tell_one_form_from_another(person):
    mark = mark_of(person.get("/"))

    def bring(name):
        data = f'form = 1\nhouse = {{ name = "{name}" }}\n'.encode()
        sent = {"csrfmiddlewaretoken": mark, "file": SimpleUploadedFile("house.toml", data)}
        return person.post("/bring/", sent)["Location"]

    first = bring("Elder Row")
    assert bring("Elder Row") == first
    assert bring("Maple Row") != first


def test_what_is_done_is_answered_for_where_it_cannot_be_kept(
    person, booking, small_house, monkeypatch, caplog
):
    def full(*_arguments):
        raise OSError(errno.ENOSPC, "No space left on device")

    where, typed = booking
    monkeypatch.setattr("evenhung.web.page.once.os.pwrite", full)
    assert person.post(where, typed).status_code == 302
    assert hours_booked(small_house) == [2]
    assert "where a form led is not kept" in caplog.text


def test_an_undo_pressed_twice_takes_back_one_change(person, booking, small_house):
    where, typed = booking
    person.post(where, typed)
    number = Change.objects.filter(house=small_house).count()
    mark = mark_of(person.get(f"/house/{small_house.pk}/history/"))
    for _ in range(2):
        person.post(f"/house/{small_house.pk}/undo/{number}/", {"csrfmiddlewaretoken": mark})
    assert Change.objects.filter(house=small_house).count() == number + 1


def test_where_a_form_led_is_kept_for_a_day(person, booking, data_folder):
    where, typed = booking
    person.post(where, typed)
    kept = set((data_folder / "once").iterdir())
    old = next(iter(kept))
    a_day_ago = time.time() - KEPT_S - 1.0
    os.utime(old, (a_day_ago, a_day_ago))
    person.post(where, {**typed, "field.hours": "4"})
    assert old not in set((data_folder / "once").iterdir())
    assert all(file.stat().st_mode & 0o077 == 0 for file in (data_folder / "once").iterdir())
