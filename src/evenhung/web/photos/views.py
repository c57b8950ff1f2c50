"""Photos: handed in, shown, said something of, removed."""

from __future__ import annotations

from typing import IO, TYPE_CHECKING

from django.conf import settings
from django.http import FileResponse, Http404, HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from evenhung.errors import InvalidFile
from evenhung.store.parts import Key
from evenhung.store.photos import photo_file, small_file
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.page.trouble import trouble
from evenhung.web.photos.showing import PLACES, findings_without, photos_of
from evenhung.web.records.latest import house_name, standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.photos import LONGEST
from evenhung.web.records.saving import Saved, save
from evenhung.web.records.taking import taken_in

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from django.http import HttpResponse

FOR_GOOD = "private, max-age=31536000, immutable"
"""A photo is found by the checksum of its bytes and so never changes."""


@for_visitors
@require_http_methods(["GET", "POST"])
def photos(request: Asked, house: str, window: str) -> HttpResponse:
    """Show the photos of a window; take in more."""
    row = get_object_or_404(House, pk=house)
    get_object_or_404(row.parts, kind="window", ident=window, latest__text__gt="")
    if request.method == "GET":
        return _page(request, row, window)
    place = request.POST.get("place", "")
    files = request.FILES.getlist("photo")
    if place not in PLACES or not files:
        return HttpResponseBadRequest("photo, place")
    note = request.POST.get("note", "").strip()
    try:
        edits = taken_in(files, window, place=place, note=note)
    except InvalidFile as refusal:
        return _page(request, row, window, refusal=refusal, said={"place": place, "note": note})
    outcome = save(row, edits, who=request.access.name)
    if not isinstance(outcome, Saved):
        return HttpResponseBadRequest("note")
    return redirect("photos", row.pk, window)


def _page(
    request: Asked,
    house: House,
    window: str,
    *,
    refusal: InvalidFile | None = None,
    said: Mapping[str, str] | None = None,
    unsaid: Mapping[str, str] | None = None,
) -> HttpResponse:
    parts = standing_parts(house, window=window)
    page = {
        "house": house,
        "name": house_name(house),
        "window": window,
        "tag": next((part.body["tag"] for part in parts if part.key.ident == window), ""),
        "photos": photos_of(parts, window),
        "places": PLACES,
        "refusal": refusal,
        "said": said,
        "unsaid": unsaid,
    }
    status = 422 if refusal else 409 if unsaid else 200
    return render(request, "photos/photos.html", page, status=status)


@require_POST
def said(request: Asked, house: str, photo: str) -> HttpResponse:
    """Say something else of a photo; where another has meanwhile, both are shown."""
    row = get_object_or_404(House, pk=house)
    body = _standing(row, photo)
    place, base = request.POST.get("place", ""), request.POST.get("base", "")
    note = request.POST.get("note", "").strip()
    if place not in PLACES or not base.isdecimal() or len(note) > LONGEST["note"]:
        return HttpResponseBadRequest("place, base, note")
    edit = Edit(Key("photo", photo), int(base), {"place": place or None, "note": note or None})
    outcome = save(row, [edit], who=request.access.name)
    if not isinstance(outcome, Saved):
        unsaid = {"id": photo, "note": note, "place": place, "shows": str(PLACES[place])}
        return _page(request, row, body["of"], unsaid=unsaid)
    return redirect("photos", row.pk, body["of"])


@require_POST
def photo(request: Asked, house: str, photo: str) -> HttpResponse:
    """Remove a photo, also from what names it; undo brings both back."""
    row = get_object_or_404(House, pk=house)
    part = get_object_or_404(row.parts.select_related("latest"), kind="photo", ident=photo)
    body = part.latest.body if part.latest else None
    if body is None or part.latest is None:
        raise Http404
    edits = [Edit(part.key, part.latest.number, removes=True), *_unnamed(row, body["of"], photo)]
    outcome = save(row, edits, who=request.access.name)
    if not isinstance(outcome, Saved):
        return trouble(request, 409, _("It was not removed. Try again."))
    return redirect("photos", row.pk, body["of"])


def _unnamed(house: House, window: str, photo: str) -> Iterator[Edit]:
    """Let no finding of its window name a photo that is removed."""
    for part in standing_parts(house, window=window):
        if part.key == ("window", window):
            findings = findings_without(part.body, photo)
            if findings is not None:
                yield Edit(part.key, part.number, {"finding": findings})


@for_visitors
@require_GET
def whole(request: Asked, house: str, photo: str) -> FileResponse:
    """Send a photo."""
    checksum = _standing(get_object_or_404(House, pk=house), photo)["sha256"]
    return _sent(photo_file(settings.CONFIG.folder.photos, checksum).open("rb"))


@for_visitors
@require_GET
def small_one(request: Asked, house: str, photo: str) -> FileResponse:
    """Send a small one of a photo."""
    checksum = _standing(get_object_or_404(House, pk=house), photo)["sha256"]
    return _sent(small_file(settings.CONFIG.folder.photos, checksum).open("rb"))


def _standing(house: House, photo: str) -> dict[str, str]:
    """Give the record of a photo that is there and was not removed."""
    part = get_object_or_404(house.parts.select_related("latest"), kind="photo", ident=photo)
    body = part.latest.body if part.latest else None
    if body is None:
        raise Http404
    return body


def _sent(file: IO[bytes]) -> FileResponse:
    return FileResponse(file, content_type="image/jpeg", headers={"Cache-Control": FOR_GOOD})
