"""The stock of a house: its lists shown, an item of them edited; and what gives way to what."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.survey.house import Worth
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.page.items import CONFLICT, ItemEditor, edit_item, put_in, rows_of
from evenhung.web.page.shelf import Gone
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save
from evenhung.web.stock.shelves import SHELVES

if TYPE_CHECKING:
    from django.http import HttpResponse

    from evenhung.web.access.door import Asked
    from evenhung.web.records.latest import Standing

WORTHS = {
    "What may be done": ("policy.trim", "policy.moves", "policy.allow_for_error"),
    "What it is worth, in the house's money": tuple(
        f"policy.worth.{name}" for name in Worth.entries
    ),
    "Money": ("currency",),
}
AT_THE_BENCH = {"Where a stock is stated": ("stock.most_pieces", "stock.kerf")}
"""Not asked before: a house that states them states its stock, and has nothing else."""


@require_GET
def stock(request: Asked, house: str) -> HttpResponse:
    """Show what there is to hang the house with besides its own weights."""
    return _stock(request, get_object_or_404(House, pk=house))


def _stock(request: Asked, house: House, said: str = "", *, status: int = 200) -> HttpResponse:
    about = _about(house).body
    page = {
        "house": house,
        "name": about["name"],
        "currency": about.get("currency", ""),
        "is_stated": "stock" in about,
        "is_empty": not any(shelf.items(about) for shelf in SHELVES.values()),
        "shelves": [(shelf, rows_of(shelf, about)) for shelf in SHELVES.values()],
        "said": said,
    }
    return render(request, "stock/stock.html", page, status=status)


def _about(house: House) -> Standing:
    (about,) = (part for part in standing_parts(house, window="") if part.key.kind == "house")
    return about


def new_item(request: Asked, house: str, shelf: str) -> HttpResponse:
    """Add an item to a list of the stock."""
    return edit_item(request, _editor(get_object_or_404(House, pk=house), shelf, None))


def item(request: Asked, house: str, shelf: str, number: int) -> HttpResponse:
    """Edit an item of a list of the stock."""
    return edit_item(request, _editor(get_object_or_404(House, pk=house), shelf, number))


def _editor(house: House, slug: str, number: int | None) -> ItemEditor:
    if slug not in SHELVES:
        raise Http404
    here = reverse("stock", args=[house.pk])
    return ItemEditor(house, Key("house"), SHELVES[slug], number, here, _("Stock and worths"))


@require_POST
def remove_item(request: Asked, house: str, shelf: str, number: int) -> HttpResponse:
    """Take an item out of a list; undo brings it back."""
    row = get_object_or_404(House, pk=house)
    try:
        outcome = put_in(request, _editor(row, shelf, number), None)
    except ValueError:
        return HttpResponseBadRequest("was")
    except Gone:
        return _stock(request, row, _("Somebody has changed that meanwhile."), status=CONFLICT)
    if isinstance(outcome, Saved):
        return redirect("stock", row.pk)
    return _stock(request, row, _("It was not removed. Try again."), status=CONFLICT)


@require_POST
def empty(request: Asked, house: str) -> HttpResponse:
    """Say that nothing is to be had besides the weights of the house."""
    row = get_object_or_404(House, pk=house)
    about = _about(row)
    fields: dict[str, Any] = {shelf.path: [] for shelf in SHELVES.values()}
    outcome = save(row, [Edit(about.key, about.number, fields)], who=request.access.name)
    if isinstance(outcome, Saved):
        return redirect("stock", row.pk)
    return _stock(request, row, _("It was not saved. Try again."), status=CONFLICT)


def worths(request: Asked, house: str) -> HttpResponse:
    """Edit what may be done and what gives way to what."""
    row = get_object_or_404(House, pk=house)
    here = reverse("stock", args=[row.pk])
    groups = {**WORTHS, **(AT_THE_BENCH if "stock" in _about(row).body else {})}
    editor = Editor(row, Key("house"), _("What gives way"), groups, lambda _key: here, here)
    return edit_part(request, editor)
