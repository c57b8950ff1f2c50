"""The latest of a house: its parts as they now stand, and the survey that they make."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import F, Max

from evenhung.store.parts import Key, Part, document_of
from evenhung.survey import Survey, survey_from
from evenhung.web.records.models import Change, House, Revision

if TYPE_CHECKING:
    from collections.abc import Iterable


class Standing(NamedTuple):
    """A part as it now stands."""

    key: Key
    number: int
    """Its revision: a page that is made from it sends it back with what was typed."""
    place: float
    body: dict[str, Any]


def standing_parts(house: House) -> list[Standing]:
    """Give the parts of a house as they now stand, those of one kind in their order."""
    revisions = (
        Revision.objects.filter(part__house=house, part__latest=F("id"))
        .exclude(text="")
        .select_related("part")
        .order_by("place", "part_id")
    )
    return [
        Standing(revision.part.key, revision.number, revision.place, body)
        for revision in revisions
        if (body := revision.body) is not None
    ]


def survey_document(parts: Iterable[Standing]) -> dict[str, Any]:
    """Give the survey that parts make, as plain data."""
    return document_of(Part(part.key, part.body) for part in parts)


def survey_of(house: House) -> Survey:
    """Give the survey of a house as it now stands."""
    return survey_from(survey_document(standing_parts(house)))


def latest_change(house: House) -> int:
    """Give the number of the latest change of a house; 0 before the first."""
    return Change.objects.filter(house=house).aggregate(last=Max("number"))["last"] or 0
