"""Pulley, cord, knot and weight: the weight on the plumb line of its cord."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.pulley import cord_group, pulley_group
from evenhung.sheets.scene import Arc, Group, Rect, Shift, Words
from evenhung.sheets.scene.strokes import hatching
from evenhung.sheets.sizes import KNOT_MM, WEIGHT_MM, Size

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.positions import Run
    from evenhung.sheets.section.setting import Setting


def line_groups(setting: Setting) -> Iterator[Group]:
    """Give the pulley and the cord in its three runs."""
    at, cord_mm = setting.at, setting.inputs.cord_mm
    wheel_x = setting.cord_mm + at.radius_mm
    yield pulley_group(wheel_x, at, side=setting.side, cord_mm=cord_mm)
    yield _cord(setting, setting.cord_mm, at.sash_cord)
    if at.weight_cord is None:
        return
    over = Arc((wheel_x, at.axle_mm), at.radius_mm, 0.0, 180.0, cord_mm)
    yield Group("cord", (over,))
    if at.hangs == "free":
        yield _cord(setting, setting.weight_mm, at.weight_cord)


def weight_groups(setting: Setting) -> Iterator[Group]:
    """Give the weight, where there is one."""
    if setting.at.weight_cord is not None:
        yield _weight(setting)


def _cord(setting: Setting, x: float, run: Run) -> Group:
    return cord_group(
        x,
        setting.at,
        run,
        travel_mm=setting.positions.travel_mm,
        cord_mm=setting.inputs.cord_mm,
    )


def _weight(setting: Setting) -> Group:
    """Give knot, weight and make-weights; one that does not hang is drawn as hidden."""
    at, place, side = setting.at, setting.plan.place, setting.side
    part, title = f"{place}.{side}", f"{side} weight"
    top = at.weight_top
    if top is None:
        return Group(None, ())
    members = _body(setting, top.shut_mm)
    if at.hangs == "free":
        knot = Rect(
            setting.weight_mm - KNOT_MM / 2.0, top.shut_mm, KNOT_MM, setting.hanging.knot_mm, 8.0
        )
        members = (Group("knot", (knot,)), *members)
    else:
        title = f"{title}: {at.hangs}"
    return Group(None, members, part, title, motion=Shift(top.per_mm))


def _body(setting: Setting, top: float) -> tuple[Group, ...]:
    """Give the weight itself and, at its foot, what is added to it."""
    at = setting.at
    if at.weight_length_mm is None:
        return ()
    across = at.weight_across_mm
    size = Size(across) if across else setting.sizes.granted(WEIGHT_MM, "thickness of the weight")
    x, long = setting.weight_mm - size.mm / 2.0, at.weight_length_mm
    added = setting.hung.added_mm if setting.hung else 0.0
    whole = Rect(x, top - long + added, size.mm, long - added, 5.0)
    layer = "weight" if at.hangs == "free" else "hidden"
    is_assumed = size.is_assumed
    groups = [Group(layer, (whole, *_mass(setting, whole)), is_assumed=is_assumed)]  # type: ignore[arg-type] # one of two layers
    if added > 0.0:
        piece = Rect(x, top - long, size.mm, added, 3.0)
        hatch = Group("hatch", tuple(hatching(piece, 14.0)))
        groups.append(Group("make-weight", (piece, hatch), title="make-weight"))
    return tuple(groups)


def _mass(setting: Setting, body: Rect) -> tuple[Words, ...]:
    """Write up the weight what it weighs, with what is added, as far as there is room."""
    size = setting.text
    if setting.at.hangs != "free" or body.width < _LEAST_OF_TEXT * size:
        return ()
    x, y = body.x + body.width / 2.0 + 0.36 * size, body.y + body.height / 2.0
    whole = setting.mass_words
    for text in (whole, whole.partition(" (")[0]):
        words = Words((x, y), text, size, "middle", is_upright=True)
        room = words.room()
        if text and room.top - room.bottom < body.height:
            return (words,)
    return ()


_LEAST_OF_TEXT = 1.0
"""A weight thinner than this, over the size of the words, is named above the drawing instead."""
