"""The pack of a house: asked for, watched, stopped, downloaded."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from django.http import FileResponse, Http404, HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.web.errand.sending import Busy
from evenhung.web.pack.making import Wanted, begin_pack, folder_of, zip_of
from evenhung.web.records.latest import latest_change, survey_of
from evenhung.web.records.models import House

if TYPE_CHECKING:
    from django.http import HttpResponse

    from evenhung.web.access.door import Asked

CONFLICT = 409
PAPERS = {"a4": "A4", "letter": "US Letter"}
PLACE = "{window}"
_STANDS_FOR_WINDOW = "0window0"
"""What an address is made with, before the place of the window's id is put there."""


@require_GET
def pack(request: Asked, house: str) -> HttpResponse:
    """Show how the pack stands, and ask for another."""
    row = get_object_or_404(House, pk=house)
    return render(request, "pack/pack.html", _page(row))


def _page(house: House) -> dict[str, Any]:
    standing = folder_of(house).read()
    survey = survey_of(house)
    page: dict[str, Any] = {
        "house": house,
        "name": survey.house.name,
        "windows": len(survey.window),
        "papers": PAPERS,
        "standing": standing,
        "is_making": standing is not None and standing.is_making,
        "has_zip": zip_of(house).exists(),
    }
    if standing is not None:
        page["paper"] = PAPERS[standing.wanted["paper"]]
        page["since"] = latest_change(house) - standing.change
        page["started"] = datetime.fromtimestamp(standing.started, UTC)
    return page


@require_GET
def pack_standing(request: Asked, house: str) -> HttpResponse:
    """Say how far it is, as a part of a page; once it has ended, have the page shown anew."""
    row = get_object_or_404(House, pk=house)
    page = _page(row)
    answer = render(request, "pack/standing.html", page)
    if not page["is_making"]:
        answer["HX-Refresh"] = "true"
    return answer


@require_POST
def begin(request: Asked, house: str) -> HttpResponse:
    """Begin to make the pack."""
    row = get_object_or_404(House, pk=house)
    paper = request.POST.get("paper", "")
    if paper not in PAPERS:
        return HttpResponseBadRequest("paper")
    address = reverse("window", args=[row.pk, _STANDS_FOR_WINDOW])
    wanted = Wanted(
        paper=paper,
        is_drawn=request.POST.get("drawings") == "yes",
        is_allotted=request.POST.get("allotted") == "yes",
        who=request.access.name,
        link=request.build_absolute_uri(address).replace(_STANDS_FOR_WINDOW, PLACE),
        name=_file_name(survey_of(row).house.name),
        on=timezone.localdate(),
    )
    try:
        begin_pack(row, wanted)
    except Busy:
        said = _("Another pack is being made. Wait for it, or stop it, then try again.")
        return render(request, "pack/pack.html", {**_page(row), "said": said}, status=CONFLICT)
    return redirect("pack", row.pk)


@require_POST
def stop(request: Asked, house: str) -> HttpResponse:
    """Let it end before the next file."""
    row = get_object_or_404(House, pk=house)
    folder_of(row).ask_to_stop()
    return redirect("pack", row.pk)


@require_GET
def download(request: Asked, house: str) -> FileResponse:
    """Send the pack that is ready."""
    row = get_object_or_404(House, pk=house)
    try:
        file = zip_of(row).open("rb")
    except FileNotFoundError:
        raise Http404 from None
    name = _file_name(survey_of(row).house.name)
    return FileResponse(file, as_attachment=True, filename=f"{name}-sheets.zip")


def _file_name(name: str) -> str:
    return slugify(name)[:60].strip("-") or "house"
