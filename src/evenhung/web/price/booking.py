"""Hours that were worked: the form they are booked with, and how a list tells them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils import timezone
from django.utils.translation import gettext as _

from evenhung.store.parts import Key
from evenhung.web.page.editing import Editor
from evenhung.web.price.shelves import OPERATIONS
from evenhung.web.records.merging import Edit
from evenhung.web.records.wording import window_names

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from evenhung.web.records.latest import Standing
    from evenhung.web.records.models import House

BOOKED = "booked"
"""The kind of part that hours are kept as."""

ASKED = ("window", "operation", "hours", "quantity", "on", "by", "note")


class Worked(NamedTuple):
    """Some hours as a list shows them."""

    ident: str
    says: str
    besides: str
    """When, by whom, and what was noted."""


def booked_in(parts: Iterable[Standing]) -> list[Worked]:
    """Give the hours that were booked in a house, in the order they were."""
    parts = list(parts)
    tags = {part.key.ident: part.body["tag"] for part in parts if part.key.kind == "window"}
    return [
        Worked(part.key.ident, _line(part.body, tags), _besides(part.body))
        for part in parts
        if part.key.kind == BOOKED
    ]


def booked_on(parts: Iterable[Standing], window: str) -> list[Standing]:
    """Give the hours that are booked on a window, by its id or by its tag."""
    parts = list(parts)
    names = {window} | {part.body["tag"] for part in parts if part.key == ("window", window)}
    return [
        part
        for part in parts
        if part.key.kind == BOOKED
        and part.body["window"] in names
        and part.body.get("removed") != "yes"
    ]


def without_their_window(hours: Iterable[Standing], tag: str, *, are_kept: bool) -> list[Edit]:
    """Give what becomes of hours whose window is taken out: kept as history, or taken out too."""
    gone = {"window": tag, "removed": "yes"}
    return [
        Edit(one.key, one.number, gone) if are_kept else Edit(one.key, one.number, removes=True)
        for one in hours
    ]


def _line(body: Mapping[str, Any], tags: Mapping[str, str]) -> str:
    window = tags.get(body["window"], body["window"])
    if body.get("removed") == "yes":
        window = _("%(window)s (taken out)") % {"window": body["window"]}
    said = {
        "window": window,
        "operation": body["operation"],
        "hours": f"{body['hours']:g}",
        "quantity": f"{body.get('quantity', 1):g}",
    }
    if body.get("quantity", 1) == 1:
        return _("%(window)s: %(operation)s, %(hours)s h") % said
    return _("%(window)s: %(quantity)s × %(operation)s, %(hours)s h") % said


def _besides(body: Mapping[str, Any]) -> str:
    return ", ".join(str(body[name]) for name in ("on", "by", "note") if name in body)


class Begun(NamedTuple):
    """What a booking begins with: who books it, and where the page it comes from stands."""

    who: str
    window: str
    operation: str


def booking(
    house: House, parts: Iterable[Standing], ident: str, back: str, begun: Begun | None = None
) -> Editor:
    """Give the form that hours are booked with.

    Parameters
    ----------
    house
        The house.
    parts
        Its parts as they stand.
    ident
        Of hours that are booked already; empty for new ones.
    back
        The address to go on to, and to go back to without saving.
    begun
        What new ones begin with.
    """
    parts = list(parts)
    windows = window_names(parts)
    was_removed = any("removed" in part.body for part in parts if part.key == (BOOKED, ident))
    alongside: dict[str, Any] = {}
    if begun is not None:
        alongside = {"on": timezone.localdate().isoformat(), "by": begun.who}
        if begun.window in dict(windows):
            alongside["window"] = begun.window
        if begun.operation in dict(OPERATIONS):
            alongside["operation"] = begun.operation
    return Editor(
        house,
        Key(BOOKED, ident),
        _("Hours that were worked"),
        {_("What was worked"): (*ASKED, "removed") if was_removed else ASKED},
        lambda _key: back,
        back,
        alongside=alongside,
        choices={"window": windows, "operation": OPERATIONS},
        back_name=_("Price"),
    )
