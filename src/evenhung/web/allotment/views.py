"""The allotment of a house: begun, watched, stopped; its answer shown and decided on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from evenhung.store.parts import Key
from evenhung.web.access.door import Asked, for_visitors
from evenhung.web.allotment.deciding import CannotDecide, Decisions
from evenhung.web.allotment.hanging import HUNG, as_hung
from evenhung.web.allotment.models import Run
from evenhung.web.allotment.reading import sashes_of, wish_of, wishes_of
from evenhung.web.allotment.since import since
from evenhung.web.allotment.solving import Busy, begin_run, last_answered, last_run, stop_run
from evenhung.web.page.editing import Editor, edit_part
from evenhung.web.page.paging import AFTER, number_in, pages
from evenhung.web.plans import kept_survey
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Refused, Saved, save

if TYPE_CHECKING:
    from django.http import HttpResponse


SECONDS = (10, 60, 600)
"""How long one may let it work, where not as long as it takes [s]."""
CONFLICT = 409
PAGE = 60
"""Sashes on one page."""
MOST_HELD = 100
"""Of what is held, so much is listed; the rest is withdrawn at its side."""
LONGEST_NUMBER = 18
"""Figures of the largest number that a database takes."""


@for_visitors
@require_GET
def allotment(request: Asked, house: str) -> HttpResponse:
    """Show how the allotment stands, its answer, and what is decided."""
    row = get_object_or_404(House, pk=house)
    return render(request, "allotment/allotment.html", _page(request, row))


def _page(request: Asked, house: House) -> dict[str, Any]:
    parts = standing_parts(house)
    survey = kept_survey(parts)
    decisions = Decisions(parts, survey)
    run, answered = last_run(house), last_answered(house)
    return {
        "house": house,
        "name": survey.house.name,
        "system": survey.house.shown_in or "metric",
        "currency": survey.house.currency or "",
        "seconds": SECONDS,
        "decided": decisions.told_in_order(),
        "most": MOST_HELD,
        "run": run,
        **(
            _answered(request, answered, decisions)
            if answered and not (run and run.is_running)
            else {}
        ),
    }


def _answered(request: Asked, run: Run, decisions: Decisions) -> dict[str, Any]:
    """Give what a page says of a run that has come to its answer."""
    answer, skipped = run.answer or {}, number_in(request.GET, AFTER)
    every = sorted(sashes_of(run, decisions), key=lambda sash: sash.stays)
    sashes = every[skipped : skipped + PAGE]
    unserved = answer["unserved"]
    return {
        "answered": run,
        "answer": answer,
        "since": since(run),
        "unserved": [one for one in unserved if one["asked"]],
        "aside": [one for one in unserved if not one["asked"]],
        "to_do": [sash for sash in sashes if not sash.stays],
        "pages": pages(len(every), skipped, PAGE, request.GET),
        "staying": [sash for sash in sashes if sash.stays],
    }


@for_visitors
@require_GET
def standing(request: Asked, house: str) -> HttpResponse:
    """Say how a run stands, as a part of a page; once it has ended, have the page shown anew."""
    row = get_object_or_404(House, pk=house)
    run = last_run(row)
    answer = render(request, "allotment/standing.html", {"house": row, "run": run})
    if run is None or not run.is_running:
        answer["HX-Refresh"] = "true"
    return answer


@require_POST
def begin(request: Asked, house: str) -> HttpResponse:
    """Begin to work out the allotment."""
    row = get_object_or_404(House, pk=house)
    wanted = request.POST.get("seconds", "")
    if wanted not in ["", *map(str, SECONDS)]:
        return HttpResponseBadRequest("seconds")
    try:
        begin_run(row, seconds=int(wanted) if wanted else None, who=request.access.name)
    except Busy:
        said = _("Another allotment is being worked out. Wait for it, or stop it, then try again.")
        return _said(request, row, said)
    return redirect("allotment", row.pk)


def _said(request: Asked, house: House, said: str) -> HttpResponse:
    page = {**_page(request, house), "said": said}
    return render(request, "allotment/allotment.html", page, status=CONFLICT)


@require_POST
def stop(request: Asked, house: str) -> HttpResponse:
    """Let a run end with the best that it has found."""
    row = get_object_or_404(House, pk=house)
    stop_run(row)
    return redirect("allotment", row.pk)


@require_POST
def accept(request: Asked, house: str) -> HttpResponse:
    """Decide that every weight shall hang where the answer hangs it: one change."""
    row = get_object_or_404(House, pk=house)
    run = get_object_or_404(Run, pk=_number(request, "run"), house=row, state=Run.DONE)
    parts = standing_parts(row)
    try:
        decisions = Decisions(parts, kept_survey(parts))
        wishes = wishes_of(run)
        edits = decisions.held(wishes, request.access.name)
    except CannotDecide as cannot:
        return _said(request, row, _("Not accepted: %(why)s.") % {"why": cannot})
    told = _("allotment accepted: %(count)d weights held where it hangs them")
    return _saved(request, row, edits, summary=told % {"count": len(wishes)})


@require_POST
def decide(request: Asked, house: str) -> HttpResponse:
    """Decide on one side of the answer: hold the weight there, or never hang it there."""
    row = get_object_or_404(House, pk=house)
    run = get_object_or_404(Run, pk=_number(request, "run"), house=row, state=Run.DONE)
    what = request.POST.get("what", "")
    try:
        wish = wish_of(run, _number(request, "side"))
    except LookupError:
        return HttpResponseBadRequest("side")
    if what not in ("hang", "never") or wish is None:
        return HttpResponseBadRequest("what")
    parts, who = standing_parts(row), request.access.name
    try:
        decisions = Decisions(parts, kept_survey(parts))
        edits = decisions.held([wish], who) if what == "hang" else decisions.forbidden(wish, who)
    except CannotDecide as cannot:
        return _said(request, row, _("Not decided: %(why)s.") % {"why": cannot})
    return _saved(request, row, edits)


@require_POST
def withdraw(request: Asked, house: str, decision: str) -> HttpResponse:
    """Take a decision back."""
    row = get_object_or_404(House, pk=house)
    part = get_object_or_404(row.parts.select_related("latest"), kind="decision", ident=decision)
    edit = Edit(part.key, part.latest.number if part.latest else 0, removes=True)
    return _saved(request, row, [edit])


@require_POST
def withdraw_held(request: Asked, house: str) -> HttpResponse:
    """Take back all that is held and not hung, in one change."""
    row = get_object_or_404(House, pk=house)
    parts = standing_parts(row)
    held = [one for one in Decisions(parts, kept_survey(parts)).made if one.what == "hang"]
    told = _("%(count)d weights held no longer") % {"count": len(held)}
    return _saved(request, row, [one.removed() for one in held], summary=told)


def _saved(request: Asked, house: House, edits: list[Edit], summary: str = "") -> HttpResponse:
    outcome = save(house, edits, who=request.access.name, summary=summary)
    if isinstance(outcome, Saved):
        return redirect("allotment", house.pk)
    if isinstance(outcome, Refused):
        faults = "; ".join(f"{one.value}: {one.allowed}" for one in outcome.faults)
        return _said(request, house, _("Not decided: %(why)s.") % {"why": faults})
    said = _("Somebody has decided otherwise at the same moment. Look again, then decide.")
    return _said(request, house, said)


def hung(request: Asked, house: str, run: int, number: int) -> HttpResponse:
    """Keep that a side of the answer is hung: when, by whom, with what on it."""
    row = get_object_or_404(House, pk=house)
    of = get_object_or_404(Run, pk=run, house=row, state=Run.DONE)
    parts = standing_parts(row)
    survey = kept_survey(parts)
    try:
        side = as_hung(of, number, survey, who=request.access.name)
    except LookupError:
        return HttpResponseBadRequest("side")
    made = Decisions(parts, survey).at(side.sash, side.side)
    key = made.key if made else Key("decision")
    stated = vars(made.record) if made and made.what == "hung" else {}
    alongside = {path: value for path, value in side.fields.items() if path not in stated}
    return edit_part(request, _hung_editor(row, key, side.title, alongside))


def done(request: Asked, house: str, decision: str) -> HttpResponse:
    """Edit what is kept of a side that is hung."""
    row = get_object_or_404(House, pk=house)
    get_object_or_404(row.parts, kind="decision", ident=decision)
    return edit_part(request, _hung_editor(row, Key("decision", decision), _("As hung"), {}))


def _hung_editor(house: House, key: Key, title: str, alongside: dict[str, Any]) -> Editor:
    back = reverse("allotment", args=[house.pk])
    return Editor(house, key, title, {_("As hung"): HUNG}, lambda _key: back, back, alongside)


def _number(request: Asked, name: str) -> int:
    """Give a number that a form sends; one that nothing has where it sends none."""
    text = request.POST.get(name, "")
    return int(text) if text.isdecimal() and len(text) <= LONGEST_NUMBER else -1
