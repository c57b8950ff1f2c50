"""Pulley, cord, knot and weight: the weight on the plumb line of its cord."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.scene import Arc, Circle, Group, Line, Rect, Shift, Stretch, Words
from evenhung.sheets.scene.strokes import hatching
from evenhung.sheets.sizes import AXLE_MM, CASE_MM, KNOT_MM, WHEEL_RIM_MM, Size

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.positions import Run
    from evenhung.sheets.section.setting import Setting

_SLENDER_MM = 38.0
"""Thickness that a weight is drawn with where none is stated: ours, a usual one."""


def hang_groups(setting: Setting) -> Iterator[Group]:
    """Give the pulley, the cord in its three runs, and the weight."""
    at, travel = setting.at, setting.positions.travel_mm
    yield _pulley(setting)
    yield _cord(setting, setting.cord_mm, at.sash_cord, travel)
    if at.weight_cord is None:
        return
    over = Arc(_wheel(setting), at.radius_mm, 0.0, 180.0, setting.inputs.cord_mm)
    yield Group("cord", (over,))
    if at.hangs == "free":
        yield _cord(setting, setting.weight_mm, at.weight_cord, travel)
    yield _weight(setting)


def _wheel(setting: Setting) -> tuple[float, float]:
    return setting.cord_mm + setting.at.radius_mm, setting.at.axle_mm


def _pulley(setting: Setting) -> Group:
    (x, y), at = _wheel(setting), setting.at
    case = y - at.case_mm
    radius = at.radius_mm - setting.inputs.cord_mm / 2.0 + WHEEL_RIM_MM
    members = (
        Group("pulley", (Rect(x - CASE_MM, at.case_mm, 2.0 * CASE_MM, 2.0 * case, 6.0),)),
        Group("wheel", (Circle((x, y), radius),)),
        Group("axle", (Circle((x, y), AXLE_MM),)),
    )
    return Group("pulley", members, f"pulley.{setting.side}", f"pulley on the {setting.side}")


def _cord(setting: Setting, x: float, run: Run, travel_mm: float) -> Group:
    """Give one straight run of the cord, from the height of the axle down."""
    axle = setting.at.axle_mm
    longest = max(run.at_mm(0.0), run.at_mm(travel_mm), 1.0)
    line = Line((x, axle), (x, axle - longest), setting.inputs.cord_mm)
    return Group("cord", (line,), motion=Stretch(axle, longest, run))


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
    size = Size(across) if across else setting.sizes.granted(_SLENDER_MM, "thickness of the weight")
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
