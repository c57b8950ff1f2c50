"""A finding, a symptom, days on which the room is needed: added, edited, removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_POST

from evenhung.store.parts import Key
from evenhung.web.condition.shelves import LISTS
from evenhung.web.page.items import ItemEditor, edit_item, take_out
from evenhung.web.photos.showing import photos_of
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.models import House

if TYPE_CHECKING:
    from django.http import HttpResponse

    from evenhung.web.access.door import Asked


def new(request: Asked, house: str, window: str, shelf: str) -> HttpResponse:
    """Add an item to a list of a window: what was found of a part, how it behaves."""
    return edit_item(request, _editor(house, window, shelf, None))


def one(request: Asked, house: str, window: str, shelf: str, number: int) -> HttpResponse:
    """Edit an item of a list of a window."""
    return edit_item(request, _editor(house, window, shelf, number))


@require_POST
def remove(request: Asked, house: str, window: str, shelf: str, number: int) -> HttpResponse:
    """Take an item out of a list of a window; undo brings it back."""
    return take_out(request, _editor(house, window, shelf, number))


def _editor(house: str, window: str, slug: str, number: int | None) -> ItemEditor:
    if slug not in LISTS:
        raise Http404
    row = get_object_or_404(House, pk=house)
    here = reverse("window", args=[row.pk, window])
    part = get_object_or_404(row.parts.select_related("latest"), kind="window", ident=window)
    if part.latest is None or part.latest.body is None:
        raise Http404
    tag = str(part.latest.body["tag"])
    return ItemEditor(
        row,
        Key("window", window),
        LISTS[slug],
        number,
        here,
        tag,
        album=lambda: photos_of(standing_parts(row, window=window), window),
    )
