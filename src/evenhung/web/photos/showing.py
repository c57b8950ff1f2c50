"""The photos of a window, each with what it shows: a place, or what was found there."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext_lazy as _

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from evenhung.web.records.latest import Standing

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


def photos_of(parts: Sequence[Standing], window: str) -> list[dict[str, Any]]:
    """Give the photos of a window as its pages show them."""
    bodies = [part.body for part in parts if part.key == ("window", window)]
    found = {
        photo: f"{finding['part']}: {finding['seen']}"
        for body in bodies
        for finding in body.get("finding", ())
        for photo in finding.get("photo", ())
    }
    return [
        {
            **part.body,
            "id": part.key.ident,
            "base": part.number,
            "shows": found.get(part.key.ident) or str(PLACES.get(part.body.get("place", ""), "")),
        }
        for part in parts
        if part.key.kind == "photo" and part.body.get("of") == window
    ]


def findings_without(window: Mapping[str, Any], photo: str) -> list[dict[str, Any]] | None:
    """Give the findings of a window with one photo named by none; None where none names it.

    Examples
    --------
    >>> rot = {"part": "sill", "seen": "rot", "photo": ["a", "b"]}
    >>> findings_without({"finding": [rot]}, "a")
    [{'part': 'sill', 'seen': 'rot', 'photo': ['b']}]
    >>> findings_without({"finding": [rot]}, "c")
    """
    findings: list[dict[str, Any]] = window.get("finding", [])
    if not any(photo in one.get("photo", ()) for one in findings):
        return None
    return [_without(one, photo) for one in findings]


def _without(finding: dict[str, Any], photo: str) -> dict[str, Any]:
    left = [one for one in finding.get("photo", ()) if one != photo]
    rest = {name: value for name, value in finding.items() if name != "photo"}
    return {**rest, "photo": left} if left else rest
