"""What a browser needs to go on without a connection: the worker, two pages, and what to take."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.http import HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from evenhung.web.access.door import open_to_all
from evenhung.web.condition.shelves import LISTS
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.models import House
from evenhung.web.window.sections import SECTIONS, TRIED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from django.http import HttpRequest

    from evenhung.web.access.door import Asked

WORKER = "evenhung/away-worker.js"


@open_to_all
@require_GET
def worker(request: HttpRequest) -> HttpResponse:
    """Give the worker from the root, for a browser lets it look after what lies beneath alone."""
    del request
    script = (settings.STATIC / WORKER).read_bytes()
    return HttpResponse(script, content_type="text/javascript")


@open_to_all
@require_GET
def away(request: HttpRequest, what: str) -> HttpResponse:
    """Give the page that stands in for one that cannot be had, or says that nothing was saved."""
    return render(request, "away/away.html", {"is_unsaved": what == "not-saved"})


@require_GET
def along(request: Asked, house: str) -> JsonResponse:
    """Name every page that is wanted at the windows of a house."""
    del request
    row = get_object_or_404(House, pk=house)
    return JsonResponse({"pages": list(_pages(row))})


def _pages(row: House) -> Iterator[str]:
    yield reverse("houses")
    for name in ("house", "weigh-in", "weights", "new-window", "price", "book-hours", "programme"):
        yield reverse(name, args=[row.pk])
    for part in standing_parts(row):
        if part.key.kind == "window":
            here = [row.pk, part.key.ident]
            yield reverse("window", args=here)
            for section in (*SECTIONS, *TRIED):
                yield reverse("edit-window", args=[*here, section])
            for shelf in LISTS:
                yield reverse("new-found", args=[*here, shelf])
