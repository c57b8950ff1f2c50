"""The frame in elevation: head, sill, the faces of the boxes, beads."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.frame import SIDES
from evenhung.sheets.scene import Group, Polygon, Rect
from evenhung.sheets.sizes import box_sizes, sash_sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.frame import Side
    from evenhung.sheets.elevation.sash import Arch
    from evenhung.sheets.sizes import BoxSizes, SashSizes, Size, Sizes
    from evenhung.survey.window import Window

WAY: dict[Side, float] = {"left": -1.0, "right": 1.0}
"""Which way the box lies from the middle of the window."""


class Frame(NamedTuple):
    """A window's frame as it is drawn: the middle of its sill stands at x = 0, y = 0."""

    width: float
    height: float
    head: Size
    sill: Size
    left: BoxSizes
    right: BoxSizes
    staff_bead: Size
    parting_bead: Size

    @property
    def edges(self) -> tuple[float, float]:
        """Where the boxes end, left and right."""
        return -self.width / 2.0 - self.left.whole, self.width / 2.0 + self.right.whole

    def face(self, side: Side) -> float:
        """Give where the face of a pulley stile is."""
        return WAY[side] * self.width / 2.0


def frame_of(window: Window, sizes: Sizes) -> Frame:
    """Give a window's frame."""
    return Frame(
        width=window.box.clear_width.mm,
        height=window.box.clear_height.mm,
        left=box_sizes(window, "left", sizes),
        right=box_sizes(window, "right", sizes),
        head=sizes.usual("joinery/lining/thickness", "head"),
        sill=sizes.usual("joinery/sill/thickness", "sill"),
        staff_bead=sizes.usual("joinery/staff bead/thickness", "staff beads"),
        parting_bead=sizes.usual("joinery/parting bead/thickness", "parting beads"),
    )


def outer_groups(frame: Frame, arch: Arch | None) -> Iterator[Group]:
    """Give head, sill and boxes, which stand behind everything."""
    left, right = frame.edges
    half, top, head = frame.width / 2.0, frame.height, frame.head.mm
    over = ((right, top), (right, top + head), (left, top + head), (left, top))
    under = [(-half, top), (half, top)]
    if arch:  # the spandrels belong to the head
        curve = [(x, y + top - arch.height(0.0)) for x, y in arch.points(-half, half)]
        under = [under[0], *curve, under[1]]
    yield Group("frame", (Polygon((*over, *under)),), "box", "head of the frame", is_assumed=True)
    for side in SIDES:
        box: BoxSizes = getattr(frame, side)
        x = left if side == "left" else half
        yield Group(
            "frame",
            (Rect(x, 0.0, box.whole, top),),
            f"box.{side}",
            f"box on the {side}",
            is_assumed=box.wall.is_assumed or box.depth.is_assumed,
        )
    sill = Rect(left, -frame.sill.mm, right - left, frame.sill.mm)
    yield Group("frame", (sill,), "box", "sill", is_assumed=True)


def parting_beads(frame: Frame, springing: float) -> Group:
    """Give the beads between the two sashes, up the faces of the pulley stiles."""
    wide = frame.parting_bead.mm
    beads = (
        Rect(-frame.width / 2.0, 0.0, wide, springing),
        Rect(frame.width / 2.0 - wide, 0.0, wide, springing),
    )
    return Group("bead", beads, "box", "parting beads", is_assumed=True)


def staff_beads(frame: Frame, springing: float) -> Group:
    """Give the beads that hold the lower sash in, which stand in front of everything."""
    wide, half = frame.staff_bead.mm, frame.width / 2.0
    beads = [Rect(-half, 0.0, wide, springing), Rect(half - wide, 0.0, wide, springing)]
    if springing == frame.height:
        beads.append(Rect(-half + wide, frame.height - wide, frame.width - 2.0 * wide, wide))
    return Group("bead", tuple(beads), "box", "staff beads", is_assumed=True)


def sizes_of(window: Window, sizes: Sizes) -> dict[str, SashSizes]:
    """Give the sizes of the sashes that are there, by place."""
    return {place: sash_sizes(place, sash, sizes) for place, sash in window.sashes()}
