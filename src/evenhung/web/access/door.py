"""The door: before any view runs, who is asking is settled, and what they may do."""

from __future__ import annotations

from functools import wraps
from typing import TYPE_CHECKING, Concatenate, NamedTuple, ParamSpec, TypeVar
from urllib.parse import urlsplit

from django.conf import settings
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.urls import reverse

from evenhung.web.access.models import Person, VisitorLink

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpResponse, HttpResponseBase

    Answer = Callable[[HttpRequest], HttpResponse]

Rest = ParamSpec("Rest")
View = TypeVar("View", bound="Callable[..., HttpResponseBase]")

VISITOR = "visitor"
LINK = "visitor-link"
"""Where a visitor's session keeps the number of the link it came by."""


class Access(NamedTuple):
    """Who is asking."""

    role: str
    name: str
    house: str = ""
    """The only house a visitor may see."""

    @property
    def may_edit(self) -> bool:
        """True for whoever works on the houses."""
        return self.role in (Person.KEEPER, Person.JOINER)

    @property
    def is_keeper(self) -> bool:
        """True for whoever runs the server."""
        return self.role == Person.KEEPER


class Asked(HttpRequest):
    """A request, once it is known who asks."""

    access: Access


ALONE = Access(Person.KEEPER, "keeper")
"""Whoever sits at the machine, while it is not shared."""


def let_in(answer: Answer) -> Answer:
    """Settle who is asking; send whoever is nobody to log in, unless the view is open to all."""

    def at_the_door(request: HttpRequest) -> HttpResponse:
        request.get_host()  # refuses a name that is not ours, on reading as well as on writing
        request.access = access_of(request)  # type: ignore[attr-defined]
        return answer(request)

    at_the_door.process_view = _stop_strangers  # type: ignore[attr-defined]
    return at_the_door


def access_of(request: HttpRequest) -> Access | None:
    """Give who is asking; None for nobody we know."""
    if not settings.CONFIG.is_shared:
        return ALONE
    person = request.user
    if isinstance(person, Person) and person.is_active:
        return Access(person.role, person.name)
    number = request.session.get(LINK)
    link = VisitorLink.objects.filter(pk=number, revoked=None).first() if number else None
    return Access(VISITOR, link.visitor, link.house_id) if link else None


def _stop_strangers(
    request: HttpRequest, view: Callable[..., HttpResponse], _args: object, named: dict[str, str]
) -> HttpResponse | None:
    access: Access | None = request.access  # type: ignore[attr-defined]
    if getattr(view, "is_open", False):
        return None
    if access is None:
        return redirect_to_login(_page_of(request))
    if access.role == VISITOR and (
        named.get("house") != access.house
        or request.method not in ("GET", "HEAD")
        or not getattr(view, "is_for_visitors", False)
    ):
        raise PermissionDenied
    return None


def _page_of(request: HttpRequest) -> str:
    """Give the address of the page that is asked for, or on which a form was pressed.

    A form may be sent to an address that shows nothing, such as that of an undo.
    """
    if request.method in ("GET", "HEAD"):
        return request.get_full_path()
    page = urlsplit(request.headers.get("Referer", ""))
    here = page._replace(scheme="", netloc="", fragment="").geturl()
    return here if page.netloc == request.get_host() else reverse(settings.LOGIN_REDIRECT_URL)


def open_to_all(view: View) -> View:
    """Let a view answer anybody, logged in or not."""
    view.is_open = True  # type: ignore[attr-defined]
    return view


def for_visitors(view: View) -> View:
    """Let a view show a house to a visitor who has a link to it."""
    view.is_for_visitors = True  # type: ignore[attr-defined]
    return view


def keeper_only(
    view: Callable[Concatenate[Asked, Rest], HttpResponse],
) -> Callable[Concatenate[Asked, Rest], HttpResponse]:
    """Let a view answer the keeper alone."""

    @wraps(view)
    def guarded(request: Asked, /, *args: Rest.args, **named: Rest.kwargs) -> HttpResponse:
        if not request.access.is_keeper:
            raise PermissionDenied
        return view(request, *args, **named)

    return guarded
