"""The pieces and panes of a sash: sizes as surveyed, else as its mass is reckoned by."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import fabric, glazing, mass
from evenhung.plan.repair.piece import Panes, Piece

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.physics.elementwise import Real
    from evenhung.plan.policy import Place


class _Sizes(NamedTuple):
    """The sash with what repeats in it."""

    sash: mass.Sash
    width_mm: float
    """Of a pane, sight size."""
    height_mm: float
    rebate_mm2: float


def pieces_of_sash(place: Place, sash: mass.Sash) -> Iterator[Piece]:
    """Give stiles, rails and bars; together they are `mass.timber_volume_mm3` of the sash."""
    width, height = (max(0.0, float(size)) for size in mass.pane_sight_mm(sash))
    sizes = _Sizes(sash, width, height, float(sash.rebate_width_mm * sash.rebate_depth_mm))
    for side in ("left", "right"):
        yield _stile(place, side, sizes)
    for rail in ("top_rail", "bottom_rail"):
        yield _rail(place, rail, sizes)
    if sash.panes_across * sash.panes_up > 1:
        yield _bars(place, sizes)


def _stile(place: Place, side: str, sizes: _Sizes) -> Piece:
    sash, run = sizes.sash, float(sizes.sash.panes_up) * sizes.height_mm
    groove = sash.groove_width_mm * sash.groove_depth_mm * sash.groove_length_mm
    horn = sash.horn_mm * sash.stile_mm * sash.thickness_mm * sash.horn_filled
    volume = _member_mm3(sizes, sash.height_mm, sash.stile_mm * sash.thickness_mm, run, run)
    return Piece(
        f"{place} {side} stile",
        "stile",
        place,
        float(sash.height_mm + sash.horn_mm),
        float(sash.stile_mm),
        float(sash.thickness_mm),
        float(volume + horn - groove),
        float(sash.timber_kg_m3),
    )


def _rail(place: Place, rail: str, sizes: _Sizes) -> Piece:
    sash = sizes.sash
    is_meeting = rail == ("bottom_rail" if place == "upper" else "top_rail")
    face = float(getattr(sash, f"{rail}_mm"))
    between = sash.width_mm - 2.0 * sash.stile_mm
    rebated = float(sash.panes_across) * (sizes.width_mm + 2.0 * sash.rebate_width_mm)
    moulded = float(sash.panes_across) * sizes.width_mm
    volume = _member_mm3(sizes, between, face * sash.thickness_mm, rebated, moulded)
    extra = sash.meeting_extra_mm if is_meeting else 0.0
    name = "meeting rail" if is_meeting else rail.replace("_", " ")
    return Piece(
        f"{place} {name}",
        "rail",
        place,
        float(sash.width_mm),
        face,
        float(sash.thickness_mm + extra),
        float(volume + sash.width_mm * face * extra),
        float(sash.timber_kg_m3),
    )


def _bars(place: Place, sizes: _Sizes) -> Piece:
    sash = sizes.sash
    uprights, levels = sash.panes_across - 1.0, sash.panes_up - 1.0
    between = sash.width_mm - 2.0 * sash.stile_mm
    up = sash.height_mm - sash.top_rail_mm - sash.bottom_rail_mm
    length = uprights * up + levels * (between - uprights * sash.bar_mm)
    upright = 2.0 * uprights * sash.panes_up * sizes.height_mm
    level = 2.0 * levels * sash.panes_across
    rebated = upright + level * (sizes.width_mm + 2.0 * sash.rebate_width_mm)
    moulded = upright + level * sizes.width_mm
    volume = _member_mm3(sizes, length, sash.bar_mm * sash.thickness_mm, rebated, moulded)
    return Piece(
        f"{place} bars",
        "bars",
        place,
        float(length),
        float(sash.bar_mm),
        float(sash.thickness_mm),
        max(0.0, float(volume)),
        float(sash.timber_kg_m3),
    )


def _member_mm3(
    sizes: _Sizes,
    length_mm: Real,
    section_mm2: Real,
    rebated_mm: Real,
    moulded_mm: Real,
) -> Real:
    return fabric.member_mm3(
        length_mm=length_mm,
        section_mm2=section_mm2,
        rebate_mm2=sizes.rebate_mm2,
        rebated_mm=rebated_mm,
        moulding_mm2=sizes.sash.moulding_area_mm2,
        moulded_mm=moulded_mm,
    )


def panes_of_sash(place: Place, sash: mass.Sash, sheets: int) -> Panes:
    """Give the panes of a sash, of the size to order; none where the members leave no glass."""
    width, height = (float(size) for size in mass.pane_sight_mm(sash))
    has_glass = width > 0.0 and height > 0.0
    order = [
        glazing.order_mm(
            sight_mm=sight,
            rebate_width_mm=sash.rebate_width_mm,
            clearance_mm=sash.edge_clearance_mm,
        )
        for sight in (width, height)
    ]
    putty = glazing.putty_section_mm2(
        rebate_width_mm=sash.rebate_width_mm,
        rebate_depth_mm=sash.rebate_depth_mm,
        glass_mm=sash.glass_mm,
        bed_mm=sash.putty_bed_mm,
        clearance_mm=sash.edge_clearance_mm,
    )
    return Panes(
        place=place,
        across=int(sash.panes_across),
        up=int(sash.panes_up),
        width_mm=float(order[0]) if has_glass else 0.0,
        height_mm=float(order[1]) if has_glass else 0.0,
        glass_mm=float(sash.glass_mm),
        sheets=sheets,
        bottom_mm=float(sash.bottom_rail_mm),
        sight_width_mm=max(0.0, width),
        sight_height_mm=max(0.0, height),
        bar_mm=float(sash.bar_mm),
        putty_mm2=float(putty),
        kg_m3=float(sash.glass_kg_m3),
    )
