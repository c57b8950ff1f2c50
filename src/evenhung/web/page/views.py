"""What a page asks while someone types."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import HttpResponseBadRequest
from django.shortcuts import render
from django.views.decorators.http import require_POST

from evenhung.web.page.form import PREFIX, form_fields
from evenhung.web.records.typed import entry_at, refusal

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse


@require_POST
def understood_as(request: HttpRequest) -> HttpResponse:
    """Say beside a field how its quantity is understood, or what is wrong with it."""
    return said_of(request, lambda text: text)


def said_of(request: HttpRequest, read: Callable[[str], str]) -> HttpResponse:
    """Say how what was typed is understood, once a page has read it in its own way."""
    kind, path = request.POST.get("kind", ""), request.POST.get("path", "")
    if entry_at(kind, path) is None:
        return HttpResponseBadRequest("path")
    text = read(request.POST.get(PREFIX + path, ""))
    faults = {path: refusal(kind, path, text)}
    (field,) = form_fields(kind, [path], None, typed={path: text}, faults=faults)
    return render(request, "page/answer.html", {"field": field})
