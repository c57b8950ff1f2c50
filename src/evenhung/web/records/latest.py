"""The latest of a house: its parts as they now stand, and the survey that they make."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from django.db.models import F, Max, Q

from evenhung.store.parts import Key, Part, document_of
from evenhung.survey import Survey, survey_from
from evenhung.web.records.models import Change, House, Revision

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True)
class Standing:
    """A part as it now stands.

    Parameters
    ----------
    key
        What names it.
    number
        Its revision: a page that is made from it sends it back with what was typed.
    place
        Where it stands among those of its kind.
    text
        Its plain data as it is kept.
    """

    key: Key
    number: int
    place: float
    text: str

    @cached_property
    def body(self) -> dict[str, Any]:
        """Its plain data."""
        body: dict[str, Any] = json.loads(self.text)
        return body


def standing_parts(house: House, *, window: str | None = None) -> list[Standing]:
    """Give the parts of a house as they now stand, those of one kind in their order.

    Parameters
    ----------
    house
        The house.
    window
        The id of a window: then only it, its photos and what belongs to the house as a whole.
        The id of any other part does as well.
    """
    rows = Revision.objects.filter(part__house=house, part__latest=F("id")).exclude(text="")
    if window is not None:
        rows = rows.filter(
            Q(part__ident="")
            | Q(part__ident=window)
            | Q(part__kind="photo", text__contains=f'"of":"{window}"')
        )
    columns = ("part__kind", "part__ident", "number", "place", "text")
    return [
        Standing(Key(kind, ident), number, place, text)
        for kind, ident, number, place, text in rows.order_by("place", "part_id").values_list(
            *columns
        )
    ]


def survey_document(parts: Iterable[Standing]) -> dict[str, Any]:
    """Give the survey that parts make, as plain data."""
    return document_of(Part(part.key, part.body) for part in parts)


def survey_of(house: House) -> Survey:
    """Give the survey of a house as it now stands."""
    return survey_from(survey_document(standing_parts(house)))


def house_name(house: House) -> str:
    """Give what a house is called."""
    (about,) = (part for part in standing_parts(house, window="") if part.key.kind == "house")
    return str(about.body["name"])


def latest_change(house: House) -> int:
    """Give the number of the latest change of a house; 0 before the first."""
    return Change.objects.filter(house=house).aggregate(last=Max("number"))["last"] or 0
