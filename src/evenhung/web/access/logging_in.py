"""Logging in, slowly for whoever guesses: failures are counted by address and in all."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from django.contrib.auth import authenticate
from django.utils import timezone

from evenhung.web.access.models import FailedLogIn, Person

if TYPE_CHECKING:
    from django.http import HttpRequest

WINDOW = timedelta(minutes=15)
MOST_BY_ADDRESS, MOST_IN_ALL = 8, 60
"""Failures within the window; then nobody from there, or nobody at all, may try."""


def may_try(address: str) -> bool:
    """Tell whether another log-in may be tried from an address now."""
    now = timezone.now()
    recent = FailedLogIn.objects.filter(when__gt=now - WINDOW, when__lte=now + WINDOW)
    return recent.filter(address=address).count() < MOST_BY_ADDRESS and recent.count() < MOST_IN_ALL


def known_person(request: HttpRequest, name: str, passphrase: str) -> Person | None:
    """Give the person of a name and passphrase; None counts as a failure of the address."""
    person = authenticate(request, username=name, password=passphrase)
    if isinstance(person, Person):
        return person
    now = timezone.now()
    FailedLogIn.objects.exclude(when__gt=now - 4 * WINDOW, when__lte=now + 4 * WINDOW).delete()
    FailedLogIn.objects.create(address=request.META.get("REMOTE_ADDR", "")[:64], when=now)
    return None
