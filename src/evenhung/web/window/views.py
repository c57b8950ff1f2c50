"""One window: shown, begun, edited section by section, removed."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from django.http import Http404
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.completion.proving import Whole, proofs_of, was_tried
from evenhung.web.condition.sentences import found_of
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.photos.showing import photos_of
from evenhung.web.plans import common_to_windows, kept_plan, standing_window
from evenhung.web.price.booking import booked_in, booked_on, without_their_window
from evenhung.web.programme.needed import NEEDED, needed_at
from evenhung.web.records.latest import house_name, standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save
from evenhung.web.records.wording import called_in, window_names
from evenhung.web.repair.doing import doing_at
from evenhung.web.window.copying import sizes_of
from evenhung.web.window.drawings import elevation, section, sides_of
from evenhung.web.window.sections import NEW, PROGRAMME, SECTIONS, TRIED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.http import HttpResponse

    from evenhung.web.records.latest import Standing
    from evenhung.web.window.sections import Section

HOURS = ("keep", "remove")
"""What may become of the hours that are booked on a window which is taken out."""


@for_visitors
@require_GET
def window(request: Asked, house: str, window: str) -> HttpResponse:
    """Show a window: drawn to scale, what was found, the verdict on each sash, what to do."""
    row = get_object_or_404(House, pk=house)
    parts = standing_parts(row, window=window)
    try:
        text = standing_window(parts, window).text
    except LookupError:
        raise Http404 from None
    common = common_to_windows(parts)
    plan = kept_plan(common, text)
    whole = Whole(standing_parts(row) if was_tried(text) else ())
    proofs = proofs_of(common, standing_window(parts, window), whole)
    (about,) = (part.body for part in parts if part.key.kind == "house")
    photos = photos_of(parts, window)
    page = {
        "house": row,
        "about": about,
        "system": about.get("shown_in", "metric"),
        "ident": window,
        "plan": plan,
        "sashes": [
            (sash, proofs.get(sash.place)) for sash in (plan.upper, plan.lower) if sash is not None
        ],
        "sections": SECTIONS,
        "photos": photos,
        "found": found_of(json.loads(text), photos),
        "doing": doing_at(common, text),
        "needed": needed_at(json.loads(text)),
        "needed_shelf": NEEDED,
        "after": _followed(row, json.loads(text).get("after")),
        **_drawn(request, parts, text, row.pk, window),
    }
    return render(request, "window/window.html", page)


def _followed(house: House, name: str | None) -> str:
    """Give the tag of the window that one follows; empty for none."""
    if name is None:
        return ""
    return called_in(standing_parts(house, window=name)).get(name, name)


def _drawn(
    request: Asked, parts: Sequence[Standing], text: str, house: str, ident: str
) -> dict[str, Any]:
    """Give the drawings of the page, and which box is shown in section."""
    common, may_edit = common_to_windows(parts), request.access.may_edit
    sides = sides_of(kept_plan(common, text))
    side = request.GET.get("side", "")
    if side not in sides:
        side = next(reversed(sides), "")
    as_found = request.GET.get("as") == "found"
    drawn = (
        section(common, text, side, house, ident, as_found=as_found, may_edit=may_edit)
        if side
        else None
    )
    return {
        "elevation": elevation(common, text, house, ident, may_edit=may_edit),
        "section": drawn,
        "sides": sides,
        "side": side,
        "as_found": as_found,
    }


def new(request: Asked, house: str) -> HttpResponse:
    """Begin a window with what it cannot be saved without, or with the sizes of another."""
    row = get_object_or_404(House, pk=house)
    windows = [part for part in standing_parts(row) if part.key.kind == "window"]
    like = next((one for one in windows if one.key.ident == request.GET.get("like")), None)
    editor = replace(
        _editor(row, Key("window"), NEW),
        alongside=sizes_of(like.body) if like else {},
        others=[(one.body["tag"], one.key.ident) for one in windows],
    )
    return edit_part(request, editor)


def edit(request: Asked, house: str, window: str, section: str) -> HttpResponse:
    """Edit one section of a window."""
    row = get_object_or_404(House, pk=house)
    found = {**SECTIONS, **TRIED}.get(section)
    if found is None:
        raise Http404
    get_object_or_404(row.parts, kind="window", ident=window)
    editor = _editor(row, Key("window", window), found)
    if section in TRIED:
        place = section.partition("-")[0]
        editor = replace(editor, alongside=_begun(row, window, place, request.access.name))
    if PROGRAMME[0] in editor.paths:
        others = [one for one in window_names(standing_parts(row)) if one[0] != window]
        editor = replace(editor, choices={PROGRAMME[0]: others})
    return edit_part(request, editor)


def _begun(house: House, window: str, place: str, who: str) -> dict[str, Any]:
    """Give the day and the name that a sash begins to be tried with; nothing where it was."""
    parts = standing_parts(house, window=window)
    try:
        body = standing_window(parts, window).body
    except LookupError:
        raise Http404 from None
    if "completion" in body.get(place, {}):
        return {}
    here = f"{place}.completion"
    return {f"{here}.on": timezone.localdate().isoformat(), f"{here}.by": who}


@require_POST
def remove(request: Asked, house: str, window: str) -> HttpResponse:
    """Take a window out of the house; undo brings it back.

    Hours that are booked on it are not lost unasked: they are shown, to be kept or to go with it.
    """
    row = get_object_or_404(House, pk=house)
    parts = standing_parts(row)
    try:
        part = standing_window(parts, window)
    except LookupError:
        raise Http404 from None
    hours, choice = booked_on(parts, window), request.POST.get("hours", "")
    tag = str(part.body["tag"])
    if hours and choice not in HOURS:
        page = {
            "house": row,
            "name": house_name(row),
            "ident": window,
            "tag": tag,
            "booked": booked_in(one for one in parts if one in hours or one is part),
        }
        return render(request, "window/remove.html", page, status=409)
    edits = without_their_window(hours, tag, are_kept=choice == "keep")
    edits.append(Edit(part.key, part.number, removes=True))
    outcome = save(row, edits, who=request.access.name)
    if isinstance(outcome, Saved):
        return redirect("house", row.pk)
    page = {"house": row, "name": house_name(row), "outcome": outcome}
    return render(request, "house/cannot-undo.html", page, status=409)


def _editor(house: House, key: Key, section: Section) -> Editor:
    def done(saved: Key) -> str:
        return reverse("window", args=[house.pk, saved.ident])

    back = done(key) if key.ident else reverse("house", args=[house.pk])
    groups = {str(heading): paths for heading, paths in section.groups.items()}
    return Editor(house, key, str(section.title), groups, done, back)
