"""The box in section: pulley stile and pocket, back lining, parting slip, head and sill."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.sheets.scene import Group, Line, Polygon, Rect
from evenhung.sheets.scene.strokes import hatching
from evenhung.sheets.section.setting import SASH_SHOWN_MM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.sheets.section.setting import Setting

HATCH_MM = 34.0
"""Between two lines of the hatching of cut timber."""


def box_groups(setting: Setting) -> Iterator[Group]:
    """Give the box and what closes it, from the back to the front."""
    bottom, head = setting.at.box_bottom_mm, setting.inputs.head_mm
    hollow = Rect(setting.wall.mm, bottom, setting.depth.mm, head - bottom)
    yield Group(
        "box",
        (hollow,),
        _path(setting),
        f"box on the {setting.side}",
        is_assumed=setting.depth.is_assumed,
    )
    if setting.plan.window.box.parting_slip == "present":
        yield _slip(setting)
    yield from _timber(setting)
    yield from _pocket(setting)


def _path(setting: Setting) -> str:
    return f"box.{setting.side}"


def _slip(setting: Setting) -> Group:
    """The slip hangs behind the weight, from the head, and ends a little above the bottom."""
    wide = setting.sizes.usual("joinery/parting slip/width", "parting slip").mm
    wide = min(wide, setting.depth.mm - 4.0)
    x = setting.wall.mm + (setting.depth.mm - wide) / 2.0
    low, high = setting.at.box_bottom_mm, setting.inputs.head_mm
    foot = low + 0.03 * (high - low)
    slip = Rect(x, foot, wide, high - foot)
    return Group("slip", (slip,), "box", "parting slip, behind the weight", is_assumed=True)


def _timber(setting: Setting) -> Iterator[Group]:
    """Give what the section cuts, hatched."""
    wall, head, outer = setting.wall.mm, setting.inputs.head_mm, setting.outer_mm
    bottom, lowest = setting.at.box_bottom_mm, setting.lowest_mm
    low = min(0.0, bottom)
    sill_mm = setting.sill.mm
    parts = (
        ("pulley stile", Rect(0.0, low, wall, head - low), setting.wall.is_assumed),
        ("back lining", Rect(setting.back_mm, low, setting.lining.mm, head - low), True),
        ("box bottom", Rect(wall, lowest, setting.depth.mm, bottom - lowest), False),
        ("head", Rect(-SASH_SHOWN_MM, head, SASH_SHOWN_MM + outer, setting.head.mm), True),
        ("sill", Rect(-SASH_SHOWN_MM, -sill_mm, SASH_SHOWN_MM, sill_mm), True),
    )
    for title, rect, is_assumed in parts:
        lines = tuple(hatching(rect, HATCH_MM)) if min(rect.width, rect.height) > _THIN_MM else ()
        hatch = Group("hatch", lines)
        yield Group("frame", (rect, hatch), _path(setting), title, is_assumed=is_assumed)


_THIN_MM = 12.0
"""Thinner pieces are not hatched: the lines would run together."""


def _pocket(setting: Setting) -> Iterator[Group]:
    """Give the removable piece in the stile, its ends cut on a slope, where its height is known."""
    high = setting.side_inputs.pocket_height_mm
    if math.isnan(high):
        return
    stated = setting.side_inputs.pocket_above_sill_mm
    is_assumed = math.isnan(stated)
    low = setting.sizes.usual("joinery/pocket/above_sill", "height of the pocket").mm
    low = low if is_assumed else stated
    wall = setting.wall.mm
    piece = Polygon(((0.0, low), (wall, low - wall), (wall, low + high - wall), (0.0, low + high)))
    ends = tuple(Line((0.0, end), (wall, end - wall)) for end in (low, low + high))
    members = (piece, Group("hatch", ends))
    yield Group("pocket", members, _path(setting), "pocket", is_assumed=is_assumed)
