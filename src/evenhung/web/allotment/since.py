"""What has changed in a house since its allotment was worked out."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.web.records.models import Change, Revision

if TYPE_CHECKING:
    from evenhung.web.allotment.models import Run

WITHOUT_WEIGHT = ("decision", "photo")
"""Parts whose changes leave what was surveyed as it was."""
MOST = 3


class Since(NamedTuple):
    """Changes after the one that an answer was made from."""

    surveyed: list[str]
    """Summaries of those that touch what was surveyed, the newest first; some of them."""
    is_decided: bool
    """Whether anything has been decided."""

    @property
    def is_old(self) -> bool:
        """Whether the answer is to another survey than the one that stands."""
        return bool(self.surveyed)


def since(run: Run) -> Since:
    """Give what has changed since a run was begun."""
    later = Revision.objects.filter(change__house=run.house_id, change__number__gt=run.change)
    surveyed = later.exclude(part__kind__in=WITHOUT_WEIGHT).values("change")
    shown = Change.objects.filter(pk__in=surveyed).order_by("-number")[:MOST]
    is_decided = later.filter(part__kind="decision").exists()
    return Since([change.summary for change in shown], is_decided)
