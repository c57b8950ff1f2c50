"""The stiles of both sashes cut level, with rebate, putty, glass, cord groove and cord."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.details.frame import HATCH_MM
from evenhung.sheets.scene import Circle, Group, Line, Polygon, Rect, Words
from evenhung.sheets.scene.shapes import CAP
from evenhung.sheets.scene.strokes import hatching_within

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import WindowPlan
    from evenhung.sheets.details.planes import Planes, SashPlane
    from evenhung.sheets.sizes import Size, Sizes


def edge_mm(window: WindowPlan, sash: SashPlane) -> float:
    """Give where the edge of a sash is; it lies left of the face of the pulley stile [mm]."""
    return -(window.window.box.clear_width.mm - sash.sizes.width) / 2.0


def stile_groups(
    window: WindowPlan, planes: Planes, shown_mm: float, text: float, sizes: Sizes
) -> Iterator[Group]:
    """Give each sash that is there, and the names of what stands between them."""
    for sash in planes.sashes.values():
        edge = edge_mm(window, sash)
        sizes.of(sash.plan.sash, "stile", "stiles")
        inner = max(edge - sash.sizes.stile.mm, -shown_mm)
        place = sash.plan.place
        title = f"{place} sash"
        yield from _glass(sash, inner, shown_mm)
        members = (*_stile(sash, edge, inner), *_putty(sash, inner))
        yield Group("sash", members, f"{place}.stile", f"{title}, stile", _dashed(sash))
        yield from _corded(sash, edge, sizes)
        yield _called(sash, inner, shown_mm, text)
    yield _between(planes, shown_mm, text)


def _dashed(sash: SashPlane) -> bool:
    return sash.sizes.stile.is_assumed or sash.thickness.is_assumed


def _stile(sash: SashPlane, edge: float, inner: float) -> Iterator[Polygon | Group]:
    """Give the stile, its outer arris cut away for the glass."""
    low, high, stop = sash.span.inner, sash.span.outer, sash.glass.inner
    lap = min(inner + sash.glazing.lap.mm, edge)
    outline = ((inner, low), (edge, low), (edge, high), (lap, high), (lap, stop), (inner, stop))
    yield Polygon(outline)
    yield Group("hatch", tuple(hatching_within(outline, HATCH_MM)))


def _putty(sash: SashPlane, inner: float) -> Iterator[Group]:
    """Give the putty: a fillet from the sight line up to the outer face."""
    lap, glass, high = inner + sash.glazing.lap.mm, sash.glass.outer, sash.span.outer
    if high > glass:
        fillet = Polygon(((inner, glass), (lap, glass), (lap, high)))
        yield Group("putty", (fillet,), f"{sash.plan.place}.glass", "putty", is_assumed=True)


def _glass(sash: SashPlane, inner: float, shown_mm: float) -> Iterator[Group]:
    """Give the glass from the break into the rebate, a sheet at a time."""
    glazing, y = sash.glazing, sash.glass.inner
    long = inner + glazing.lap.mm + shown_mm
    step = glazing.sheet.mm + glazing.space
    sheets = tuple(
        Rect(-shown_mm, y + number * step, long, glazing.sheet.mm)
        for number in range(glazing.sheets)
    )
    place = sash.plan.place
    yield Group(
        "glass",
        sheets,
        f"{place}.glass",
        f"{place} sash, glass",
        is_assumed=glazing.sheet.is_assumed,
    )


def _corded(sash: SashPlane, edge: float, sizes: Sizes) -> Iterator[Group]:
    """Give the groove in the edge of a sash that runs, and the cord that is cut in it."""
    found, record = sash.plan.found, sash.plan.sash
    if found is None:
        return
    wide = sizes.of(record.groove, "width", "cord groove")
    depth: Size = sizes.of(record.groove, "depth", "cord groove")
    groove = Rect(edge - depth.mm, sash.span.middle - wide.mm / 2.0, depth.mm, wide.mm)
    path, is_assumed = f"{sash.plan.place}.groove", wide.is_assumed or depth.is_assumed
    yield Group("groove", (groove,), path, "cord groove", is_assumed=is_assumed)
    thick = found.inputs.cord_mm
    cord = Circle((edge - thick / 2.0, sash.span.middle), thick / 2.0)
    yield Group("cord", (cord,), f"{sash.plan.place}.groove", "cord")


def _called(sash: SashPlane, inner: float, shown_mm: float, text: float) -> Group:
    """Name a sash beside its stile, on the inner side of its glass."""
    y = (sash.span.inner + sash.glass.inner) / 2.0 - CAP * text / 2.0
    return Group(
        "label", (Words(((inner - shown_mm) / 2.0, y), f"{sash.plan.place} sash", text, "middle"),)
    )


def _between(planes: Planes, shown_mm: float, text: float) -> Group:
    """Name the beads at the left, a line to each, and say which side is the room's."""
    members: list[Words | Line] = []
    left, under = -shown_mm, CAP * text / 2.0
    staff = planes.staff_bead
    reach = planes.staff.mm / 2.0
    for name, x, y in (("parting bead", -4.0, 0.0), ("staff bead", -reach, staff.middle)):
        words = Words((left, y - under), name, text)
        members += [words, Line((words.room().right + 0.4 * text, y), (x, y))]
    outer = planes.outer_lining
    members.append(Words((left, outer.middle - under), "outside", text))
    members.append(Words((left, staff.inner - 1.3 * text), "inside", text))
    return Group("label", tuple(members))
