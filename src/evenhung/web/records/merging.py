"""What someone typed, held against what others have saved since the page was made."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.web.records.fields import Clash, changed, clashes, flat, with_fields

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.store.parts import Key


@dataclass(frozen=True, slots=True)
class Edit:
    """What someone typed for one part.

    Parameters
    ----------
    key
        The part; without an id if it is new.
    base
        Number of the revision that the page was made from; 0 for a new part.
    fields
        Values by path, as `typed.from_form` reads them; None clears a field.
    removes
        Whether the part is taken out.
    place
        Where it is to stand among those of its kind; None leaves it where it is, or last.
    """

    key: Key
    base: int
    fields: Mapping[str, Any] = field(default_factory=dict)
    removes: bool = False
    place: float | None = None


class Versions(NamedTuple):
    """One part as the page had it and as it now stands."""

    base: Mapping[str, Any] | None
    latest: Mapping[str, Any] | None


class Merged(NamedTuple):
    """What came of an edit: what the part is to be, what collides, what others had changed."""

    body: dict[str, Any] | None
    clashes: list[Clash]
    theirs: dict[str, Any]


def merged(edit: Edit, versions: Versions) -> Merged:
    """Bring an edit and what others have saved since together, field by field."""
    base, latest = versions
    theirs = changed(base, latest)
    if edit.removes:
        found = [Clash("", base, latest, None)] if theirs and latest is not None else []
        return Merged(None, found, theirs)
    before = flat(base)
    ours = {path: value for path, value in edit.fields.items() if before.get(path) != value}
    if base is not None and latest is None:
        found = [Clash("", base, None, with_fields(base, ours))] if ours else []
        return Merged(None, found, theirs)
    return Merged(with_fields(latest, ours), clashes(base, theirs, ours), theirs)
