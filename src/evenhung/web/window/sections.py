"""The sections of a window: what is edited together, because it is measured together."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.utils.translation import gettext_lazy as _

from evenhung.survey.completion import PLACES

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.utils.functional import _StrPromise

MEASURED = ("tag", "room", "note")
BOX = (
    "box.clear_width",
    "box.clear_height",
    "box.weight_space",
    "box.pulley_drop",
    "box.compartment_width",
    "box.compartment_depth",
    "box.stile_thickness",
    "box.parting_slip",
)
POCKET = ("box.pocket_height", "box.pocket_above_sill", "box.pocket_width")
PULLEY = (
    "pulley.wheel",
    "pulley.axle",
    "pulley.case_below_axle",
    "pulley.turns",
    "pulley.friction",
    "pulley.cord_bend_pct",
)
PLACE = (
    "place.sill_above_floor",
    "place.sill_above_ground",
    "place.door_away",
    "place.walking_away",
)
PROGRAMME = ("after",)
SASH = ("runs", "height", "width", "thickness", "travel", "weighed", "horn", "head")
SASH_PARTS = ("timber", "stile", "top_rail", "bottom_rail", "bar", "panes.across", "panes.up")
SASH_GLASS = ("glass.thickness", "rebate_width", "rebate_depth", "fittings", "moisture_pct")
SASH_CORD = ("cord_end", "top_nail", "anchorage")
WEIGHT = (
    "weighed",
    "marked",
    "length",
    "diameter",
    "section",
    "metal",
    "hung",
    "state",
    "eye_depth",
    "note",
)
PULLS = ("raising", "lowering", "holding", "restraining")
WHO = ("on", "by", "note")
LEAST = (
    "tag",
    "room",
    "box.clear_width",
    "box.clear_height",
    "box.weight_space",
    "box.pulley_drop",
    "pulley.wheel",
)
"""What a window cannot be saved without, and its room."""


class Section(NamedTuple):
    """Some fields of a window under one title, in groups under headings."""

    title: _StrPromise
    groups: Mapping[_StrPromise, Sequence[str]]


def _of(place: str, paths: Sequence[str]) -> list[str]:
    return [f"{place}.{path}" for path in paths]


def _sash(place: str, title: _StrPromise) -> Section:
    return Section(
        title,
        {
            _("The sash"): _of(place, SASH),
            _("Its parts, to estimate what it weighs"): _of(place, SASH_PARTS),
            _("Glass and fittings"): _of(place, SASH_GLASS),
            _("Its cord"): [*_of(place, SASH_CORD), f"{place}.note"],
        },
    )


def _weight(place: str, side: str, title: _StrPromise) -> Section:
    return Section(title, {_("The weight"): _of(f"{place}.{side}", WEIGHT)})


def _tried(place: str, title: _StrPromise) -> Section:
    here = f"{place}.completion"
    return Section(
        title,
        {
            _("Let go without a push, what does it do?"): _of(f"{here}.let_go", PLACES),
            _("The pull it takes, by a spring balance at the middle of the rail"): _of(here, PULLS),
            _("Who tried it, and when"): _of(here, WHO),
        },
    )


SECTIONS = {
    "window": Section(_("Window"), {_("The window"): MEASURED}),
    "box": Section(_("Box"), {_("The box"): BOX, _("Pocket"): POCKET}),
    "pulleys": Section(_("Pulleys"), {_("Pulleys"): PULLEY}),
    "place": Section(_("Where it stands"), {_("Where it stands"): PLACE}),
    "programme": Section(_("When it is done"), {_("When it is done"): PROGRAMME}),
    "upper": _sash("upper", _("Upper sash")),
    "lower": _sash("lower", _("Lower sash")),
    "upper-left": _weight("upper", "left", _("Upper sash, left weight")),
    "upper-right": _weight("upper", "right", _("Upper sash, right weight")),
    "lower-left": _weight("lower", "left", _("Lower sash, left weight")),
    "lower-right": _weight("lower", "right", _("Lower sash, right weight")),
}
"""What was found, by the last word of the address."""

TRIED = {
    "upper-tried": _tried("upper", _("Upper sash, once the work is done")),
    "lower-tried": _tried("lower", _("Lower sash, once the work is done")),
}
"""What is taken down when the work is done, likewise."""

NEW = Section(_("A new window"), {_("What every window needs"): LEAST})
