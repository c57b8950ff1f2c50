"""The sash beside the box: its stile with groove, cord nails and cord end, up to the break."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.assumed import assumed
from evenhung.sheets.scene import Group, Line, Polygon, Rect, Shift, Words
from evenhung.sheets.scene.strokes import broken_off
from evenhung.sheets.section.setting import SASH_SHOWN_MM
from evenhung.sheets.sizes import HORN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.sheets.section.setting import Setting


def sash_group(setting: Setting) -> Group:
    """Give the sash, shut; it shifts with the travel."""
    members = (*_timber(setting), *_groove(setting), *([] if setting.is_brief else _named(setting)))
    return Group(
        "sash",
        members,
        setting.plan.place,
        f"{setting.plan.place} sash",
        motion=Shift(setting.positions.sash_top.per_mm),
    )


def _timber(setting: Setting) -> Iterator[Group]:
    """Give stile, rails and glass; rails and glass run into the break."""
    place, sash, edge = setting.plan.place, setting.sash, setting.sash_mm
    top, foot = setting.positions.sash_top.shut_mm, setting.positions.sash_foot.shut_mm
    inner = max(edge - sash.stile.mm, -SASH_SHOWN_MM)
    for layer, low, high, part, size in (
        ("glass", foot + sash.bottom_rail.mm, top - sash.top_rail.mm, "glass", None),
        ("sash", top - sash.top_rail.mm, top, "top_rail", sash.top_rail),
        ("sash", foot, foot + sash.bottom_rail.mm, "bottom_rail", sash.bottom_rail),
    ):
        if high > low and inner > -SASH_SHOWN_MM:
            piece = broken_off(-SASH_SHOWN_MM, low, inner, high, origin=top)
            title = f"{place} sash, {part.replace('_', ' ')}"
            is_assumed = size is not None and size.is_assumed
            yield Group(layer, (piece,), f"{place}.{part}", title, is_assumed=is_assumed)  # type: ignore[arg-type] # one of two layers
    stile = Rect(inner, foot, edge - inner, top - foot)
    title = f"{place} sash, stile"
    yield Group("sash", (stile,), f"{place}.stile", title, is_assumed=sash.stile.is_assumed)
    if sash.horn > 0.0:
        yield _horn(setting, inner)


def _horn(setting: Setting, inner: float) -> Group:
    """Give the horn: the stile goes on past the meeting rail and is shaped off."""
    edge, long = setting.sash_mm, setting.sash.horn
    is_upper = setting.plan.place == "upper"
    run = setting.positions.sash_foot if is_upper else setting.positions.sash_top
    base, way = run.shut_mm, -1.0 if is_upper else 1.0
    wide = edge - inner
    points = tuple((edge - across * wide, base + way * along * long) for across, along in HORN)
    place = setting.plan.place
    return Group("sash", (Polygon(points),), f"{place}.horn", f"{place} sash, horn")


def _groove(setting: Setting) -> Iterator[Group]:
    """Give the cord groove down to the cord's end, and the nails in it."""
    edge, sash = setting.sash_mm, setting.plan.sash
    top, end = setting.positions.sash_top.shut_mm, setting.positions.cord_end.shut_mm
    depth = setting.sizes.of(sash.groove, "depth", "cord groove")
    groove = Rect(edge - depth.mm, end, depth.mm, top - end)
    path, title = f"{setting.plan.place}.groove", "cord groove"
    yield Group("groove", (groove,), path, title, is_assumed=depth.is_assumed)
    if sash.top_nail is None or sash.anchorage == "knotted":
        return
    lines = [
        Line(
            (edge - setting.inputs.cord_mm / 2.0, height),
            (edge - setting.inputs.cord_mm - long, height),
        )
        for height, long in _nails(setting, top - sash.top_nail.mm, end)
    ]
    yield Group("nail", tuple(lines), f"{setting.plan.place}.nails", "cord nails")


def _nails(setting: Setting, highest: float, end: float) -> Iterator[tuple[float, float]]:
    """Give the height and the length of each nail, from the top one down to the cord's end."""
    nails = setting.plan.sash.nails
    count = nails.count or round(assumed("joinery/cord nails/per_side").value)
    spacing = setting.sizes.of(nails, "spacing", "spacing of the nails", _SPACING).mm
    long = setting.sizes.of(nails, "length", "length of the nails", "joinery/cord nails/length").mm
    spacing = min(spacing, (highest - end) / max(1, count - 1))
    for number in range(count):
        yield highest - number * spacing, long


_SPACING = "joinery/cord nails/spacing"


def _named(setting: Setting) -> Iterator[Group]:
    """Write up the glass which sash it is, and what it weighs."""
    mass = setting.plan.mass
    words = f"{setting.plan.place} sash"
    if mass.found:
        about = "about " if mass.found == "estimated" else ""
        words = f"{words}, {about}{setting.words.mass(mass.kg)}"
    middle = (-SASH_SHOWN_MM + setting.sash_mm - setting.sash.stile.mm) / 2.0
    height = setting.positions.sash_foot.shut_mm + setting.sash.height / 2.0
    at = (middle + 0.3 * setting.text, height)
    whole = Words(at, words, setting.text, "middle", is_upright=True)
    room = whole.room()
    if room.top - room.bottom > setting.sash.glass_height:  # the house's own system must do
        whole = whole._replace(text=words.partition(" (")[0])
    yield Group("label", (whole,))
