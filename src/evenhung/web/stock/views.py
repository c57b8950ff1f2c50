"""The stock of a house: its lists shown, an item of them edited; and what gives way to what."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import urlencode

from django.http import Http404, HttpResponseBadRequest, HttpResponseRedirect
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.survey.house import Worth
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.page.form import PREFIX, form_fields
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Conflict, Refused, Saved, save
from evenhung.web.records.typed import from_form
from evenhung.web.records.wording import field_name, spoken
from evenhung.web.stock.shelves import SHELVES, Gone, Shelf, put

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.http import HttpResponse

    from evenhung.web.access.door import Asked
    from evenhung.web.records.latest import Standing
    from evenhung.web.records.saving import Outcome

WORTHS = {
    "What may be done": ("policy.trim", "policy.moves", "policy.allow_for_error"),
    "What it is worth, in the house's money": tuple(
        f"policy.worth.{name}" for name in Worth.entries
    ),
    "Money": ("currency",),
}
AT_THE_BENCH = {"Where a stock is stated": ("stock.most_pieces", "stock.kerf")}
"""Not asked before: a house that states them states its stock, and has nothing else."""
UNPROCESSABLE, CONFLICT = 422, 409


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
        "shelves": [(shelf, _rows(shelf, about)) for shelf in SHELVES.values()],
        "said": said,
    }
    return render(request, "stock/stock.html", page, status=status)


def _rows(shelf: Shelf, about: Mapping[str, Any]) -> list[dict[str, Any]]:
    return [
        {"says": spoken(one), "was": json.dumps(one), "item": one} for one in shelf.items(about)
    ]


def _about(house: House) -> Standing:
    (about,) = (part for part in standing_parts(house, window="") if part.key.kind == "house")
    return about


def _shelf(slug: str) -> Shelf:
    if slug not in SHELVES:
        raise Http404
    return SHELVES[slug]


def new_item(request: Asked, house: str, shelf: str) -> HttpResponse:
    """Add an item to a list of the stock."""
    row = get_object_or_404(House, pk=house)
    return _edit_item(request, _ItemForm(row, _shelf(shelf), None))


def item(request: Asked, house: str, shelf: str, number: int) -> HttpResponse:
    """Edit an item of a list of the stock."""
    row, found = get_object_or_404(House, pk=house), _shelf(shelf)
    items = found.items(_about(row).body)
    if request.method != "POST" and number >= len(items):
        raise Http404
    return _edit_item(request, _ItemForm(row, found, items[number : number + 1] or None))


class _ItemForm(NamedTuple):
    """A form for one item of a list."""

    house: House
    shelf: Shelf
    shown: Sequence[dict[str, Any]] | None
    """The item as it is first shown; None for a new one."""

    @property
    def draft(self) -> str:
        """The name under which a browser keeps what is typed until it is saved."""
        shown = json.dumps(self.shown[0]) if self.shown else ""
        return f"{self.house.pk}/stock/{self.shelf.slug}/{shown}"


def _edit_item(request: Asked, form: _ItemForm) -> HttpResponse:
    if request.method != "POST":
        shown = form.shown[0] if form.shown else {}
        typed = {f"{form.shelf.path}.{name}": spoken(value) for name, value in shown.items()}
        return _item_page(request, form, typed, json.dumps(shown) if shown else "")
    typed = {path: request.POST.get(PREFIX + path, "") for path in form.shelf.paths}
    now = form.shelf.item(from_form("house", typed))
    try:
        outcome = _saved(request, form, request.POST.get("was", ""), now)
    except ValueError:
        return HttpResponseBadRequest("was")
    except Gone:
        said = _(
            "Somebody has changed or removed this meanwhile. What you typed is below: "
            "save it as another, or go back without."
        )
        return _item_page(request, form, typed, "", general=[said], status=CONFLICT)
    if isinstance(outcome, Saved):
        told = urlencode({"saved": request.POST.get("draft", "")})
        return HttpResponseRedirect(f"{reverse('stock', args=[form.house.pk])}?{told}")
    return _refused(request, form, typed, outcome)


def _saved(request: Asked, form: _ItemForm, was: str, now: dict[str, Any] | None) -> Outcome:
    """Save a list with its item changed; a list that nothing is left of is no longer stated."""
    about = _about(form.house)
    items = put(form.shelf.items(about.body), json.loads(was) if was else None, now)
    edit = Edit(about.key, about.number, {form.shelf.path: items or None})
    return save(form.house, [edit], who=request.access.name)


def _refused(
    request: Asked, form: _ItemForm, typed: Mapping[str, str], outcome: Refused | Conflict
) -> HttpResponse:
    """Show the form again: what is wrong beside its field, what is wrong elsewhere above."""
    was, beside, general = request.POST.get("was", ""), {}, []
    if isinstance(outcome, Conflict):
        general.append(_("Somebody saved this list at the same moment. Save again."))
        return _item_page(request, form, typed, was, general=general, status=CONFLICT)
    for fault in outcome.faults:
        path = f"{form.shelf.path}.{fault.field.rpartition('.')[2]}"
        if fault.field.startswith(f"{form.shelf.path}[") and path in typed:
            beside[path] = fault.allowed
        else:
            general.append(f"{field_name(fault.field)}: {fault.value}: {fault.allowed}")
    return _item_page(
        request, form, typed, was, beside=beside, general=general, status=UNPROCESSABLE
    )


def _item_page(
    request: Asked,
    form: _ItemForm,
    typed: Mapping[str, str],
    was: str,
    *,
    beside: Mapping[str, str] | None = None,
    general: Sequence[str] = (),
    status: int = 200,
) -> HttpResponse:
    page = {
        "house": form.house,
        "name": _about(form.house).body["name"],
        "shelf": form.shelf,
        "fields": form_fields("house", form.shelf.paths, None, typed=typed, faults=beside),
        "editor": {"key": Key("house")},
        "was": was,
        "draft": request.POST.get("draft") or form.draft,
        "general": general,
    }
    return render(request, "stock/item.html", page, status=status)


@require_POST
def remove_item(request: Asked, house: str, shelf: str, number: int) -> HttpResponse:
    """Take an item out of a list; undo brings it back."""
    row = get_object_or_404(House, pk=house)
    form = _ItemForm(row, _shelf(shelf), None)
    try:
        outcome = _saved(request, form, request.POST.get("was", ""), None)
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
