"""A window as small as a thumbnail, true to scale: how each sash stands is a hatch, never a colour.

All glyphs of a house are written at one scale, so that a small window looks small.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.elevation.sash import outer_arch, sight_arch
from evenhung.sheets.scene import Drawing, Group, Line, Polygon, Rect, Words
from evenhung.sheets.scene.strokes import hatching
from evenhung.sheets.sizes import Sizes, sash_sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.plan.verdict import Verdict
    from evenhung.sheets.scene import Shape
    from evenhung.sheets.sizes import SashSizes

PIXELS_PER_MM = 0.07
"""Scale of a glyph on a screen: a window of 860 mm by 1650 mm comes to 67 by 120 pixels."""

FRAME_MM = 50.0
"""Breadth of the frame about the sashes, so that it can be seen at this size."""

_HATCH_MM = 95.0


def glyph_of(plan: WindowPlan) -> Drawing:
    """Draw a window for a list of windows.

    Parameters
    ----------
    plan
        A window of the plan of its house.

    Returns
    -------
    Drawing
        To be written at `PIXELS_PER_MM`; its title says each verdict in words.
    """
    width, height = plan.window.box.clear_width.mm, plan.window.box.clear_height.mm
    half, edge = width / 2.0, FRAME_MM
    frame = Rect(-half - edge, -edge, width + 2.0 * edge, height + 2.0 * edge)
    groups = [Group("frame", (frame, Group("box", (Rect(-half, 0.0, width, height),))))]
    for sash in (plan.upper, plan.lower):
        if sash is not None:
            groups.append(_sash(sash, height))
    return Drawing(
        name="glyph",
        title=f"{plan.window.tag}: {in_words(plan)}",
        description="",
        groups=tuple(groups),
        margin_mm=20.0,
    )


def in_words(plan: WindowPlan) -> str:
    """Say how each sash of a window stands: ``upper hangs true, lower adjust``."""
    sashes = [sash for sash in (plan.upper, plan.lower) if sash is not None]
    return ", ".join(f"{sash.place} {sash.judgement.verdict}" for sash in sashes) or "no sash"


def key_of(verdict: Verdict) -> Drawing:
    """Draw one pane with the mark of a verdict, for the key beside a list.

    Examples
    --------
    >>> key_of("adjust").title
    'adjust'
    """
    pane = Rect(0.0, 0.0, 420.0, 420.0)
    members = (pane, Group("hatch", tuple(_marked(verdict, pane))))
    return Drawing("glyph", verdict, "", (Group("glass", members),), margin_mm=20.0)


def _sash(plan: SashPlan, head_mm: float) -> Group:
    sizes = sash_sizes(plan.place, plan.sash, Sizes())
    foot = head_mm - sizes.height if plan.place == "upper" else 0.0
    half, arch = sizes.width / 2.0, outer_arch(sizes)
    body = Polygon(((half, 0.0), (-half, 0.0), *arch.points(-half, half)))
    members: tuple[Shape | Group, ...] = (body, *_glass(plan.judgement.verdict, sizes))
    return Group("sash", members, title=f"{plan.place} sash: {plan.judgement.verdict}").raised(foot)


def _glass(verdict: Verdict, sash: SashSizes) -> Iterator[Group]:
    """Give the glass with its bars as lines, and over it the mark of the verdict."""
    half, arch, foot = sash.width / 2.0 - sash.stile.mm, sight_arch(sash), sash.bottom_rail.mm
    if half <= 0.0 or arch.springing <= foot:
        return
    pane = Polygon(((half, foot), (-half, foot), *arch.points(-half, half)))
    yield Group("glass", (pane, *_bars(sash)))
    square = Rect(-half, foot, 2.0 * half, arch.springing - foot)
    yield Group("hatch", tuple(_marked(verdict, square)))


def _bars(sash: SashSizes) -> Iterator[Line]:
    half, arch, foot = sash.width / 2.0 - sash.stile.mm, sight_arch(sash), sash.bottom_rail.mm
    for column in range(1, sash.across):
        x = -half + 2.0 * half * column / sash.across
        yield Line((x, foot), (x, arch.height(x)))
    for row in range(1, sash.up):
        y = foot + (arch.springing - foot) * row / sash.up
        yield Line((-half, y), (half, y))


def _marked(verdict: Verdict, pane: Rect) -> Iterator[Shape]:
    """Give the mark of a verdict: the more there is to do, the more lines."""
    left, bottom, right, top = pane.room()
    if verdict in {"adjust", "rehang"}:
        yield from hatching(pane, _HATCH_MM)
    if verdict == "rehang":
        yield from hatching(pane, _HATCH_MM, is_falling=True)
    if verdict == "cannot run":
        yield Line((left, bottom), (right, top))
        yield Line((left, top), (right, bottom))
    if verdict == "fixed":
        rows = int((top - bottom) // _HATCH_MM)
        for row in range(1, rows + 1):
            y = bottom + (top - bottom) * row / (rows + 1)
            yield Line((left, y), (right, y))
    if verdict == "unknown":
        size = 0.7 * min(right - left, top - bottom)
        middle = ((left + right) / 2.0, (bottom + top) / 2.0 - 0.36 * size)
        yield Words(middle, "?", size, "middle")
