"""New houses: from a blank survey, or from one that was read from a file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import transaction

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.store.parts import IDENT, Key, new_id, parts_of, with_ids
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Refused, save

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from evenhung.survey import Survey


def begin(survey: Survey, *, who: str, photos: Iterable[Mapping[str, Any]] = ()) -> House:
    """Begin a house with a survey: all its parts in one change.

    Parameters
    ----------
    survey
        What was found so far; a name will do.
    who
        The name of whoever begins it.
    photos
        The records of its photos (see `photos`).

    Returns
    -------
    House
        The house, saved.

    Raises
    ------
    InvalidSurvey
        Where the record of a photo is refused; the survey itself is sound.
    """
    parts = parts_of(with_ids(survey.as_typed()))
    edits = [Edit(key, 0, body, place=float(place)) for place, (key, body) in enumerate(parts, 1)]
    edits += [_photo(body, float(place)) for place, body in enumerate(photos, 1)]
    with transaction.atomic():
        house = House.objects.create()
        outcome = save(house, edits, who=who)
        if isinstance(outcome, Refused):
            raise InvalidSurvey(
                tuple(
                    SurveyFault(f"{fault.key.kind}.{fault.field}", fault.value, fault.allowed)
                    for fault in outcome.faults
                )
            )
    return house


def _photo(body: Mapping[str, Any], place: float) -> Edit:
    ident = body.get("id")
    if not (isinstance(ident, str) and IDENT.fullmatch(ident)):
        ident = new_id()
    return Edit(Key("photo", ident), 0, {**body, "id": ident}, place=place)
