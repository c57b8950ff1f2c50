"""What a drawing is drawn by: sizes as surveyed, else as the reference has them, and which."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed, stands_for

if TYPE_CHECKING:
    from evenhung.plan.frame import Side
    from evenhung.plan.policy import Place
    from evenhung.quantities import Length
    from evenhung.survey.fields import Record
    from evenhung.survey.sash import Sash
    from evenhung.survey.window import Window

CURVE_RISE = 1.0 / 8.0
"""Rise of a segmental head over its width: ours, for drawings alone, since none is surveyed."""

WHEEL_RIM_MM, AXLE_MM, CASE_MM, KNOT_MM = 4.0, 4.0, 17.0, 16.0
"""Rim of a wheel, radius of its axle, half the breadth of a case, breadth of a knot: likewise."""


WEIGHT_MM = 38.0
"""Thickness of a weight where none is stated: likewise, a usual one."""

HORN = ((0.0, 0.0), (1.0, 0.0), (0.92, 0.35), (0.62, 0.62), (0.55, 1.0), (0.0, 1.0))
"""Outline of a horn: from the outer edge over the width of the stile, along over its length."""


class Size(NamedTuple):
    """A length to draw by [mm]."""

    mm: float
    is_assumed: bool = False


class Sizes:
    """Takes sizes from a survey and keeps the names of those it had to assume."""

    def __init__(self) -> None:
        self._names: dict[str, None] = {}

    @property
    def assumed(self) -> tuple[str, ...]:
        """Names of what was assumed, each once, in the order in which it was asked for."""
        return tuple(self._names)

    def of(self, record: Record, field: str, called: str, row: str = "") -> Size:
        """Take a size of a record; where it is not stated, a row of the reference."""
        stated: Length | None = getattr(record, field)
        if stated is not None:
            return Size(stated.mm)
        return self.usual(row or stands_for(type(record), field), called)

    def usual(self, row: str, called: str) -> Size:
        """Take a row of the reference for what no survey asks."""
        return self.granted(assumed(row).value, called)

    def granted(self, mm: float, called: str) -> Size:
        """Take a size of our own for what no survey asks and no reference has."""
        self._names[called] = None
        return Size(mm, is_assumed=True)


class SashSizes(NamedTuple):
    """A sash as it is seen from inside, mm."""

    width: float
    height: float
    stile: Size
    top_rail: Size
    bottom_rail: Size
    bar: Size
    horn: float
    across: int
    up: int
    rise: Size
    """Of its curved top; 0 where it is square."""

    @property
    def glass_height(self) -> float:
        """From sight line to sight line, at its middle."""
        return self.height - self.top_rail.mm - self.bottom_rail.mm


class BoxSizes(NamedTuple):
    """A box and its pulley stile, across, mm."""

    wall: Size
    depth: Size
    lining: Size

    @property
    def whole(self) -> float:
        """From the face of the pulley stile to the back of the back lining."""
        return self.wall.mm + self.depth.mm + self.lining.mm


def sash_sizes(place: Place, sash: Sash, sizes: Sizes) -> SashSizes:
    """Give the sizes of a sash."""
    meeting = "bottom_rail" if place == "upper" else "top_rail"
    rails = {}
    for rail in ("top_rail", "bottom_rail"):
        sort = "meeting_rail" if rail == meeting else rail
        called = "meeting rails" if rail == meeting else f"{rail.replace('_', ' ')}s"
        rails[rail] = sizes.of(sash, rail, called, f"joinery/assumed sash/{sort}")
    panes = (sash.panes.across, sash.panes.up) if sash.panes else (1, 1)
    bar = sizes.of(sash, "bar", "glazing bars") if panes != (1, 1) else Size(0.0)
    return SashSizes(
        width=sash.width.mm,
        height=sash.height.mm,
        stile=sizes.of(sash, "stile", "stiles"),
        top_rail=rails["top_rail"],
        bottom_rail=rails["bottom_rail"],
        bar=bar,
        horn=sash.horn.mm if sash.horn else 0.0,
        across=panes[0],
        up=panes[1],
        rise=_rise(sash, sizes),
    )


def _rise(sash: Sash, sizes: Sizes) -> Size:
    if sash.head == "round":
        return Size(min(sash.width.mm / 2.0, sash.height.mm))
    if sash.head == "segmental":
        return sizes.granted(sash.width.mm * CURVE_RISE, "rise of the curved head")
    return Size(0.0)


def box_sizes(window: Window, side: Side, sizes: Sizes) -> BoxSizes:
    """Give the sizes of a window's box on one side; where a sash states its own, see `plan`."""
    own, whole = getattr(window.box, side), window.box
    wall = own.stile_thickness or whole.stile_thickness
    depth = own.compartment_depth or whole.compartment_depth
    return BoxSizes(
        wall=Size(wall.mm) if wall else sizes.usual("joinery/pulley stile/thickness", _WALL),
        depth=Size(depth.mm) if depth else _usual_depth(sizes),
        lining=sizes.usual("joinery/back lining/thickness", "back linings"),
    )


def known_or(mm: float, usual: Size) -> Size:
    """Give a settled size, or the usual one where it is nan."""
    return usual if math.isnan(mm) else Size(mm)


_WALL, _DEPTH = "pulley stiles", "depth of the boxes"


def _usual_depth(sizes: Sizes) -> Size:
    """The inner lining covers pulley stile, box and back lining."""
    inner = assumed("joinery/lining/inner_width").value
    parts = ("joinery/pulley stile/thickness", "joinery/back lining/thickness")
    return sizes.granted(inner - sum(assumed(part).value for part in parts), _DEPTH)
