"""One run of the solver: who asked for it, on which state of the house, how it stands."""

from __future__ import annotations

import json
from functools import cached_property
from typing import Any

from django.db import models
from django.utils import timezone

from evenhung.web.records.models import House


class Run(models.Model):
    """An allotment being worked out, or its answer; a thing of the day, not a record."""

    RUNNING, DONE, FAILED, LOST = "running", "done", "failed", "lost"

    house = models.ForeignKey(House, models.CASCADE, related_name="allotments")
    change = models.PositiveIntegerField()
    """The number of the change that the house stood at: an answer is to that survey."""
    names_text = models.TextField()
    """What the sashes and weights of that survey were called, and the ids they keep."""
    seconds = models.PositiveIntegerField(null=True)
    """How long it may take; without it, as long as the effort takes."""
    who = models.CharField(max_length=200)
    started = models.DateTimeField()
    ended = models.DateTimeField(null=True)
    state = models.CharField(max_length=10, default=RUNNING)
    watcher = models.PositiveIntegerField()
    """The process that watches the solver and keeps its answer."""
    is_stopping = models.BooleanField(default=False)
    """Whether somebody has asked for the best so far."""
    gap_pct = models.FloatField(null=True)
    """How far the answer so far is from what is proved; unknown before there is one."""
    reason = models.TextField(blank=True)
    """Why it failed."""
    answer_text = models.TextField(blank=True)
    """The answer, as ``evenhung allot --json`` prints it."""

    class Meta:
        """One at a time in the whole data folder: the database sees to it."""

        ordering = ("-id",)
        constraints = (
            models.UniqueConstraint(
                fields=["state"], condition=models.Q(state="running"), name="one_run_at_a_time"
            ),
        )

    @property
    def is_running(self) -> bool:
        """True until it has ended, one way or another."""
        return self.state == self.RUNNING

    @cached_property
    def answer(self) -> dict[str, Any] | None:
        """The answer as plain data; None until there is one."""
        return json.loads(self.answer_text) if self.answer_text else None

    @cached_property
    def names(self) -> dict[str, dict[str, str]]:
        """The ids of ``sashes`` and ``weights`` by the names that the answer uses."""
        found: dict[str, dict[str, str]] = json.loads(self.names_text)
        return found

    @property
    def lasted_s(self) -> int:
        """How long it has taken, so far or in all [s]."""
        return max(0, round(((self.ended or timezone.now()) - self.started).total_seconds()))

    @property
    def near_pct(self) -> float:
        """How near the answer so far is to what is proved; nothing before there is one."""
        return max(0.0, 100.0 - (100.0 if self.gap_pct is None else self.gap_pct))

    @property
    def asked(self) -> int:
        """How many sashes took part in the answer."""
        answer = self.answer or {"sashes": (), "unserved": ()}
        return len(answer["sashes"]) + len([one for one in answer["unserved"] if one["asked"]])

    @property
    def unproved(self) -> float:
        """How much better another answer could be for all that is proved, in the house's money."""
        answer = self.answer or {"cost": 0.0, "bound": 0.0}
        return max(0.0, float(answer["cost"]) - float(answer["bound"]))
