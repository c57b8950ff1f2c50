"""The frame cut level: pulley stile, linings, beads, parting slip, with their names upon them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.details.planes import BEAD_LET_IN
from evenhung.sheets.scene import Group, Line, Rect, Words
from evenhung.sheets.scene.shapes import CAP
from evenhung.sheets.scene.strokes import hatching

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.frame import Side
    from evenhung.sheets.details.planes import Planes

HATCH_MM = 11.0
"""Between two lines of the hatching of cut timber, at this scale."""


def frame_groups(planes: Planes, side: Side, text: float) -> Iterator[Group]:
    """Give what stands still, from the hollow of the box to the beads."""
    box, inside = planes.box, planes.inside
    hollow = Rect(box.wall.mm, inside.inner, box.depth.mm, inside.wide)
    path = f"box.{side}"
    yield Group("box", (hollow,), path, f"box on the {side}", is_assumed=box.depth.is_assumed)
    outer, inner = planes.outer_lining, planes.inner_lining
    parts = (
        ("pulley stile", Rect(0.0, inside.inner, box.wall.mm, inside.wide), box.wall.is_assumed),
        ("back lining", Rect(_back(planes), inside.inner, box.lining.mm, inside.wide), True),
        ("outer lining", Rect(-planes.lap, outer.inner, planes.lap + box.whole, outer.wide), True),
        ("inner lining", Rect(0.0, inner.inner, box.whole, inner.wide), True),
    )
    for title, rect, is_assumed in parts:
        yield Group("frame", cut(rect), path, title, is_assumed=is_assumed)
        if title != "back lining":
            yield from named(rect, title, text)
    yield _back_lining(planes, text)
    yield from _slip(planes, text)
    yield from _beads(planes)


def _back_lining(planes: Planes, text: float) -> Group:
    """Name the back lining, which is too thin to be written on, from above."""
    x, y = _back(planes) + planes.box.lining.mm / 2.0, planes.outer_lining.outer + 0.6 * text
    words = Words((x - 0.4 * text, y), "back lining", text, "end")
    return Group("label", (words, Line((x, y + 0.5 * text), (x, planes.inside.outer - 0.6 * text))))


def cut(rect: Rect) -> tuple[Rect | Group, ...]:
    """Give a piece of timber as it is cut: its outline, hatched."""
    return rect, Group("hatch", tuple(hatching(rect, HATCH_MM)))


def named(rect: Rect, name: str, text: float) -> Iterator[Group]:
    """Write a name upon a piece, the long way, on a ticket; nothing where it does not fit."""
    is_upright = rect.height > rect.width
    x, y = rect.x + rect.width / 2.0, rect.y + rect.height / 2.0
    at = (x + CAP * text / 2.0, y) if is_upright else (x, y - CAP * text / 2.0)
    words = Words(at, name, text, "middle", is_upright)
    room = words.room()
    across, along = (rect.width, rect.height) if is_upright else (rect.height, rect.width)
    long = max(room.right - room.left, room.top - room.bottom)
    if across < text or along < long:
        return
    half, high = long / 2.0 + 0.25 * text, 0.62 * text
    ticket = (
        Rect(x - high, y - half, 2.0 * high, 2.0 * half)
        if is_upright
        else Rect(x - half, y - high, 2.0 * half, 2.0 * high)
    )
    yield Group("label", (Group("ticket", (ticket,)), words))


def _back(planes: Planes) -> float:
    """Inner face of the back lining."""
    return planes.box.wall.mm + planes.box.depth.mm


def _slip(planes: Planes, text: float) -> Iterator[Group]:
    """The slip hangs between the two weights, about in the middle of the box."""
    if planes.slip is None:
        return
    room, box = planes.box.depth.mm, planes.box
    wide = min(SLIP_OF_DEPTH * room, room - 4.0)
    x = box.wall.mm + (room - wide) / 2.0
    rect = Rect(x, planes.slip.inner, wide, planes.slip.wide)
    yield Group("slip", cut(rect), "box", "parting slip", is_assumed=True)
    yield from named(rect, "parting slip", text)


SLIP_OF_DEPTH = 0.84
"""Width of a parting slip over the depth of its box: ours, for drawings alone."""


def _beads(planes: Planes) -> Iterator[Group]:
    let_in = BEAD_LET_IN * planes.bead_wide.mm
    bead = Rect(
        let_in - planes.bead_wide.mm, -planes.bead.mm / 2.0, planes.bead_wide.mm, planes.bead.mm
    )
    yield Group("bead", cut(bead), "box", "parting bead", is_assumed=True)
    staff = planes.staff_bead
    rect = Rect(-planes.staff.mm, staff.inner, planes.staff.mm, staff.wide)
    yield Group("bead", cut(rect), "box", "staff bead", is_assumed=True)
