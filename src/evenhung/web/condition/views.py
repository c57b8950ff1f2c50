"""A finding or a symptom of a window: added, edited, removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_POST

from evenhung.store.parts import Key
from evenhung.web.condition.shelves import SHELVES
from evenhung.web.page.items import ItemEditor, edit_item, take_out
from evenhung.web.records.models import House

if TYPE_CHECKING:
    from django.http import HttpResponse

    from evenhung.web.access.door import Asked


def new(request: Asked, house: str, window: str, shelf: str) -> HttpResponse:
    """Add what was found of a part, or how the window behaves."""
    return edit_item(request, _editor(house, window, shelf, None))


def one(request: Asked, house: str, window: str, shelf: str, number: int) -> HttpResponse:
    """Edit a finding or a symptom."""
    return edit_item(request, _editor(house, window, shelf, number))


@require_POST
def remove(request: Asked, house: str, window: str, shelf: str, number: int) -> HttpResponse:
    """Take out a finding or a symptom; undo brings it back."""
    return take_out(request, _editor(house, window, shelf, number))


def _editor(house: str, window: str, slug: str, number: int | None) -> ItemEditor:
    if slug not in SHELVES:
        raise Http404
    row = get_object_or_404(House, pk=house)
    here = reverse("window", args=[row.pk, window])
    part = get_object_or_404(row.parts.select_related("latest"), kind="window", ident=window)
    if part.latest is None or part.latest.body is None:
        raise Http404
    tag = str(part.latest.body["tag"])
    return ItemEditor(row, Key("window", window), SHELVES[slug], number, here, tag)
