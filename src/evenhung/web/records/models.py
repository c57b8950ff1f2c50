"""Houses, their parts, and every revision of each: rows that are only ever added.

The survey of a house is the latest revision of each of its parts. Triggers in the database refuse
to change or delete a revision or a change, whoever asks (see the second migration).
"""

from __future__ import annotations

import json
from typing import Any

from django.db import models

from evenhung.store.parts import Key, new_id


class House(models.Model):
    """A house: what its parts and its changes belong to. Its name is in its part ``house``."""

    id = models.CharField(primary_key=True, max_length=32, default=new_id, editable=False)
    is_put_away = models.BooleanField(default=False)
    """Left out of the list of houses; nothing of it is lost."""


class Change(models.Model):
    """One save: who, when, and in words what; it may touch several parts."""

    house = models.ForeignKey(House, models.PROTECT, related_name="changes")
    number = models.PositiveIntegerField()
    """Counted in each house from 1: the order of changes, whatever the clocks said."""
    who = models.CharField(max_length=200)
    when = models.DateTimeField()
    summary = models.TextField()
    undoes = models.ForeignKey("self", models.PROTECT, null=True, related_name="undone_by")

    class Meta:
        """One change of each number; in the order they were made."""

        constraints = (models.UniqueConstraint("house", "number", name="change_number"),)
        ordering = ("house", "number")


class Part(models.Model):
    """One part of a house, through all its revisions."""

    house = models.ForeignKey(House, models.PROTECT, related_name="parts")
    kind = models.CharField(max_length=40)
    ident = models.CharField(max_length=200, blank=True)
    """The id it has in the survey; empty where there is one of its kind."""
    latest = models.ForeignKey("Revision", models.PROTECT, null=True, related_name="+")

    class Meta:
        """One part of each name."""

        constraints = (models.UniqueConstraint("house", "kind", "ident", name="part_key"),)

    @property
    def key(self) -> Key:
        """What names it in its house."""
        return Key(self.kind, self.ident)


class Revision(models.Model):
    """What one part was from one change on."""

    part = models.ForeignKey(Part, models.PROTECT, related_name="revisions")
    number = models.PositiveIntegerField()
    """Counted in each part from 1."""
    parent = models.ForeignKey("self", models.PROTECT, null=True, related_name="+")
    change = models.ForeignKey(Change, models.PROTECT, related_name="revisions")
    place = models.FloatField()
    """Where it stands among the parts of its kind: lower ones first."""
    text = models.TextField(blank=True)
    """Its plain data in JSON, keys in the order they were typed; empty from where it is removed."""

    class Meta:
        """One revision of each number; two savers cannot both have made the next one."""

        constraints = (models.UniqueConstraint("part", "number", name="revision_number"),)
        ordering = ("part", "number")

    @property
    def body(self) -> dict[str, Any] | None:
        """Its plain data; None where the part was removed."""
        return json.loads(self.text) if self.text else None


def written(body: dict[str, Any] | None) -> str:
    """Write plain data as a revision keeps it."""
    return "" if body is None else json.dumps(body, ensure_ascii=False, separators=(",", ":"))
