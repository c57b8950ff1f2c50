"""Logging in and out, people, and visitors' links."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.contrib.auth import login, logout
from django.http import HttpResponseBadRequest
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from evenhung.errors import InvalidSetting
from evenhung.web.access.door import LINK, Asked, keeper_only, open_to_all
from evenhung.web.access.logging_in import known_person, may_try
from evenhung.web.access.models import Person, VisitorLink, checksum_of, new_token
from evenhung.web.access.people import add_person, change_passphrase
from evenhung.web.records.latest import house_name
from evenhung.web.records.models import House

if TYPE_CHECKING:
    from django.http import HttpResponse

TOO_MANY, UNPROCESSABLE, FORBIDDEN = 429, 422, 403


@open_to_all
@require_http_methods(["GET", "POST"])
def log_in(request: Asked) -> HttpResponse:
    """Let in whoever knows their passphrase."""
    page = {"next": request.POST.get("next") or request.GET.get("next", "")}
    if request.method == "GET":
        return render(request, "access/log-in.html", page)
    page["name"] = request.POST.get("name", "")
    if not may_try(request.META.get("REMOTE_ADDR", "")):
        said = _("Too many tries. Wait a quarter of an hour, then try again.")
        return render(request, "access/log-in.html", {**page, "said": said}, status=TOO_MANY)
    person = known_person(request, page["name"], request.POST.get("passphrase", ""))
    if person is None:
        said = _("That name and passphrase do not go together.")
        return render(request, "access/log-in.html", {**page, "said": said}, status=UNPROCESSABLE)
    login(request, person)
    ours = url_has_allowed_host_and_scheme(
        page["next"], {request.get_host()}, require_https=request.is_secure()
    )
    return redirect(page["next"] if ours else "houses")


@open_to_all
@require_POST
def log_out(request: Asked) -> HttpResponse:
    """Forget who was here."""
    logout(request)
    return redirect("log-in")


@open_to_all
@require_http_methods(["GET", "POST"])
def visit(request: Asked) -> HttpResponse:
    """Let a visitor in by a link; its secret stands behind ``#``, where no server logs it."""
    if request.method == "GET":
        return render(request, "access/visit.html")
    if not may_try(request.META.get("REMOTE_ADDR", "")):
        said = _("Too many tries. Wait a quarter of an hour, then try again.")
        return render(request, "access/visit.html", {"said": said}, status=TOO_MANY)
    checksum = checksum_of(request.POST.get("token", ""))
    link = VisitorLink.objects.filter(checksum=checksum, revoked=None).first()
    if link is None:
        said = _("This link leads nowhere. It may have been revoked: ask whoever sent it.")
        return render(request, "access/visit.html", {"said": said}, status=FORBIDDEN)
    link.last_used = timezone.now()
    link.save(update_fields=["last_used"])
    logout(request)
    request.session[LINK] = link.pk
    return redirect("house", link.house_id)


@keeper_only
@require_http_methods(["GET", "POST"])
def people(request: Asked) -> HttpResponse:
    """Show who works on the houses; let in someone else."""
    page: dict[str, Any] = {
        "people": Person.objects.order_by("name"),
        "typed": request.POST,
    }
    if request.method == "POST":
        role = request.POST.get("role", "")
        if role not in (Person.KEEPER, Person.JOINER):
            return HttpResponseBadRequest("role")
        try:
            add_person(request.POST.get("name", ""), role, request.POST.get("passphrase", ""))
        except InvalidSetting as refusal:
            page["refusal"] = refusal
            return render(request, "access/people.html", page, status=UNPROCESSABLE)
        return redirect("people")
    return render(request, "access/people.html", page)


@keeper_only
@require_POST
def person(request: Asked, number: int) -> HttpResponse:
    """Shut someone out, let them in again, or give them another passphrase."""
    row = get_object_or_404(Person, pk=number)
    wanted = request.POST.get("do")
    others = Person.objects.filter(role=Person.KEEPER, is_active=True).exclude(pk=row.pk)
    if wanted == "shut-out" and (row.role != Person.KEEPER or others.exists()):
        row.is_active = False
    elif wanted == "let-in":
        row.is_active = True
    elif wanted == "passphrase":
        try:
            change_passphrase(row, request.POST.get("passphrase", ""))
        except InvalidSetting as refusal:
            page = {"people": Person.objects.order_by("name"), "refusal": refusal}
            return render(request, "access/people.html", page, status=UNPROCESSABLE)
    else:
        return HttpResponseBadRequest("do")
    row.save()
    return redirect("people")


@keeper_only
@require_http_methods(["GET", "POST"])
def visitors(request: Asked, house: str) -> HttpResponse:
    """Show the links to a house; make one, and show it this once."""
    row = get_object_or_404(House, pk=house)
    page = {"house": row, "name": house_name(row), "links": row.visitor_links.order_by("-made")}
    if request.method == "POST":
        token = new_token()
        VisitorLink.objects.create(
            house=row,
            visitor=request.POST.get("visitor", "").strip()[:80] or _("visitor"),
            checksum=checksum_of(token),
            made_by=request.access.name,
            made=timezone.now(),
        )
        page["address"] = f"{request.build_absolute_uri('/visit/')}#{token}"
    page["can_be_used"] = settings.CONFIG.is_shared
    return render(request, "access/visitors.html", page)


@keeper_only
@require_POST
def revoke(request: Asked, house: str, number: int) -> HttpResponse:
    """Revoke a link: whoever came by it is out at once."""
    link = get_object_or_404(VisitorLink, pk=number, house=house)
    link.revoked = link.revoked or timezone.now()
    link.save(update_fields=["revoked"])
    return redirect("visitors", house)
