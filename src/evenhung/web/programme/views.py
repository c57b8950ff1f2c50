"""The programme of a house: asked for, watched, shown, moved when a day is lost."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from django.http import FileResponse, Http404
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.errand.sending import Busy
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.page.paging import AFTER, number_in, pages
from evenhung.web.programme.chart import LETTERS, chart_of, visits_of, written
from evenhung.web.programme.solver import CALENDAR
from evenhung.web.programme.working import begin_programme, folder_of, last_programme
from evenhung.web.records.latest import latest_change, standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.http import HttpResponse

    from evenhung.web.records.latest import Standing

CONFLICT, UNPROCESSABLE = 409, 422
PAGE = 40
"""Windows on a page."""
SETTINGS = {
    "Days": (
        "programme.start",
        "programme.deadline",
        "programme.days",
        "programme.holidays",
        "programme.lost",
    ),
    "People and means": (
        "programme.crew",
        "programme.hours_a_day",
        "programme.benches",
        "programme.sashes_out",
        "programme.boards",
    ),
    "From glazing to the first coat, in days": (
        "programme.putty_skin.least",
        "programme.putty_skin.likely",
        "programme.putty_skin.most",
    ),
    "From coat to coat, in days": (
        "programme.coats",
        "programme.recoat.least",
        "programme.recoat.likely",
        "programme.recoat.most",
    ),
}
"""What a programme is made with, by the headings it stands under."""


@for_visitors
@require_GET
def programme(request: Asked, house: str) -> HttpResponse:
    """Show the programme as it was last worked out, and ask for another."""
    row = get_object_or_404(House, pk=house)
    return render(request, "programme/programme.html", _page(request, row))


def _page(request: Asked, house: House) -> dict[str, Any]:
    about, standing, found = _about(house).body, folder_of(house).read(), last_programme(house)
    page: dict[str, Any] = {
        "house": house,
        "name": about["name"],
        "standing": standing,
        "is_making": standing is not None and standing.is_making,
        "since": latest_change(house) - standing.change if standing is not None else 0,
        "lost": [written(date.fromisoformat(day)) for day in _lost(about)],
        "found": found,
    }
    if found is not None:
        page |= _shown(request, found)
    return page


def _shown(request: Asked, found: Mapping[str, Any]) -> dict[str, Any]:
    """Give what came of the last run: days as people write them, a page of windows."""
    visits, skipped = visits_of(found), number_in(request.GET, AFTER)
    days = {
        **{name: found[name] for name in ("start", "end", "soonest")},
        "earliest": found["ends"]["least"],
        "latest": found["ends"]["most"],
        "without_deadline": (found["conflict"] or {}).get("without_deadline"),
    }
    return {
        "days": {name: written(date.fromisoformat(day)) for name, day in days.items() if day},
        "has_waits": found.get("has_waits", found["ends"]["least"] is not None),
        "is_proved_conflict": (found["conflict"] or {}).get("is_proved", True),
        "is_proved": found["end"] == found["soonest"],
        "visits": visits[skipped : skipped + PAGE],
        "chart": chart_of(found, skipped, skipped + PAGE),
        "letters": LETTERS.values(),
        "changes": [
            {
                **one,
                "was": _span(one["was"], one.get("was_last")),
                "now": _span(one["now"], one.get("now_last")),
            }
            for one in found["changes"]
        ],
        "pages": pages(len(visits), skipped, PAGE, request.GET),
    }


def _span(first: str, last: str | None) -> str:
    """Write a day, or the first and the last of several; a programme from before has one alone."""
    days = {"first": written(date.fromisoformat(first))}
    days["last"] = written(date.fromisoformat(last or first))
    return days["first"] if last in (None, first) else _("%(first)s to %(last)s") % days


def _about(house: House) -> Standing:
    (about,) = (part for part in standing_parts(house, window="") if part.key.kind == "house")
    return about


def _lost(about: Mapping[str, Any]) -> list[str]:
    return sorted(about.get("programme", {}).get("lost", []))


@for_visitors
@require_GET
def programme_standing(request: Asked, house: str) -> HttpResponse:
    """Say how it stands, as a part of a page; once it has ended, have the page shown anew."""
    row = get_object_or_404(House, pk=house)
    standing = folder_of(row).read()
    is_making = standing is not None and standing.is_making
    page = {"house": row, "standing": standing, "is_making": is_making}
    answer = render(request, "programme/standing.html", page)
    if not is_making:
        answer["HX-Refresh"] = "true"
    return answer


def settings(request: Asked, house: str) -> HttpResponse:
    """Edit the days and the means that a programme is made with."""
    row = get_object_or_404(House, pk=house)
    here = reverse("programme", args=[row.pk])
    title, back_name = _("Days and means"), _("Programme")
    editor = Editor(
        row, Key("house"), title, SETTINGS, lambda _key: here, here, back_name=back_name
    )
    return edit_part(request, editor)


@require_POST
def begin(request: Asked, house: str) -> HttpResponse:
    """Begin to work out the programme."""
    row = get_object_or_404(House, pk=house)
    try:
        begin_programme(row, who=request.access.name, on=timezone.localdate())
    except Busy:
        said = _("Another programme is being worked out. Wait for it, or stop it, then try again.")
        return _again(request, row, said, CONFLICT)
    return redirect("programme", row.pk)


def _again(request: Asked, house: House, said: str, status: int) -> HttpResponse:
    page = {**_page(request, house), "said": said}
    return render(request, "programme/programme.html", page, status=status)


@require_POST
def stop(request: Asked, house: str) -> HttpResponse:
    """End it; the programme from before stays."""
    del request
    row = get_object_or_404(House, pk=house)
    folder_of(row).ask_to_stop()
    return redirect("programme", row.pk)


@require_POST
def lose_a_day(request: Asked, house: str) -> HttpResponse:
    """Book a day that was lost, and work the rest out anew."""
    row = get_object_or_404(House, pk=house)
    day, about = request.POST.get("day", ""), _about(row)
    lost = sorted({*_lost(about.body), day})
    edit = Edit(about.key, about.number, {"programme.lost": lost})
    outcome = save(row, [edit], who=request.access.name)
    if isinstance(outcome, Saved):
        return begin(request, house)
    said = _("It was not booked: %(day)s: a day, year first, such as 2026-03-09.") % {"day": day}
    return _again(request, row, said, UNPROCESSABLE)


@for_visitors
@require_GET
def calendar(request: Asked, house: str) -> FileResponse | HttpResponse:
    """Send the programme as a calendar file."""
    row = get_object_or_404(House, pk=house)
    try:
        file = (folder_of(row).path / CALENDAR).open("rb")
    except FileNotFoundError:
        raise Http404 from None
    name = slugify(_about(row).body["name"])[:60].strip("-") or "house"
    return FileResponse(
        file, as_attachment=True, filename=f"{name}-programme.ics", content_type="text/calendar"
    )
