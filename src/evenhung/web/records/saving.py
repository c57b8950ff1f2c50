"""The one way to save: check what was typed against the whole survey, then add a change.

Two people who edit one window never overwrite each other: fields that only one of them touched
are kept together, and fields that both touched are given back to be chosen between.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias

from django.db import transaction
from django.utils import timezone

from evenhung.errors import InvalidSurvey
from evenhung.store.parts import IDENT, Key, Part, has_ids, part_with_ids, record_of
from evenhung.survey import survey_from
from evenhung.web.records.fields import flat
from evenhung.web.records.latest import Standing, latest_change, standing_parts, survey_document
from evenhung.web.records.merging import Versions, merged
from evenhung.web.records.models import Change, House, Revision, written
from evenhung.web.records.models import Part as PartRow
from evenhung.web.records.photos import refusals_of_photo
from evenhung.web.records.wording import called_in, differences, in_short

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from evenhung.errors import SurveyFault
    from evenhung.web.records.fields import Clash, Fields
    from evenhung.web.records.merging import Edit


@dataclass(frozen=True, slots=True)
class Saved:
    """All is kept. Without a change there was nothing to save."""

    change: Change | None
    keys: tuple[Key, ...]
    """The parts, a new one now with its id."""
    also: tuple[str, ...] = ()
    """What others had changed in the same parts meanwhile, in words; it is kept as well."""


class PartFault(NamedTuple):
    """What is wrong with one field of one part."""

    key: Key
    field: str
    value: str
    allowed: str


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing is kept: the survey would not be sound."""

    faults: tuple[PartFault, ...]
    edits: tuple[Edit, ...]
    """What was typed, to be shown again."""


class Dispute(NamedTuple):
    """One part that two people have set differently."""

    edit: Edit
    clashes: tuple[Clash, ...]
    latest: int
    """The revision that now stands: what is chosen is saved on it."""
    who: str
    stood: Fields
    """What the page showed, flat."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Nothing is kept: someone must choose between the two versions, field by field."""

    disputes: tuple[Dispute, ...]
    edits: tuple[Edit, ...]


Outcome: TypeAlias = Saved | Refused | Conflict


class _Step(NamedTuple):
    """A part that is about to get a revision."""

    key: Key
    before: Standing | None
    place: float
    body: dict[str, Any] | None


def save(
    house: House,
    edits: Sequence[Edit],
    *,
    who: str,
    undoes: Change | None = None,
    summary: str = "",
) -> Outcome:
    """Save what someone typed: all of it in one change, or nothing.

    Parameters
    ----------
    house
        The house.
    edits
        What was typed, for one part or several.
    who
        The name of whoever typed it.
    undoes
        The change that this one takes back, if it does.
    summary
        What is done in one line, where the lines of every part together would not say it.

    Returns
    -------
    Saved or Refused or Conflict
        Saved only when the database has it for good.

    Raises
    ------
    LookupError
        Where an edit is of a part or a revision that this house does not have.
    """
    with transaction.atomic():
        House.objects.select_for_update().get(pk=house.pk)  # one saver at a time in a house
        standing = standing_parts(house)
        by_key = {part.key: part for part in standing}
        disputes: list[Dispute] = []
        steps: list[_Step] = []
        also: list[str] = []
        for edit in edits:
            versions = _versions(house, edit, by_key)
            body, found, theirs = merged(edit, versions)
            if found:
                disputes.append(_dispute(house, edit, found, versions))
            elif theirs and edit.base:
                also += differences(edit.key, versions.base, versions.latest)
            steps.append(_step(edit, by_key.get(edit.key), body, standing))
        if disputes:
            return Conflict(tuple(disputes), tuple(edits))
        faults = _faults(standing, steps)
        if faults:
            return Refused(tuple(faults), tuple(edits))
        change = _write(house, steps, who=who, undoes=undoes, summary=summary)
        return Saved(change, tuple(step.key for step in steps), tuple(also))


def _versions(house: House, edit: Edit, by_key: dict[Key, Standing]) -> Versions:
    """Find the part as the page had it, and as it now stands."""
    latest = by_key.get(edit.key)
    if not edit.base:
        return Versions(None, latest.body if latest else None)
    if latest and latest.number == edit.base:
        return Versions(latest.body, latest.body)
    revision = _revisions(house, edit.key).filter(number=edit.base).first()
    if revision is None:
        raise LookupError(f"{edit.key.kind} {edit.key.ident}: no revision {edit.base}")
    return Versions(revision.body, latest.body if latest else None)


def _revisions(house: House, key: Key) -> Any:
    return Revision.objects.filter(
        part__house=house, part__kind=key.kind, part__ident=key.ident
    ).select_related("change")


def _dispute(house: House, edit: Edit, found: list[Clash], versions: Versions) -> Dispute:
    latest = _revisions(house, edit.key).order_by("number").last()
    return Dispute(edit, tuple(found), latest.number, latest.change.who, flat(versions.base))


def _step(
    edit: Edit, before: Standing | None, body: dict[str, Any] | None, standing: list[Standing]
) -> _Step:
    """Settle a part's id and its place: a new one stands last of its kind."""
    key = edit.key
    if body is not None:
        key, body = part_with_ids(Part(key, body))
    if edit.place is not None:
        place = edit.place
    elif before:
        place = before.place
    else:
        place = max((part.place for part in standing if part.key.kind == key.kind), default=0) + 1
    return _Step(key, before, place, body)


def _faults(standing: list[Standing], steps: list[_Step]) -> list[PartFault]:
    """Check the survey as it would be."""
    parts = {part.key: part for part in standing}
    for key, before, place, body in steps:
        parts.pop(key, None)
        if body is not None:
            parts[key] = Standing(key, before.number if before else 0, place, written(body))
    whole = sorted(parts.values(), key=lambda part: part.place)
    surveyed = [part for part in whole if record_of(part.key.kind)]
    faults = [fault for part in whole if part.key.kind == "photo" for fault in _photo(part)]
    faults += [
        PartFault(key, "id", repr(key.ident)[:80], "letters, figures, . _ and -, at most 64")
        for key, _, _, body in steps
        if body is not None and key.ident and not IDENT.fullmatch(key.ident)
    ]
    try:
        survey_from(survey_document(surveyed))
    except InvalidSurvey as refusal:
        faults += [_of_part(fault, surveyed) for fault in refusal.faults]
    return faults


def _photo(part: Standing) -> Iterable[PartFault]:
    for field, value, allowed in refusals_of_photo(part.body):
        yield PartFault(part.key, field, value, allowed)


def _of_part(fault: SurveyFault, parts: list[Standing]) -> PartFault:
    """Find the part that a path of the survey leads into, and the field in it."""
    found = re.fullmatch(r"(\w+)(?:\[(\d+)\])?\.?(.*)", fault.path, re.DOTALL)
    kind, number, field = found.groups() if found else (fault.path, None, "")
    if number is not None and has_ids(kind):
        key = [part.key for part in parts if part.key.kind == kind][int(number)]
    else:
        key = Key(kind)
    return PartFault(key, field, fault.value, fault.allowed)


def _write(
    house: House, steps: list[_Step], *, who: str, undoes: Change | None, summary: str
) -> Change | None:
    """Add the change and the revisions; give None where nothing differs."""
    real = [step for step in steps if _differs(step)]
    if not real:
        return None
    called = called_in(standing_parts(house)) if _speaks_of_others(real) else {}
    lines = [
        line
        for step in real
        for line in differences(
            step.key, step.before.body if step.before else None, step.body, called
        )
    ]
    change = Change.objects.create(
        house=house,
        number=latest_change(house) + 1,
        who=who,
        when=timezone.now(),
        summary=summary or in_short(lines),
        undoes=undoes,
    )
    for step in real:
        _add_revision(house, step, change)
    return change


def _speaks_of_others(steps: list[_Step]) -> bool:
    """Tell whether parts are saved whose names are made of other parts' names."""
    return any(
        step.key.kind in ("decision", "booked") or (step.key.kind == "window" and _follows(step))
        for step in steps
    )


def _follows(step: _Step) -> bool:
    """Tell whether a window is to follow another, or was."""
    bodies = (step.body, step.before.body if step.before else None)
    return any(body is not None and "after" in body for body in bodies)


def _differs(step: _Step) -> bool:
    if step.before is None:
        return step.body is not None
    return step.before.body != step.body or step.before.place != step.place


def _add_revision(house: House, step: _Step, change: Change) -> None:
    kind, ident = step.key
    row, _ = PartRow.objects.select_related("latest").get_or_create(
        house=house, kind=kind, ident=ident
    )
    row.latest = Revision.objects.create(
        part=row,
        number=row.latest.number + 1 if row.latest else 1,
        parent=row.latest,
        change=change,
        place=step.place,
        text=written(step.body),
    )
    row.save(update_fields=["latest"])
