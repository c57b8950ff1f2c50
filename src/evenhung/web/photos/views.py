"""Photos: handed in, shown, said something of, removed."""

from __future__ import annotations

from typing import IO, TYPE_CHECKING, Any

from django.conf import settings
from django.http import FileResponse, Http404, HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from evenhung.errors import InvalidFile
from evenhung.store.parts import Key, new_id
from evenhung.store.photos import MOST_BYTES, keep_photo, photo_file, small_file
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.records.latest import Standing, standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.photos import LONGEST
from evenhung.web.records.saving import Saved, save

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.core.files.uploadedfile import UploadedFile
    from django.http import HttpResponse

PLACES = {
    "": _("the whole window"),
    "upper": _("upper sash"),
    "lower": _("lower sash"),
    "upper.left": _("upper sash, left weight"),
    "upper.right": _("upper sash, right weight"),
    "lower.left": _("lower sash, left weight"),
    "lower.right": _("lower sash, right weight"),
    "box": _("box"),
    "pulley": _("pulleys"),
    "sill": _("sill"),
    "head": _("head"),
    "left pulley stile": _("left pulley stile"),
    "right pulley stile": _("right pulley stile"),
    "upper glass": _("upper sash, glass"),
    "lower glass": _("lower sash, glass"),
}
"""What a photo can show: by where that stands in the survey of the window, or the part's name."""
FOR_GOOD = "private, max-age=31536000, immutable"
"""A photo is found by the checksum of its bytes and so never changes."""


@for_visitors
@require_http_methods(["GET", "POST"])
def photos(request: Asked, house: str, window: str) -> HttpResponse:
    """Show the photos of a window; take in more."""
    row = get_object_or_404(House, pk=house)
    get_object_or_404(row.parts, kind="window", ident=window)
    if request.method == "GET":
        return _page(request, row, window)
    place = request.POST.get("place", "")
    files = request.FILES.getlist("photo")
    if place not in PLACES or not files:
        return HttpResponseBadRequest("photo, place")
    try:
        checksums = [_kept(file) for file in files]
    except InvalidFile as refusal:
        return _page(request, row, window, refusal=refusal)
    note = request.POST.get("note", "").strip()
    records = [_record(window, place, note, one) for one in checksums]
    edits = [Edit(Key("photo", one["id"]), 0, one) for one in records]
    outcome = save(row, edits, who=request.access.name)
    if not isinstance(outcome, Saved):
        return HttpResponseBadRequest("note")
    return redirect("photos", row.pk, window)


def _record(window: str, place: str, note: str, checksum: str) -> dict[str, str]:
    said = {"place": place, "note": note}
    stated = {name: value for name, value in said.items() if value}
    return {"id": new_id(), "sha256": checksum, "of": window, **stated}


def _kept(file: UploadedFile) -> str:
    name = (file.name or "photo")[-60:]
    return keep_photo(settings.CONFIG.folder.photos, file.read(MOST_BYTES + 1), name=name)


def photos_of(parts: Sequence[Standing], window: str) -> list[dict[str, Any]]:
    """Give the photos of a window as its pages show them."""
    return [
        {
            **part.body,
            "id": part.key.ident,
            "base": part.number,
            "shows": str(PLACES.get(part.body.get("place", ""), "")),
        }
        for part in parts
        if part.key.kind == "photo" and part.body.get("of") == window
    ]


def _page(
    request: Asked,
    house: House,
    window: str,
    *,
    refusal: InvalidFile | None = None,
    unsaid: Mapping[str, str] | None = None,
) -> HttpResponse:
    parts = standing_parts(house, window=window)
    page = {
        "house": house,
        "window": window,
        "tag": next((part.body["tag"] for part in parts if part.key.ident == window), ""),
        "photos": photos_of(parts, window),
        "places": PLACES,
        "refusal": refusal,
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
    """Remove a photo; undo brings it back."""
    row = get_object_or_404(House, pk=house)
    part = get_object_or_404(row.parts.select_related("latest"), kind="photo", ident=photo)
    body = part.latest.body if part.latest else None
    if body is None or part.latest is None:
        raise Http404
    save(row, [Edit(part.key, part.latest.number, removes=True)], who=request.access.name)
    return redirect("photos", row.pk, body["of"])


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
