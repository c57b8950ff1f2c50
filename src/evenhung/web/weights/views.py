"""The page of the weights: the allotment in short, the rack, the list; the loose ones edited."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.allotment.reading import idle_in, places_of
from evenhung.web.allotment.since import since
from evenhung.web.allotment.solving import last_answered, last_run
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.page.paging import pages
from evenhung.web.plans import kept_survey
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save
from evenhung.web.weights.listing import PAGE, WHICH, Wanted, weights_of
from evenhung.web.weights.rack import hooks_of

if TYPE_CHECKING:
    from django.http import HttpResponse

LOOSE = {
    "The weight": ("tag", "room", "weighed", "marked", "length", "diameter", "section", "metal"),
    "Besides": ("eye_depth", "note"),
}
CONFLICT = 409


@for_visitors
@require_GET
def weights(request: Asked, house: str) -> HttpResponse:
    """Show all the weights of a house, drawn and listed."""
    row = get_object_or_404(House, pk=house)
    return render(request, "weights/weights.html", _page(request, row))


def _page(request: Asked, house: House) -> dict[str, Any]:
    survey = kept_survey(standing_parts(house))
    run, answered = last_run(house), last_answered(house)
    every = weights_of(survey, places_of(answered), idle_in(answered))
    wanted = Wanted.from_query(request.GET)
    found = wanted.among(every)
    shown = found[wanted.skipped : wanted.skipped + PAGE]
    system = survey.house.shown_in or "metric"
    return {
        "house": house,
        "name": survey.house.name,
        "system": system,
        "other": "metric" if system == "imperial" else "imperial",
        "every": every,
        "weights": shown,
        "found": len(found),
        "pages": pages(len(found), wanted.skipped, PAGE, request.GET),
        "wanted": wanted,
        "which": WHICH,
        "hooks": hooks_of(shown, system),
        "run": run,
        "since": since(answered) if answered else None,
    }


def new_loose(request: Asked, house: str) -> HttpResponse:
    """Add a weight that lies loose."""
    return _edit_loose(request, house, Key("weight"), _("A loose weight"))


def loose(request: Asked, house: str, weight: str) -> HttpResponse:
    """Edit a weight that lies loose."""
    row = get_object_or_404(House, pk=house)
    get_object_or_404(row.parts, kind="weight", ident=weight)
    return _edit_loose(request, house, Key("weight", weight), _("Loose weight"))


def _edit_loose(request: Asked, house: str, key: Key, title: str) -> HttpResponse:
    row = get_object_or_404(House, pk=house)
    back = reverse("weights", args=[row.pk])
    return edit_part(request, Editor(row, key, title, LOOSE, lambda _key: back, back))


@require_POST
def remove_loose(request: Asked, house: str, weight: str) -> HttpResponse:
    """Take a loose weight out of the survey; undo brings it back."""
    row = get_object_or_404(House, pk=house)
    part = get_object_or_404(row.parts.select_related("latest"), kind="weight", ident=weight)
    number = part.latest.number if part.latest else 0
    outcome = save(row, [Edit(part.key, number, removes=True)], who=request.access.name)
    if isinstance(outcome, Saved):
        return redirect("weights", row.pk)
    said = _("It was not removed: something is decided about it. Withdraw that first.")
    page = {**_page(request, row), "said": said}
    return render(request, "weights/weights.html", page, status=CONFLICT)
