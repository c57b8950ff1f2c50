"""The price of a house: shown at a confidence, its terms edited, hours booked."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from django.http import Http404
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.page.items import ItemEditor, edit_item, take_out
from evenhung.web.page.trouble import trouble
from evenhung.web.price.booking import BOOKED, Begun, booked_in, booking
from evenhung.web.price.reckoning import CONFIDENCES, lines_of, price_of
from evenhung.web.price.sentences import terms_of
from evenhung.web.price.shelves import SHELVES
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save

if TYPE_CHECKING:
    from django.http import HttpResponse

CONFLICT = 409
TERMS = {
    "What an hour costs": ("currency", "price.rate", "price.overhead_pct", "price.tax_pct"),
    "What is offered": ("price.confidence_pct", "price.valid_days"),
    "What is not in it": ("price.exclusions",),
}
"""The terms of a price by the headings they stand under."""


@for_visitors
@require_GET
def price(request: Asked, house: str) -> HttpResponse:
    """Show what the work on a house costs, at the house's confidence or at another."""
    row = get_object_or_404(House, pk=house)
    parts = standing_parts(row)
    (about,) = (part.body for part in parts if part.key.kind == "house")
    sure = request.GET.get("sure", "")
    found = price_of(parts, float(sure) if sure in map(str, CONFIDENCES) else None)
    page: dict[str, Any] = {
        "house": row,
        "name": about["name"],
        "currency": about.get("currency", ""),
        "price": found,
        "hours": {"low": found.hours.at(0.1), "high": found.hours.at(0.9)} if found.labour else {},
        "stated": about.get("price", {}),
        "sure": f"{found.confidence_pct:g}",
        "confidences": CONFIDENCES,
        "lines": lines_of(found),
        "terms": terms_of(about),
        "booked": booked_in(parts),
        "learnt": [line for line in found.labour if line.bookings],
    }
    return render(request, "price/price.html", page)


def terms(request: Asked, house: str) -> HttpResponse:
    """Edit how hours and materials become a price."""
    row = get_object_or_404(House, pk=house)
    here = reverse("price", args=[row.pk])
    editor = Editor(
        row, Key("house"), _("Terms"), TERMS, lambda _key: here, here, back_name=_("Price")
    )
    return edit_part(request, editor)


def new_item(request: Asked, house: str, shelf: str) -> HttpResponse:
    """Add an item to a list of the price; the address may say what it begins with."""
    editor = _editor(house, shelf, None)
    begun = {name: request.GET[name] for name in editor.shelf.record.entries if name in request.GET}
    return edit_item(request, replace(editor, begun=begun))


def item(request: Asked, house: str, shelf: str, number: int) -> HttpResponse:
    """Edit an item of a list that the price is made with."""
    return edit_item(request, _editor(house, shelf, number))


@require_POST
def remove_item(request: Asked, house: str, shelf: str, number: int) -> HttpResponse:
    """Take an item out of a list; undo brings it back."""
    return take_out(request, _editor(house, shelf, number))


def _editor(house: str, slug: str, number: int | None) -> ItemEditor:
    if slug not in SHELVES:
        raise Http404
    row = get_object_or_404(House, pk=house)
    here = reverse("price", args=[row.pk])
    return ItemEditor(row, Key("house"), SHELVES[slug], number, here, _("Price"))


def book(request: Asked, house: str) -> HttpResponse:
    """Book hours that were worked; the address may say at which window and at what."""
    row = get_object_or_404(House, pk=house)
    query = request.GET
    begun = Begun(request.access.name, query.get("window", ""), query.get("operation", ""))
    back = reverse("price", args=[row.pk])
    return edit_part(request, booking(row, standing_parts(row), "", back, begun))


def booked(request: Asked, house: str, booked: str) -> HttpResponse:
    """Edit hours that are booked."""
    row = get_object_or_404(House, pk=house)
    get_object_or_404(row.parts, kind=BOOKED, ident=booked)
    back = reverse("price", args=[row.pk])
    return edit_part(request, booking(row, standing_parts(row), booked, back))


@require_POST
def remove_booked(request: Asked, house: str, booked: str) -> HttpResponse:
    """Take booked hours out again; undo brings them back."""
    row = get_object_or_404(House, pk=house)
    part = get_object_or_404(row.parts.select_related("latest"), kind=BOOKED, ident=booked)
    number = part.latest.number if part.latest else 0
    outcome = save(row, [Edit(part.key, number, removes=True)], who=request.access.name)
    if isinstance(outcome, Saved):
        return redirect("price", row.pk)
    return trouble(request, CONFLICT, _("It was not removed. Try again."))
