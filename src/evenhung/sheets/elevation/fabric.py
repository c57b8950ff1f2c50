"""The fabric of a window in elevation: what is kept is plain, new timber and new glass hatched.

It is the drawing to put before whoever consents to the work: seen from inside, its sashes shut.
What cannot be seen from there is named in its description.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.elevation.frame import (
    frame_of,
    outer_groups,
    parting_beads,
    sizes_of,
    staff_beads,
)
from evenhung.sheets.elevation.sash import outer_arch, sash_groups
from evenhung.sheets.kept import kept_lines
from evenhung.sheets.scene import Drawing, Group, Rect
from evenhung.sheets.scene.shapes import Words
from evenhung.sheets.scene.strokes import hatching
from evenhung.sheets.sizes import Sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import WindowPlan
    from evenhung.plan.overhaul import WindowOverhaul
    from evenhung.plan.repair.treatment import Treatment
    from evenhung.sheets.elevation.frame import Frame
    from evenhung.sheets.scene.groups import Layer
    from evenhung.sheets.sizes import SashSizes

TEXT_OF_WIDTH = 0.046
"""Size of the words over the width of the frame, as in the other elevation."""

HATCH_MM = 22.0
"""Between two lines of the hatching: close enough for a bead, far enough for a pane."""

NEW = ("splice", "renew part", "renew sash", "renew pane")
"""What puts in something new."""


def puts_in_new(overhaul: WindowOverhaul) -> bool:
    """Tell whether anything new goes into a window: otherwise there is no drawing to look at."""
    return any(one.what in NEW for one in overhaul.repair.treatments)


class _Patch(NamedTuple):
    """Something new as it is seen from inside."""

    rect: Rect
    is_glass: bool
    title: str


class _Scene(NamedTuple):
    """What the patches are laid over."""

    frame: Frame
    sashes: dict[str, SashSizes]
    overhaul: WindowOverhaul

    def foot_mm(self, place: str) -> float:
        """Give how high the foot of a sash stands above the sill [mm]."""
        return self.frame.height - self.sashes[place].height if place == "upper" else 0.0


def fabric_of(
    plan: WindowPlan, overhaul: WindowOverhaul, *, text_mm: float | None = None
) -> Drawing:
    """Draw what is kept of a window and what is new.

    Parameters
    ----------
    plan
        A window of the plan of its house.
    overhaul
        The same window's overhaul.
    text_mm
        Size of the words, in mm of the window; None leaves it to the window's own size [mm].

    Returns
    -------
    Drawing
        New timber hatched rising to the right, new glass falling; the share kept stands below.
    """
    sizes = Sizes()
    frame, sashes = frame_of(plan.window, sizes), sizes_of(plan.window, sizes)
    scene = _Scene(frame, sashes, overhaul)
    new = [one for one in overhaul.repair.treatments if one.what in NEW]
    patches = {one: list(_patches(scene, one)) for one in new}
    hidden = [one for one, found in patches.items() if not found]
    named = " ".join(filter(None, (f"{plan.window.tag},", plan.window.room)))
    text = text_mm or TEXT_OF_WIDTH * (frame.edges[1] - frame.edges[0])
    return Drawing(
        name="fabric",
        title=f"{named.rstrip(',')}: what is kept and what is new, seen from inside",
        description=_description(overhaul, list(patches), hidden),
        groups=(*_layers(scene, patches), _caption(scene, text)),
        margin_mm=0.4 * text,
        assumed=sizes.assumed,
    )


def _layers(scene: _Scene, patches: dict[Treatment, list[_Patch]]) -> Iterator[Group]:
    """From the wall to the room, what is new of each over what it belongs to."""
    frame, upper = scene.frame, scene.sashes.get("upper")
    arch = outer_arch(upper)._replace(half_width=frame.width / 2.0) if upper else None
    curved = arch if arch and arch.rise > 0.0 else None
    springing = frame.height - (curved.rise if curved else 0.0)
    yield from outer_groups(frame, curved)
    for place in ("upper", "lower"):
        sash = scene.sashes.get(place)
        if sash is not None:
            drawn = sash_groups(place, sash)
            foot = scene.foot_mm(place)
            yield Group(None, tuple(group.raised(foot) for group in drawn))
            yield from _hatched(patches, place)
        if place == "upper":
            yield parting_beads(frame, springing)
    yield staff_beads(frame, springing)
    yield from _hatched(patches, "")


def _hatched(patches: dict[Treatment, list[_Patch]], place: str) -> Iterator[Group]:
    for one, found in patches.items():
        if one.finding.member.place != place:
            continue
        for patch in found:
            lines = tuple(hatching(patch.rect, HATCH_MM, is_falling=patch.is_glass))
            layer: Layer = "glass" if patch.is_glass else "sash"
            yield Group(
                layer,
                (patch.rect, Group("hatch", lines)),
                place or "box",
                patch.title,
            )


def _patches(scene: _Scene, one: Treatment) -> Iterator[_Patch]:
    """Give what of a treatment is seen from inside; nothing for what is hidden or not reckoned."""
    finding, member = one.finding, one.finding.member
    title = f"{finding.part}: {one.what}"
    if one.what == "renew pane":
        for column, row in one.extent.panes:
            yield _Patch(_pane(scene, member.place, column, row), is_glass=True, title=title)
        return
    if one.what == "renew sash":
        parts = [
            part for part in scene.overhaul.repair.sorts.pieces if part.startswith(member.place)
        ]
    else:
        parts = [finding.part]
    for part in parts:
        whole = _member(scene, part)
        if whole is None or (one.what == "splice" and one.splice is None):
            continue
        rect = _stretch(scene, one, whole) if one.splice is not None else whole
        yield _Patch(rect, is_glass=False, title=title)


def _stretch(scene: _Scene, one: Treatment, whole: Rect) -> Rect:
    """Give the stretch of a member that a splice covers, point to point."""
    piece, starts, long = scene.overhaul.repair.sorts.pieces[one.finding.part], 0.0, 0.0
    if one.splice is not None:
        starts, long = one.splice.starts_mm, one.splice.piece_mm
    if one.finding.member.run == "up":
        return whole._replace(y=whole.y + starts, height=min(long, whole.height - starts))
    # a rail is seen between the stiles, and measured over them
    out = (piece.length_mm - whole.width) / 2.0
    left, right = max(0.0, starts - out), min(whole.width, starts + long - out)
    return whole._replace(x=whole.x + left, width=max(0.0, right - left))


def _member(scene: _Scene, part: str) -> Rect | None:
    """Give where a member is seen from inside; None for one that is hidden."""
    place, _, name = part.partition(" ")
    if place in scene.sashes:
        found = _of_sash(scene.sashes[place], place, name)
        return found.raised(scene.foot_mm(place)) if found else None
    return _of_frame(scene.frame, part)


def _of_sash(sash: SashSizes, place: str, name: str) -> Rect | None:
    half, stile = sash.width / 2.0, sash.stile.mm
    top, foot = sash.top_rail.mm, sash.bottom_rail.mm
    meets_at_foot = place == "upper"
    inner, between = half - stile, sash.width - 2.0 * stile
    low = Rect(-inner, 0.0, between, foot)
    high = Rect(-inner, sash.height - top, between, top)
    return {
        "left stile": Rect(-half, 0.0, stile, sash.height),
        "right stile": Rect(half - stile, 0.0, stile, sash.height),
        "meeting rail": low if meets_at_foot else high,
        "top rail": high,
        "bottom rail": low,
    }.get(name)


def _of_frame(frame: Frame, part: str) -> Rect | None:
    left, right = frame.edges
    half, bead, top = frame.width / 2.0, frame.staff_bead.mm, frame.height
    across = right - left
    return {
        "sill": Rect(left, -frame.sill.mm, across, frame.sill.mm),
        "head": Rect(left, top, across, frame.head.mm),
        "head inner lining": Rect(left, top, across, frame.head.mm),
        "left inner lining": Rect(left, 0.0, -half - left, top),
        "right inner lining": Rect(half, 0.0, right - half, top),
        "left staff bead": Rect(-half, 0.0, bead, top),
        "right staff bead": Rect(half - bead, 0.0, bead, top),
        "head staff bead": Rect(-half, top - bead, frame.width, bead),
        "sill staff bead": Rect(-half, 0.0, frame.width, bead),
    }.get(part)


def _pane(scene: _Scene, place: str, column: int, row: int) -> Rect:
    """Give one pane, from the left and from the top."""
    panes, sash = scene.overhaul.repair.sorts.panes[place], scene.sashes[place]
    left = -sash.width / 2.0 + sash.stile.mm
    x = left + (column - 1) * (panes.sight_width_mm + panes.bar_mm)
    y = panes.bottom_mm + (panes.up - row) * (panes.sight_height_mm + panes.bar_mm)
    return Rect(x, y, panes.sight_width_mm, panes.sight_height_mm).raised(scene.foot_mm(place))


def _caption(scene: _Scene, size: float) -> Group:
    """Write below the sill what is kept, and what the hatching means."""
    foot = -scene.frame.sill.mm
    kept = kept_lines(scene.overhaul.repair.fabric)
    lines = [*kept, "new timber rises to the right, new glass falls"]
    written = tuple(
        Words((0.0, foot - (1.8 + 1.4 * number) * size), line, size, "middle")
        for number, line in enumerate(lines)
    )
    return Group("label", written)


def _description(overhaul: WindowOverhaul, new: list[Treatment], hidden: list[Treatment]) -> str:
    """Say what the drawing shows, and what it cannot show."""
    said = [*kept_lines(overhaul.repair.fabric)]
    said += [f"{one.finding.part}: {one.what}" for one in new]
    if hidden:
        parts = ", ".join(dict.fromkeys(one.finding.part for one in hidden))
        said.append(f"not seen from inside, or not reckoned: {parts}")
    return "; ".join(said) or "Nothing is renewed."
