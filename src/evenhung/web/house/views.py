"""One house: its windows, what is known of it, its history, and taking it out."""

from __future__ import annotations

import tempfile

from django.conf import settings
from django.http import FileResponse, HttpResponse, HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.safestring import mark_safe
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.housezip import write_house
from evenhung.store.parts import Key
from evenhung.survey import survey_from, written_survey
from evenhung.web.access.door import Asked, for_visitors, keeper_only
from evenhung.web.house.cards import next_steps, proved, tally, window_cards
from evenhung.web.houses.views import WORKBOOK
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.records.history import PAGE, history
from evenhung.web.records.latest import house_name, standing_parts, survey_document, survey_of
from evenhung.web.records.models import Change, House
from evenhung.web.records.saving import Saved
from evenhung.web.records.undoing import undo

ABOUT = {
    "The house": ("name", "shown_in", "built", "protected", "glass_rules", "scale_step", "note"),
    "Cord": (
        "cord.diameter",
        "cord.mass_per_length",
        "cord.knot",
        "cord.tail",
        "cord.stretch_pct",
    ),
    "To hang true: lower sash heavier than its pair by": (
        "policy.lower_excess.least",
        "policy.lower_excess.best",
        "policy.lower_excess.most",
    ),
    "To hang true: pair heavier than the upper sash by": (
        "policy.upper_deficit.least",
        "policy.upper_deficit.best",
        "policy.upper_deficit.most",
    ),
    "Clearances": (
        "policy.pair_difference",
        "policy.stretch_allowance",
        "policy.pulley_clearance",
        "policy.bottom_clearance",
        "policy.nail_margin",
        "policy.make_weight_metal",
    ),
}
"""The fields of a house by the headings they stand under."""


@for_visitors
@require_GET
def house(request: Asked, house: str) -> HttpResponse:
    """Show every window of a house, and what to do next."""
    row = get_object_or_404(House, pk=house)
    parts = standing_parts(row)
    (about,) = (part.body for part in parts if part.key.kind == "house")
    cards = window_cards(parts, row.pk)
    page = {
        "house": row,
        "about": about,
        "cards": cards,
        "windows": mark_safe("".join(card.shown for card in cards)),  # noqa: S308 cards are escaped
        "next": next_steps(cards),
        "tally": tally(cards),
        "proved": proved(cards),
        "last": Change.objects.filter(house=row).order_by("number").last(),
    }
    return render(request, "house/house.html", page)


def about(request: Asked, house: str) -> HttpResponse:
    """Edit what is known of the house as a whole."""
    row = get_object_or_404(House, pk=house)
    here = reverse("house", args=[row.pk])
    editor = Editor(row, Key("house"), _("About the house"), ABOUT, lambda _key: here, here)
    return edit_part(request, editor)


@require_GET
def changes(request: Asked, house: str) -> HttpResponse:
    """Show the history of a house, newest first."""
    row = get_object_or_404(House, pk=house)
    before = request.GET.get("before", "")
    told = list(history(row, before=int(before) if before.isdecimal() else None))
    more = told[-1].change.number if len(told) == PAGE and told[-1].change.number > 1 else None
    page = {"house": row, "name": house_name(row), "told": told, "more": more}
    return render(request, "house/history.html", page)


@require_POST
def take_back(request: Asked, house: str, number: int) -> HttpResponse:
    """Undo one change, and nothing that came after it."""
    change = get_object_or_404(Change, house=house, number=number)
    outcome = undo(change, who=request.access.name)
    if isinstance(outcome, Saved):
        return redirect("history" if request.POST.get("back") == "history" else "house", house)
    page = {"house": change.house, "name": house_name(change.house), "outcome": outcome}
    return render(request, "house/cannot-undo.html", page, status=409)


@require_GET
def take_out(request: Asked, house: str) -> FileResponse:
    """Send the house as one zip of open formats: survey and photos."""
    row = get_object_or_404(House, pk=house)
    parts = standing_parts(row)
    survey = survey_from(survey_document(parts))
    photos = [part.body for part in parts if part.key.kind == "photo"]
    file = tempfile.TemporaryFile(dir=settings.CONFIG.folder.path)  # noqa: SIM115 the answer closes it
    write_house(file, survey, photos, settings.CONFIG.folder.photos)
    file.seek(0)
    name = slugify(survey.house.name) or "house"
    return FileResponse(file, as_attachment=True, filename=f"{name}.zip")


@require_GET
def survey_file(request: Asked, house: str) -> HttpResponse:
    """Send the survey alone, as TOML."""
    row = get_object_or_404(House, pk=house)
    survey = survey_of(row)
    name = slugify(survey.house.name) or "house"
    headers = {"Content-Disposition": f'attachment; filename="{name}.toml"'}
    return HttpResponse(written_survey(survey), content_type="application/toml", headers=headers)


@require_GET
def survey_workbook(request: Asked, house: str) -> HttpResponse:
    """Send the survey as a workbook, to be gone on with away from here and brought in again."""
    from evenhung.sheets.blank.filled import filled_workbook  # a workbook is dear to load

    survey = survey_of(get_object_or_404(House, pk=house))
    name = slugify(survey.house.name) or "house"
    headers = {"Content-Disposition": f'attachment; filename="{name}.xlsx"'}
    return HttpResponse(filled_workbook(survey), content_type=WORKBOOK, headers=headers)


@keeper_only
@require_POST
def put_away(request: Asked, house: str) -> HttpResponse:
    """Take a house off the list, or put it back; nothing of it is lost."""
    row = get_object_or_404(House, pk=house)
    wanted = request.POST.get("away")
    if wanted not in ("yes", "no"):
        return HttpResponseBadRequest("away")
    row.is_put_away = wanted == "yes"
    row.save(update_fields=["is_put_away"])
    return redirect("houses")
