"""The page of the weights: the list, the rack, the allotment and what is decided."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from evenhung.store.parts import Key, record_of
from evenhung.survey import survey_from
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.records.latest import latest_change, standing_parts, survey_document
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save
from evenhung.web.weights.deciding import decided_lines, decision, decisions_for_all
from evenhung.web.weights.listing import rack, weights_of
from evenhung.web.weights.solving import (
    SECONDS,
    Busy,
    begin_solve,
    last_solve,
    standing_solve,
    stop_solve,
)

if TYPE_CHECKING:
    from django.http import HttpResponse

    from evenhung.survey import Survey
    from evenhung.web.access.door import Asked

LOOSE = {
    "The weight": ("tag", "room", "weighed", "marked", "length", "diameter", "section", "metal"),
    "Besides": ("eye_depth", "note"),
}
CONFLICT = 409


@require_GET
def weights(request: Asked, house: str) -> HttpResponse:
    """Show all the weights of a house, and the allotment as it stands."""
    row = get_object_or_404(House, pk=house)
    return render(request, "weights/weights.html", _page(row))


def _page(house: House) -> dict[str, Any]:
    survey = _survey(house)
    found = weights_of(survey)
    system = survey.house.shown_in or "metric"
    return {
        "house": house,
        "name": survey.house.name,
        "system": system,
        "weights": found,
        "rack": rack(found, system),
        "decided": decided_lines(survey),
        **_standing(house),
    }


def _standing(house: House) -> dict[str, Any]:
    solve = standing_solve(house)
    is_old = solve is not None and solve.change != latest_change(house)
    answer = solve.answer if solve else None
    return {"solve": solve, "answer": answer, "is_old": is_old, "seconds": SECONDS}


def _survey(house: House) -> Survey:
    parts = [part for part in standing_parts(house) if record_of(part.key.kind)]
    return survey_from(survey_document(parts))


@require_http_methods(["GET", "POST"])
def allot(request: Asked, house: str) -> HttpResponse:
    """Begin an allotment; asked for by GET, say how it stands, as a part of the page."""
    row = get_object_or_404(House, pk=house)
    if request.method == "GET":
        return render(request, "weights/standing.html", {"house": row, **_standing(row)})
    seconds = request.POST.get("seconds", "")
    if seconds not in [str(one) for one in SECONDS]:
        return HttpResponseBadRequest("seconds")
    try:
        begin_solve(row, seconds=int(seconds), who=request.access.name)
    except Busy:
        said = _("Another allotment is being worked out. Wait for it, or stop it, then try again.")
        return render(
            request, "weights/weights.html", {**_page(row), "said": said}, status=CONFLICT
        )
    return redirect("weights", row.pk)


@require_POST
def stop(request: Asked, house: str) -> HttpResponse:
    """Let an allotment end with the best that it has found."""
    row = get_object_or_404(House, pk=house)
    solve = last_solve(row)
    if solve is not None:
        stop_solve(solve)
    return redirect("weights", row.pk)


@require_POST
def decide(request: Asked, house: str) -> HttpResponse:
    """Keep a decision on one side of the answer, or accept the whole of it."""
    row = get_object_or_404(House, pk=house)
    solve = last_solve(row)
    answer, what = solve.answer if solve else None, request.POST.get("what", "")
    number = request.POST.get("side", "")
    if answer is None:
        return HttpResponseBadRequest("answer")
    survey, who = _survey(row), request.access.name
    try:
        if what == "all":
            edits = decisions_for_all(survey, answer, who)
        elif what in ("hang", "never") and number.isdecimal():
            side = answer["sides"][int(number)]
            edits = [decision(survey, "hang" if what == "hang" else "never", side, who)]
        else:
            return HttpResponseBadRequest("what")
    except LookupError as gone:
        return render(
            request, "weights/weights.html", {**_page(row), "said": gone}, status=CONFLICT
        )
    outcome = save(row, edits, who=who)
    if isinstance(outcome, Saved):
        return redirect("weights", row.pk)
    return render(
        request, "house/cannot-undo.html", {"house": row, "outcome": outcome}, status=CONFLICT
    )


@require_POST
def undecide(request: Asked, house: str, decision: str) -> HttpResponse:
    """Take a decision back."""
    row = get_object_or_404(House, pk=house)
    part = get_object_or_404(row.parts.select_related("latest"), kind="decision", ident=decision)
    number = part.latest.number if part.latest else 0
    save(row, [Edit(part.key, number, removes=True)], who=request.access.name)
    return redirect("weights", row.pk)


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
