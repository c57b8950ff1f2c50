"""A server that is shared: people with passphrases, and clients over TLS."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.conf import settings
from django.test import Client, override_settings

from evenhung.store.parts import new_id
from evenhung.web.access.models import FailedLogIn
from evenhung.web.access.people import add_person

PASSPHRASE = "oak sill and iron weight"  # noqa: S105 opens nothing but these tests


@pytest.fixture
def shared():
    """Let the app behave as one that is shared on the network."""
    FailedLogIn.objects.all().delete()
    config = replace(settings.CONFIG, is_shared=True, hosts=("192.0.2.7",))
    with override_settings(
        CONFIG=config,
        ALLOWED_HOSTS=["192.0.2.7"],
        SECURE_SSL_REDIRECT=True,
        SESSION_COOKIE_SECURE=True,
        CSRF_COOKIE_SECURE=True,
        PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"],  # quick to reckon
    ):
        yield


class Phone(Client):
    """A browser on the network, over TLS."""

    def __init__(self, **options):
        options.setdefault("raise_request_exception", False)
        super().__init__(headers={"host": "192.0.2.7"}, **options)

    def generic(self, *args, **kwargs):
        return super().generic(*args, **{**kwargs, "secure": True})


@pytest.fixture
def phone(shared):
    """Give a phone on which nobody has logged in."""
    del shared
    return Phone()


@pytest.fixture
def logged_in(shared):
    """Gives ``logged_in(role)``: a phone on which someone of that role has logged in."""
    del shared

    def log_in(role):
        person = add_person(f"{role} {new_id()}", role, PASSPHRASE)
        phone = Phone()
        answer = phone.post("/log-in/", {"name": person.name, "passphrase": PASSPHRASE})
        assert answer.status_code == 302
        phone.person = person
        return phone

    return log_in
