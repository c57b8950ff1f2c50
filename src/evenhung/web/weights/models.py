"""One run of the solver: who asked for it, on which state of the house, how it stands."""

from __future__ import annotations

import json
from typing import Any

from django.db import models

from evenhung.web.records.models import House


class Solve(models.Model):
    """An allotment being worked out, or its answer; a thing of the day, not a record."""

    RUNNING, DONE, FAILED, LOST = "running", "done", "failed", "lost"

    house = models.ForeignKey(House, models.CASCADE, related_name="solves")
    change = models.PositiveIntegerField()
    """The number of the change that the house stood at: an answer is to that survey."""
    state = models.CharField(max_length=10, default=RUNNING)
    who = models.CharField(max_length=200)
    started = models.DateTimeField()
    ended = models.DateTimeField(null=True)
    process = models.PositiveIntegerField(null=True)
    says = models.TextField(blank=True)
    """The last line of its progress, or why it failed."""
    text = models.TextField(blank=True)
    """The answer, as ``evenhung allot --json`` prints it."""

    class Meta:
        """One at a time, in the whole app: the database sees to it."""

        ordering = ("-id",)
        constraints = (
            models.UniqueConstraint(
                fields=["state"], condition=models.Q(state="running"), name="one_solve_at_a_time"
            ),
        )

    @property
    def answer(self) -> dict[str, Any] | None:
        """The answer as plain data; None until there is one."""
        return json.loads(self.text) if self.text else None
