"""The drawings on the page of a window: its elevation, and a section through one box."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Literal, NamedTuple

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext_lazy as _

from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import svg_of
from evenhung.web.plans import kept_plan

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.plan import WindowPlan

    Side = Literal["left", "right"]

KEPT = 128
"""Drawings that each process keeps: about 12 kB each."""

SIDES = {
    "upper.left": _("Upper, left"),
    "upper.right": _("Upper, right"),
    "lower.left": _("Lower, left"),
    "lower.right": _("Lower, right"),
}
"""The four boxes that can be shown in section, by the weight that hangs in each."""


class Shown(NamedTuple):
    """A drawing as a page shows it, and what of it nobody measured."""

    svg: SafeString
    assumed: tuple[str, ...]


def sides_of(plan: WindowPlan) -> dict[str, str]:
    """Give the boxes of the sashes that run."""
    running = {
        sash.place for sash in (plan.upper, plan.lower) if sash is not None and sash.sash.is_running
    }
    return {side: str(text) for side, text in SIDES.items() if side.partition(".")[0] in running}


def section_for(part: str) -> str:
    """Give the section of the window's form that a part of a drawing is edited in.

    Examples
    --------
    >>> [section_for(part) for part in ("lower.left", "lower.stile", "pulley.left", "box")]
    ['lower-left', 'lower', 'pulleys', 'box']
    """
    table, _dot, rest = part.partition(".")
    if table == "pulley":
        return "pulleys"
    return f"{table}-{rest}" if table in ("upper", "lower") and rest in ("left", "right") else table


@lru_cache(maxsize=KEPT)
def elevation(common: str, window: str, house: str, ident: str, *, may_edit: bool) -> Shown:
    """Draw a window from inside; its parts lead to their forms for whoever may edit."""
    drawing = elevation_of(kept_plan(common, window))
    svg = svg_of(drawing, link_to=_link_to(house, ident) if may_edit else None)
    return Shown(mark_safe(svg), tuple(drawing.assumed))  # noqa: S308 escaped by its writer


@lru_cache(maxsize=KEPT)
def section(
    common: str, window: str, side: str, house: str, ident: str, *, as_found: bool, may_edit: bool
) -> Shown | None:
    """Draw a section through one box, as it will hang or as it was found; None if nothing runs."""
    plan = kept_plan(common, window)
    place, _dot, hand = side.partition(".")
    sash = plan.upper if place == "upper" else plan.lower
    if sash is None:
        return None
    which: Side = "left" if hand == "left" else "right"
    drawing = section_of(sash, side=which, as_found=as_found)
    if drawing is None:
        return None
    svg = svg_of(drawing, link_to=_link_to(house, ident) if may_edit else None)
    return Shown(mark_safe(svg), tuple(drawing.assumed))  # noqa: S308 escaped by its writer


def _link_to(house: str, ident: str) -> Callable[[str], str]:
    return lambda part: reverse("edit-window", args=[house, ident, section_for(part)])
