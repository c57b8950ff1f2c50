"""Taking a change back: a new change that puts its fields to what they were before it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.web.records.fields import changed
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import save

if TYPE_CHECKING:
    from evenhung.web.records.models import Change, Revision
    from evenhung.web.records.saving import Outcome


def undo(change: Change, *, who: str) -> Outcome:
    """Take a change back, and nothing that was saved after it.

    Parameters
    ----------
    change
        The change; one that took another back brings that one again.
    who
        The name of whoever asks for it.

    Returns
    -------
    Saved or Refused or Conflict
        A conflict where a later change has touched the same field.
    """
    revisions = change.revisions.select_related("part", "parent").order_by("id")
    edits = [_reversed(revision) for revision in revisions]
    return save(change.house, edits, who=who, undoes=change)


def _reversed(revision: Revision) -> Edit:
    key, number, parent = revision.part.key, revision.number, revision.parent
    if parent is None or parent.body is None:
        return Edit(key, number, removes=True)
    fields = changed(revision.body, parent.body)
    return Edit(key, number, fields, place=parent.place)
