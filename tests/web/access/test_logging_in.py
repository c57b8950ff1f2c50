"""Logging in: passphrases hashed, guesses slowed, cookies closed, nothing told in logs."""

from __future__ import annotations

import logging
from datetime import timedelta

import pytest
from django.contrib.auth.hashers import get_hasher
from django.test import Client
from django.utils import timezone

from evenhung.errors import InvalidSetting
from evenhung.store.parts import new_id
from evenhung.web.access.logging_in import MOST_BY_ADDRESS
from evenhung.web.access.models import FailedLogIn, Person
from evenhung.web.access.people import add_person

from .conftest import PASSPHRASE, Phone


@pytest.fixture
def person(shared):
    del shared
    return add_person(f"Ann {new_id()}", Person.JOINER, PASSPHRASE)


def test_a_passphrase_is_kept_as_a_slow_hash():
    person = add_person(f"Ann {new_id()}", Person.JOINER, PASSPHRASE)
    assert PASSPHRASE not in person.password
    assert person.check_password(PASSPHRASE)
    hasher = get_hasher()
    assert (hasher.algorithm, hasher.iterations >= 600_000) == ("pbkdf2_sha256", True)


@pytest.mark.parametrize("passphrase", ["", "short", "password1234"])
def test_one_that_is_easy_to_guess_is_refused(passphrase):
    with pytest.raises(InvalidSetting, match=r"passphrase: \(not shown\)"):
        add_person(f"Ann {new_id()}", Person.JOINER, passphrase)


def test_two_people_have_two_names(person):
    with pytest.raises(InvalidSetting, match="a name that nobody else has"):
        add_person(person.name.upper(), Person.JOINER, PASSPHRASE)


def test_guesses_are_slowed_even_when_right_at_last(phone, person):
    wrong = {"name": person.name, "passphrase": "wrong"}
    answers = [phone.post("/log-in/", wrong).status_code for _ in range(MOST_BY_ADDRESS + 1)]
    assert answers == [422] * MOST_BY_ADDRESS + [429]
    right = {"name": person.name, "passphrase": PASSPHRASE}
    assert phone.post("/log-in/", right).status_code == 429
    FailedLogIn.objects.all().delete()
    assert phone.post("/log-in/", right).status_code == 302


def test_a_clock_set_back_shuts_nobody_out_for_good(phone, person):
    now = timezone.now()
    FailedLogIn.objects.bulk_create(
        FailedLogIn(address="127.0.0.1", when=now + timedelta(days=2)) for _ in range(50)
    )
    right = {"name": person.name, "passphrase": PASSPHRASE}
    assert phone.post("/log-in/", right).status_code == 302


def test_the_cookies_are_for_us_alone(phone, person):
    phone.post("/log-in/", {"name": person.name, "passphrase": PASSPHRASE})
    cookie = phone.cookies["evenhung-session"]
    assert (cookie["secure"], cookie["httponly"], cookie["samesite"]) == (True, True, "Strict")


def test_another_site_is_not_gone_on_to(phone, person):
    typed = {"name": person.name, "passphrase": PASSPHRASE, "next": "https://evil.example/"}
    assert phone.post("/log-in/", typed).headers["Location"] == "/"


@pytest.mark.usefixtures("shared")
def test_a_form_that_is_not_ours_is_refused():
    strict = Phone(enforce_csrf_checks=True)
    answer = strict.post("/log-in/", {"name": "a", "passphrase": "b"})
    assert answer.status_code == 403
    assert "open for too long" in answer.text


def test_nor_is_one_on_the_machine_itself(small_house):
    alone = Client(headers={"host": "localhost"}, enforce_csrf_checks=True)
    assert alone.post(f"/house/{small_house.pk}/undo/1/").status_code == 403


@pytest.mark.usefixtures("shared")
def test_plain_http_is_turned_away():
    answer = Client(headers={"host": "192.0.2.7"}).get("/log-in/")
    assert answer.headers["Location"].startswith("https://")


def test_no_secret_gets_into_a_log(phone, person, caplog):
    caplog.set_level(logging.DEBUG)
    phone.post("/log-in/", {"name": person.name, "passphrase": "my secret guess"})
    phone.post("/visit/", {"token": "my secret link"})
    assert "my secret" not in caplog.text
