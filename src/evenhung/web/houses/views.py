"""The list of houses, and new ones: blank, from the demo, from a file or a workbook."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from evenhung.errors import InvalidFile, InvalidSurvey, SurveyFault
from evenhung.store.demo import SURVEY
from evenhung.survey import FORM, read_survey, survey_from
from evenhung.web.houses.bringing import ALLOWED, brought
from evenhung.web.houses.listing import listed_houses
from evenhung.web.records.beginning import begin
from evenhung.web.records.typed import from_form

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.web.access.door import Asked

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@require_GET
def houses(request: Asked) -> HttpResponse:
    """Show every house."""
    return _page(request)


@require_POST
def new(request: Asked) -> HttpResponse:
    """Begin a house of which only the name is known."""
    typed = {name: request.POST.get(name, "") for name in ("name", "shown_in")}
    stated = {name: value for name, value in from_form("house", typed).items() if value is not None}
    try:
        survey = survey_from({"form": FORM, "house": stated})
    except InvalidSurvey as refusal:
        return _page(request, typed=typed, faults=refusal.faults, status=422)
    house = begin(survey, who=request.access.name)
    return redirect("house", house.pk)


@require_POST
def demo(request: Asked) -> HttpResponse:
    """Begin with the demo house, to try things on."""
    house = begin(read_survey(SURVEY.read_bytes()), who=request.access.name)
    return redirect("house", house.pk)


@require_POST
def bring(request: Asked) -> HttpResponse:
    """Begin a house from a file: a survey, a filled-in workbook, a house as it was taken out."""
    file = request.FILES.get("file")
    if file is None:
        fault = SurveyFault("file", "(none chosen)", ALLOWED)
        return _page(request, faults=(fault,), status=422)
    try:
        house = brought(file, file.name or "", who=request.access.name)
    except InvalidSurvey as refusal:
        return _page(request, faults=refusal.faults, status=422)
    except InvalidFile as refusal:
        fault = SurveyFault(refusal.name, refusal.value, refusal.allowed)
        return _page(request, faults=(fault,), status=422)
    return redirect("house", house.pk)


@require_GET
def workbook(request: Asked) -> HttpResponse:
    """Give the blank workbook, to be filled in away from here and brought in again."""
    from evenhung.sheets.blank.workbook import blank_workbook  # a workbook is dear to load

    del request
    answer = HttpResponse(blank_workbook(), content_type=WORKBOOK)
    answer["Content-Disposition"] = 'attachment; filename="survey.xlsx"'
    return answer


def _page(
    request: Asked,
    *,
    typed: dict[str, str] | None = None,
    faults: Sequence[SurveyFault] = (),
    status: int = 200,
) -> HttpResponse:
    page = {"houses": list(listed_houses()), "typed": typed or {}, "faults": faults}
    return render(request, "houses/houses.html", page, status=status)
