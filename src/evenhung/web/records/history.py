"""The changes of a house, newest first, each line by line in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.db.models import Prefetch

from evenhung.web.records.latest import standing_parts
from evenhung.web.records.models import Change, House, Revision
from evenhung.web.records.wording import called_in, differences

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from evenhung.store.parts import Key

PAGE = 50
"""Changes shown at once."""


class Told(NamedTuple):
    """One change as it is told."""

    change: Change
    lines: list[str]
    is_undone: bool


def history(house: House, *, before: int | None = None, key: Key | None = None) -> Iterator[Told]:
    """Give the changes of a house in words, the newest first, a page of them.

    Parameters
    ----------
    house
        The house.
    before
        The number of the last change of the page before; None begins with the newest.
    key
        A part, to be told only of its own changes; None tells of all.
    """
    revisions = Revision.objects.select_related("part", "parent").order_by("id")
    found = Change.objects.filter(house=house)
    if key is not None:
        revisions = revisions.filter(part__kind=key.kind, part__ident=key.ident)
        found = found.filter(
            revisions__part__kind=key.kind, revisions__part__ident=key.ident
        ).distinct()
    if before is not None:
        found = found.filter(number__lt=before)
    shown = found.order_by("-number").prefetch_related(
        "undone_by", Prefetch("revisions", revisions)
    )
    called = called_in(standing_parts(house))
    for change in shown[:PAGE]:
        yield Told(change, _lines(change, called), bool(change.undone_by.all()))


def _lines(change: Change, called: Mapping[str, str]) -> list[str]:
    return [
        line
        for revision in change.revisions.all()
        for line in differences(
            revision.part.key,
            revision.parent.body if revision.parent else None,
            revision.body,
            called,
        )
    ]
