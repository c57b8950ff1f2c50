"""People with a passphrase, links for visitors, and the log-ins that failed."""

from __future__ import annotations

import hashlib
import secrets

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models

from evenhung.web.records.models import House


class Person(AbstractBaseUser):
    """Someone who works on the houses: the keeper who runs the server, or a joiner."""

    KEEPER, JOINER = "keeper", "joiner"

    name = models.CharField(max_length=80, unique=True)
    role = models.CharField(max_length=10)
    is_active = models.BooleanField(default=True)

    objects = BaseUserManager["Person"]()

    USERNAME_FIELD = "name"


class VisitorLink(models.Model):
    """A link by which someone without a passphrase may read one house, until it is revoked.

    The link itself is not kept, only its checksum: whoever reads the database cannot use it.
    """

    house = models.ForeignKey(House, models.CASCADE, related_name="visitor_links")
    visitor = models.CharField(max_length=80)
    checksum = models.CharField(max_length=64, unique=True)
    made_by = models.CharField(max_length=80)
    made = models.DateTimeField()
    revoked = models.DateTimeField(null=True)
    last_used = models.DateTimeField(null=True)


class FailedLogIn(models.Model):
    """One log-in that failed, kept for as long as it counts."""

    address = models.CharField(max_length=64)
    when = models.DateTimeField(db_index=True)


def new_token() -> str:
    """Make the secret of a link: 192 random bits."""
    return secrets.token_urlsafe(24)


def checksum_of(token: str) -> str:
    """Give the checksum that a link is kept and found by."""
    return hashlib.sha256(token.encode()).hexdigest()
