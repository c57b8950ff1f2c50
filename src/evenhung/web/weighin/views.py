"""The page of the weigh-in."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import urlencode

from django.http import HttpResponseBadRequest, HttpResponseRedirect
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from evenhung.store.parts import Key
from evenhung.web.page.form import PREFIX, form_fields
from evenhung.web.page.trouble import trouble
from evenhung.web.page.views import said_of
from evenhung.web.plans import common_to_windows, kept_plan, standing_window
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Conflict, Refused, Saved, save
from evenhung.web.records.typed import from_form
from evenhung.web.weighin.items import as_read_off, items_of, next_to_weigh

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.http import HttpResponse

    from evenhung.plan import SashPlan
    from evenhung.web.access.door import Asked
    from evenhung.web.records.latest import Standing
    from evenhung.web.weighin.items import Item

UNPROCESSABLE, CONFLICT = 422, 409


@require_http_methods(["GET", "POST"])
def weigh_in(request: Asked, house: str) -> HttpResponse:
    """Show what is on the scale, and save what it weighs."""
    row = get_object_or_404(House, pk=house)
    items = items_of(standing_parts(row))
    if request.method == "POST":
        item = next((one for one in items if one.name == request.POST.get("item")), None)
        base = request.POST.get("base", "")
        if not base.isdecimal():
            return HttpResponseBadRequest("base")
        if item is None:
            said = _("What was on the scale is no longer in the survey: somebody has removed it.")
            return trouble(request, CONFLICT, said)
        return _weighed(request, row, item, int(base))
    wanted = request.GET.get("at", "")
    at = next((item for item in items if item.name == wanted), None) or next_to_weigh(items)
    return _page(request, row, at)


@require_POST
def read_off(request: Asked, house: str) -> HttpResponse:
    """Say how a mass is understood as it is read off the scale, before it is saved."""
    get_object_or_404(House, pk=house)
    return said_of(request, as_read_off)


def _weighed(request: Asked, house: House, item: Item, base: int) -> HttpResponse:
    """Save a mass and go on; or stay, with what is wrong or what somebody saved meanwhile."""
    text = as_read_off(request.POST.get(PREFIX + item.path, ""))
    fields = from_form("window", {item.path: text})
    edit = Edit(Key("window", item.window), base, fields)
    outcome = save(house, [edit], who=request.access.name)
    if isinstance(outcome, Saved):
        following = next_to_weigh(items_of(standing_parts(house)), item.name)
        told = {"done": item.name, "saved": f"weigh-in/{item.name}"}
        address = reverse("weigh-in", args=[house.pk])
        at = {"at": following.name} if following else {}
        return HttpResponseRedirect(f"{address}?{urlencode({**at, **told})}")
    if isinstance(outcome, Conflict):
        return _page(request, house, item, text=text, conflict=outcome)
    return _page(request, house, item, text=text, refused=outcome)


def _page(
    request: Asked,
    house: House,
    at: Item | None,
    *,
    text: str | None = None,
    refused: Refused | None = None,
    conflict: Conflict | None = None,
) -> HttpResponse:
    parts = standing_parts(house)
    items = items_of(parts)
    done = next((item for item in items if item.name == request.GET.get("done")), None)
    faults = {fault.field: fault.allowed for fault in refused.faults} if refused else {}
    page = {
        "house": house,
        "name": next(part.body["name"] for part in parts if part.key.kind == "house"),
        "items": items,
        "left": sum(item.is_wanted and not item.weighed for item in items),
        "at": at,
        "base": conflict.disputes[0].latest if conflict else at.base if at else 0,
        "dispute": conflict.disputes[0] if conflict else None,
        "field": _field(at, at.weighed if text is None else text, faults) if at else None,
        "done": done,
        "verdict": _verdict(parts, done or at),
    }
    status = UNPROCESSABLE if refused else CONFLICT if conflict else 200
    return render(request, "weighin/weigh-in.html", page, status=status)


def _field(at: Item, text: str, faults: dict[str, str]) -> object:
    (field,) = form_fields("window", [at.path], None, typed={at.path: text}, faults=faults)
    return field


def _verdict(parts: Sequence[Standing], item: Item | None) -> SashPlan | None:
    """Give the plan of the sash that something was weighed of."""
    if item is None:
        return None
    window = standing_window(parts, item.window)
    plan = kept_plan(common_to_windows(parts), window.text)
    return plan.upper if item.place == "upper" else plan.lower
