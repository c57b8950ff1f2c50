"""Where everything stands through the thickness of a wall: sashes, beads, linings, compartments.

y runs from the room outwards, from the middle of the parting bead; x runs from the face of the
pulley stile into the box. A left side is laid out like a right one and mirrored at the end.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.frame import box_mm
from evenhung.sheets.sizes import Size, Sizes, box_sizes, known_or, sash_sizes

if TYPE_CHECKING:
    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.plan.frame import Side
    from evenhung.plan.policy import Place
    from evenhung.sheets.sizes import BoxSizes, SashSizes

PLACES: tuple[Place, Place] = ("upper", "lower")

BEAD_LET_IN = 0.4
"""Part of a parting bead that stands in its groove: ours, for drawings alone."""

UNIT_SPACE_MM = 6.0
"""Between two sheets of a sealed unit, where a drawing shows one: likewise."""


class Span(NamedTuple):
    """From one plane to another, the inner one first [mm]."""

    inner: float
    outer: float

    @property
    def wide(self) -> float:
        """How thick it is."""
        return self.outer - self.inner

    @property
    def middle(self) -> float:
        """Half way through."""
        return (self.inner + self.outer) / 2.0


class Glazing(NamedTuple):
    """The rebate and the glass of a sash, mm."""

    lap: Size
    """How far the rebate reaches into a face."""
    deep: Size
    """From the outer face to the glass."""
    sheet: Size
    sheets: int
    space: float

    @property
    def whole(self) -> float:
        """Thickness of all sheets with what is between them."""
        return self.sheet.mm * self.sheets + self.space * (self.sheets - 1)


class SashPlane(NamedTuple):
    """One sash, and where it stands."""

    plan: SashPlan
    span: Span
    thickness: Size
    sizes: SashSizes
    glazing: Glazing

    @property
    def glass(self) -> Span:
        """Where its glass stands: against the inner side of its rebate."""
        inner = max(self.span.inner, self.span.outer - self.glazing.deep.mm)
        return Span(inner, inner + self.glazing.whole)


class Planes(NamedTuple):
    """All that stands behind one another at one side of a window."""

    sashes: dict[Place, SashPlane]
    clear: float
    """Between a sash and what it runs against."""
    bead: Size
    bead_wide: Size
    staff: Size
    """How far the staff bead stands out from the face of the pulley stile."""
    staff_bead: Span
    outer_lining: Span
    inner_lining: Span
    lap: float
    """How far the outer lining stands out from the face of the pulley stile."""
    box: BoxSizes
    slip: Span | None
    compartments: dict[Place, Size]

    @property
    def inside(self) -> Span:
        """The box between its linings."""
        return Span(self.inner_lining.outer, self.outer_lining.inner)

    def compartment(self, place: Place) -> Span:
        """Give where the compartment of a sash's weight is, as wide as it is surveyed."""
        wide = self.compartments[place].mm
        outer, inner = self.inside.outer, self.inside.inner
        return Span(outer - wide, outer) if place == "upper" else Span(inner, inner + wide)


def planes_of(window: WindowPlan, side: Side, sizes: Sizes) -> Planes:
    """Lay out one side of a window."""
    clear = sizes.usual("joinery/running clearance/each_side", "room beside the sashes").mm
    bead = sizes.usual("joinery/parting bead/thickness", "parting beads")
    thick = {place: _thickness(getattr(window, place), sizes) for place in PLACES}
    half = bead.mm / 2.0 + clear
    spans = {
        "upper": Span(half, half + thick["upper"].mm),
        "lower": Span(-half - thick["lower"].mm, -half),
    }
    lining = sizes.usual("joinery/lining/thickness", "linings").mm
    stop, beaded = spans["upper"].outer + clear, spans["lower"].inner - clear
    slip_mm = _slip_mm(window, sizes)
    found = {place: _compartment_mm(window, place, side) for place in PLACES}
    wide = _compartments(found, stop - beaded - slip_mm, sizes)
    back = stop - wide["upper"].mm - slip_mm - wide["lower"].mm
    return Planes(
        sashes={
            place: _sash(plan, spans[place], thick[place], sizes)
            for place in PLACES
            if (plan := getattr(window, place)) is not None
        },
        clear=clear,
        bead=bead,
        bead_wide=sizes.usual("joinery/parting bead/width", "parting beads"),
        staff=sizes.usual("joinery/staff bead/thickness", "staff beads"),
        staff_bead=Span(beaded - sizes.usual("joinery/staff bead/width", "staff beads").mm, beaded),
        outer_lining=Span(stop, stop + lining),
        inner_lining=Span(back - lining, back),
        lap=_lap_mm(sizes),
        box=_box(window, side, sizes),
        slip=_slip(window, stop - wide["upper"].mm, slip_mm),
        compartments=wide,
    )


def _thickness(plan: SashPlan | None, sizes: Sizes) -> Size:
    if plan is None:
        return sizes.usual("joinery/assumed sash/thickness", "thickness of the sashes")
    return sizes.of(plan.sash, "thickness", "thickness of the sashes")


def _sash(plan: SashPlan, span: Span, thickness: Size, sizes: Sizes) -> SashPlane:
    glass, sash = plan.sash.glass, plan.sash
    glazing = Glazing(
        lap=sizes.of(sash, "rebate_width", "glazing rebates"),
        deep=sizes.of(sash, "rebate_depth", "glazing rebates"),
        sheet=sizes.of(glass, "thickness", "glass"),
        sheets=glass.sheets or 1,
        space=sizes.granted(UNIT_SPACE_MM, "space of the sealed units").mm
        if (glass.sheets or 1) > 1
        else 0.0,
    )
    return SashPlane(plan, span, thickness, sash_sizes(plan.place, sash, Sizes()), glazing)


def _lap_mm(sizes: Sizes) -> float:
    """The outer lining is wider than the inner one by what it laps over the upper sash."""
    outer = sizes.usual("joinery/lining/outer_width", "linings").mm
    return outer - sizes.usual("joinery/lining/inner_width", "linings").mm


def _slip_mm(window: WindowPlan, sizes: Sizes) -> float:
    if window.window.box.parting_slip != "present":
        return 0.0
    return sizes.usual("joinery/parting slip/thickness", "parting slip").mm


def _slip(window: WindowPlan, outer: float, mm: float) -> Span | None:
    return Span(outer - mm, outer) if window.window.box.parting_slip == "present" else None


def _compartment_mm(window: WindowPlan, place: Place, side: Side) -> float:
    """Give the width of a compartment as surveyed; nan where it is not."""
    plan: SashPlan | None = getattr(window, place)
    if plan is not None:
        return box_mm(window.window, plan.sash, side, "compartment_width")
    box = window.window.box
    stated = getattr(box, side).compartment_width or box.compartment_width
    return math.nan if stated is None else float(stated.mm)


def _compartments(found: dict[Place, float], room_mm: float, sizes: Sizes) -> dict[Place, Size]:
    """Give both widths: as surveyed, else half of what the sashes leave between the linings."""
    called = "width of the compartments"
    return {
        place: sizes.granted(room_mm / 2.0, called) if math.isnan(mm) else Size(mm)
        for place, mm in found.items()
    }


def _box(window: WindowPlan, side: Side, sizes: Sizes) -> BoxSizes:
    """Give stile and depth, where a sash that runs states its own as it has them."""
    box = box_sizes(window.window, side, sizes)
    for plan in (window.lower, window.upper):
        if plan is not None and plan.found is not None:
            inputs = plan.found.inputs.left if side == "left" else plan.found.inputs.right
            return box._replace(
                wall=known_or(inputs.wall_mm, box.wall), depth=known_or(inputs.depth_mm, box.depth)
            )
    return box
