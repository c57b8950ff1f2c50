"""One way to edit an item of a list: show it, save it, show it again with what is wrong.

A form sends ``was``, the item as the page showed it, and its fields as ``field.<path>``.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.http import Http404, HttpResponseBadRequest, HttpResponseRedirect
from django.shortcuts import render
from django.utils.translation import gettext as _

from evenhung.errors import InvalidFile
from evenhung.web.page.alone import ALONE
from evenhung.web.page.form import PREFIX, form_fields
from evenhung.web.page.shelf import Gone, put
from evenhung.web.page.trouble import trouble
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import Conflict, Saved, save
from evenhung.web.records.taking import taken_in
from evenhung.web.records.typed import from_form
from evenhung.web.records.wording import field_name, spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from django.http import HttpResponse

    from evenhung.store.parts import Key
    from evenhung.web.access.door import Asked
    from evenhung.web.page.form import FormField
    from evenhung.web.page.shelf import Shelf
    from evenhung.web.records.latest import Standing
    from evenhung.web.records.models import House
    from evenhung.web.records.saving import Outcome, Refused

UNPROCESSABLE, CONFLICT = 422, 409


@dataclass(frozen=True, slots=True)
class ItemEditor:
    """A form on a page that edits one item of a list.

    Parameters
    ----------
    house
        The house.
    key
        The part that the list is in.
    shelf
        The list.
    number
        Which item of it is first shown; None for a new one.
    back
        The address to go on to, and to go back to without saving.
    back_name
        What stands there.
    begun
        What a new item begins with, by field.
    album
        Gives the photos that an item can name, where the list has a field for them.
    """

    house: House
    key: Key
    shelf: Shelf
    number: int | None
    back: str
    back_name: str
    begun: Mapping[str, Any] = field(default_factory=dict)
    album: Callable[[], Sequence[Mapping[str, Any]]] = tuple

    def part(self) -> Standing:
        """Give the part as it now stands.

        Raises
        ------
        Http404
            Where the house has none.
        """
        parts = standing_parts(self.house, window=self.key.ident)
        found = next((part for part in parts if part.key == self.key), None)
        if found is None:
            raise Http404
        return found

    def draft(self, shown: Mapping[str, Any]) -> str:
        """Give the name under which a browser keeps what is typed until it is saved."""
        was = json.dumps(shown) if shown else ""
        return "/".join((self.house.pk, *self.key, self.shelf.slug, was))


def rows_of(shelf: Shelf, body: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Give the items of a list as a page shows them, each with what its forms send back."""
    return [{"says": spoken(one), "was": json.dumps(one), "item": one} for one in shelf.items(body)]


def edit_item(request: Asked, editor: ItemEditor) -> HttpResponse:
    """Show a form for an item, or save what was typed into it and go on."""
    if request.method != "POST":
        shown = _first_shown(editor)
        was = "" if editor.number is None else json.dumps(shown)
        typed = editor.shelf.shown(shown)
        return _page(request, editor, typed, was, draft=editor.draft(shown))
    typed = _typed(request, editor)
    try:
        photos = taken_in(request.FILES.getlist("photo"), editor.key.ident)
    except InvalidFile as refusal:
        was = request.POST.get("was", "")
        return _page(request, editor, typed, was, general=[str(refusal)], status=UNPROCESSABLE)
    typed = _naming(editor.shelf, typed, photos)
    now = editor.shelf.item(from_form(editor.shelf.kind, typed))
    try:
        outcome = put_in(request, editor, now, photos)
    except ValueError:
        return HttpResponseBadRequest("was")
    except Gone:
        _keep_alone(request, editor, photos)
        said = _(
            "Somebody has changed or removed this meanwhile. What you typed is below: "
            "save it as another, or go back without."
        )
        return _page(request, editor, typed, "", general=[said], status=CONFLICT)
    if isinstance(outcome, Saved):
        told = urlencode({"saved": request.POST.get("draft", "")})
        return HttpResponseRedirect(f"{editor.back}?{told}")
    _keep_alone(request, editor, photos)
    return _refused(request, editor, typed, outcome)


def _typed(request: Asked, editor: ItemEditor) -> dict[str, str]:
    """Give what stands in each field, and which photos are ticked."""
    shelf = editor.shelf
    typed = {path: request.POST.get(PREFIX + path, "") for path in shelf.paths}
    if shelf.photos:
        typed[f"{shelf.path}.{shelf.photos}"] = "; ".join(request.POST.getlist("ticked"))
    return typed


def _naming(shelf: Shelf, typed: Mapping[str, str], photos: Sequence[Edit]) -> dict[str, str]:
    """Name photos that have just been taken in besides those that are ticked."""
    if not photos:
        return dict(typed)
    path = f"{shelf.path}.{shelf.photos}"
    return {**typed, path: "; ".join([typed[path], *(one.key.ident for one in photos)])}


def _keep_alone(request: Asked, editor: ItemEditor, photos: Sequence[Edit]) -> None:
    """Save photos without the item that is not saved yet: no browser sends them again."""
    if photos:
        save(editor.house, photos, who=request.access.name)


def take_out(request: Asked, editor: ItemEditor) -> HttpResponse:
    """Take an item out of a list and go back; undo brings it back."""
    try:
        outcome = put_in(request, editor, None)
    except ValueError:
        return HttpResponseBadRequest("was")
    except Gone:
        return trouble(request, CONFLICT, _("Somebody has changed or removed this meanwhile."))
    if isinstance(outcome, Saved):
        return HttpResponseRedirect(editor.back)
    return trouble(request, CONFLICT, _("It was not removed. Try again."))


def put_in(
    request: Asked,
    editor: ItemEditor,
    now: dict[str, Any] | None,
    photos: Sequence[Edit] = (),
) -> Outcome:
    """Save a list with one item changed, added or taken out, and new photos with it.

    A list that is left empty is no longer stated.

    Raises
    ------
    Gone
        Where the list has no item as the page showed it.
    ValueError
        Where what was sent for it is no item.
    """
    part, was = editor.part(), request.POST.get("was", "")
    items = put(editor.shelf.items(part.body), json.loads(was) if was else None, now)
    edit = Edit(part.key, part.number, {editor.shelf.path: items or None})
    return save(editor.house, [*photos, edit], who=request.access.name)


def _must(shelf: Shelf, shown: FormField) -> FormField:
    """Mark a field that no item can do without, though the house can do without the list."""
    entry = shelf.record.entries.get(shown.path.removeprefix(f"{shelf.path}."))
    return replace(
        shown, is_required=shown.is_required or (entry is not None and entry.is_required)
    )


def _narrowed(shelf: Shelf, shown: FormField, typed: Mapping[str, str]) -> FormField:
    """Leave out of a field what cannot be chosen as the field that it hangs on stands."""
    narrowed = shelf.narrowed.get(shown.path.rpartition(".")[2])
    if narrowed is None:
        return shown
    other = f"{shelf.path}.{narrowed.by}"
    fits = narrowed.allowed.get(typed.get(other, ""))
    unfit = [one for one, _text in shown.choices if fits is not None and one not in fits]
    allowed = json.dumps({name: list(words) for name, words in narrowed.allowed.items()})
    return replace(shown, narrowed_by=PREFIX + other, allowed=allowed, unfit=tuple(unfit))


def _pictures(editor: ItemEditor, typed: Mapping[str, str]) -> dict[str, Any]:
    """Give the photos that can be ticked, and the names of those that are not here."""
    shelf = editor.shelf
    if not shelf.photos:
        return {}
    named = [one for one in typed.get(f"{shelf.path}.{shelf.photos}", "").split("; ") if one]
    album = [{**one, "is_ticked": one["id"] in named} for one in editor.album()]
    here = {one["id"] for one in album}
    return {"album": album, "elsewhere": [one for one in named if one not in here]}


def _first_shown(editor: ItemEditor) -> dict[str, Any]:
    if editor.number is None:
        return dict(editor.begun)
    items = editor.shelf.items(editor.part().body)
    if editor.number >= len(items):
        raise Http404
    return items[editor.number]


def _refused(
    request: Asked, editor: ItemEditor, typed: Mapping[str, str], outcome: Refused | Conflict
) -> HttpResponse:
    """Show the form again: what is wrong beside its field, what is wrong elsewhere above."""
    was, beside, general = request.POST.get("was", ""), {}, []
    if isinstance(outcome, Conflict):
        general.append(_("Somebody saved this list at the same moment. Save again."))
        return _page(request, editor, typed, was, general=general, status=CONFLICT)
    for fault in outcome.faults:
        path = f"{editor.shelf.path}.{fault.field.partition('].')[2]}"
        path = path if path in typed else f"{path}.{ALONE}"
        if fault.field.startswith(f"{editor.shelf.path}[") and path in typed:
            beside[path] = fault.allowed
        else:
            general.append(f"{field_name(fault.field)}: {fault.value}: {fault.allowed}")
    return _page(request, editor, typed, was, beside=beside, general=general, status=UNPROCESSABLE)


def _page(
    request: Asked,
    editor: ItemEditor,
    typed: Mapping[str, str],
    was: str,
    *,
    draft: str = "",
    beside: Mapping[str, str] | None = None,
    general: Sequence[str] = (),
    status: int = 200,
) -> HttpResponse:
    shelf = editor.shelf
    (about,) = (
        part for part in standing_parts(editor.house, window="") if part.key.kind == "house"
    )
    page = {
        "house": editor.house,
        "name": about.body["name"],
        "editor": editor,
        "shelf": shelf,
        "groups": {
            heading: [
                _narrowed(shelf, _must(shelf, one), typed)
                for one in form_fields(
                    shelf.kind,
                    [f"{shelf.path}.{name}" for name in names],
                    None,
                    typed=typed,
                    faults=beside,
                    choices={f"{shelf.path}.{name}": one for name, one in shelf.choices.items()},
                )
            ]
            for heading, names in shelf.groups.items()
        },
        **_pictures(editor, typed),
        "was": was,
        "draft": request.POST.get("draft") or draft,
        "general": general,
    }
    return render(request, "page/item.html", page, status=status)
