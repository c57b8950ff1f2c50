"""The elevation put together: frame, upper sash, lower sash, weights in their boxes, dimensions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.positions import positions_of
from evenhung.plan.words import Words as Quantities
from evenhung.sheets.elevation.frame import (
    frame_of,
    outer_groups,
    parting_beads,
    sizes_of,
    staff_beads,
)
from evenhung.sheets.elevation.hanging import cords, moving, pulleys, weights
from evenhung.sheets.elevation.sash import outer_arch, sash_groups
from evenhung.sheets.scene import Dimension, Drawing, Group, Line, Polygon, Rect, Shift
from evenhung.sheets.scene.shapes import Words
from evenhung.sheets.scene.strokes import scale_bar
from evenhung.sheets.sizes import Sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.elevation.frame import Frame
    from evenhung.sheets.sizes import SashSizes

TEXT_OF_WIDTH = 0.046
"""Size of the words over the width of the frame: 11 px where the drawing is 366 px wide."""
TEXT_OF_HEIGHT = 0.02


def elevation_of(plan: WindowPlan, *, text_mm: float | None = None) -> Drawing:
    """Draw the elevation of a window, seen from inside, its sashes shut.

    Parameters
    ----------
    plan
        A window of the plan of its house.
    text_mm
        Size of the words, in mm of the window; None leaves it to the window's own size [mm].

    Returns
    -------
    Drawing
        Every part is a group with the path of the part in the survey; the groups that move with a
        sash say with which, and shift by what its positions say.
    """
    sizes = Sizes()
    frame, sashes = frame_of(plan.window, sizes), sizes_of(plan.window, sizes)
    width = frame.edges[1] - frame.edges[0]
    text = text_mm or max(TEXT_OF_WIDTH * width, TEXT_OF_HEIGHT * frame.height)
    named = text_mm or TEXT_OF_WIDTH * width
    groups = [*_layers(plan, frame, sashes, named), *_measured(plan, frame, sashes, text)]
    called = " ".join(filter(None, (f"{plan.window.tag},", plan.window.room)))
    return Drawing(
        name="elevation",
        title=f"{called.rstrip(',')}: the window seen from inside, to scale",
        description=_description(plan),
        groups=tuple(groups),
        margin_mm=0.4 * text,
        assumed=sizes.assumed,
    )


def _layers(
    plan: WindowPlan, frame: Frame, sashes: dict[str, SashSizes], text: float
) -> Iterator[Group]:
    """From the wall to the room: what stands further in is painted over what stands behind."""
    upper, lower = sashes.get("upper"), sashes.get("lower")
    arch = outer_arch(upper)._replace(half_width=frame.width / 2.0) if upper else None
    curved = arch if arch and arch.rise > 0.0 else None
    springing = frame.height - (curved.rise if curved else 0.0)
    yield from outer_groups(frame, curved)
    for each in (plan.upper, plan.lower):
        if each is not None:
            yield from weights(each, frame, sashes[each.place])
    if plan.upper and upper:
        yield _sash(plan.upper, frame, upper, text)
    yield parting_beads(frame, springing)
    if plan.lower and lower:
        yield _sash(plan.lower, frame, lower, text)
    if plan.upper and upper and lower:
        yield _hidden_foot(plan.upper, frame, upper)
    if plan.lower and lower:
        positions = positions_of(plan.lower)
        motion = Shift(positions.sash_top.per_mm) if positions else None
        named = (_named(plan.lower, frame, lower, text),)
        yield Group(None, named, motion=motion, facts=moving(positions))
    running = [each for each in (plan.lower, plan.upper) if each and each.found]
    for each in running[:1]:  # those of the upper sash stand straight behind
        yield from pulleys(each, frame, sashes[each.place])
    yield staff_beads(frame, springing)


def _sash(plan: SashPlan, frame: Frame, sash: SashSizes, text: float) -> Group:
    """Give a sash with its cords, shut."""
    foot = frame.height - sash.height if plan.place == "upper" else 0.0
    positions = positions_of(plan)
    drawn = (Group(None, _raised(tuple(sash_groups(plan.place, sash)), foot)),)
    named = () if plan.place == "lower" else (_named(plan, frame, sash, text),)
    body = Group(
        "sash",
        (*drawn, *named),
        plan.place,
        f"{plan.place} sash",
        motion=Shift(positions.sash_top.per_mm) if positions else None,
        facts=moving(positions),
    )
    return Group(None, (*cords(plan, frame, sash), body))


def _raised(members: tuple[Group, ...], up: float) -> tuple[Group, ...]:
    return tuple(group.raised(up) for group in members)


def _hidden_foot(plan: SashPlan, frame: Frame, sash: SashSizes) -> Group:
    """Give the edge of the upper sash that the lower one hides."""
    positions, foot = positions_of(plan), frame.height - sash.height
    edge = Line((-sash.width / 2.0, foot), (sash.width / 2.0, foot))
    motion = Shift(positions.sash_foot.per_mm) if positions else None
    return Group("hidden", (edge,), motion=motion, facts=moving(positions))


def _named(plan: SashPlan, frame: Frame, sash: SashSizes, size: float) -> Group:
    """Write on the glass which sash it is and what it weighs, and which way it opens."""
    foot = frame.height - sash.height if plan.place == "upper" else 0.0
    middle = foot + sash.bottom_rail.mm + sash.glass_height / 2.0
    has_bars = sash.across * sash.up > 1
    room = sash.width - 2.0 * sash.stile.mm
    lines = [_called(plan, size, room)]
    if plan.mass.found:
        about = "about " if plan.mass.found == "estimated" else ""
        mass = f"{about}{plan.ledger.words.mass(plan.mass.kg)}"
        own = mass.partition(" (")[0]
        lines.append(own if has_bars or _width(mass, size) > room else mass)
    lines = [line for line in lines if _width(line, size) < sash.width]
    written = [
        Words((0.0, middle - 1.4 * size * row), line, size, "middle")
        for row, line in enumerate(lines)
    ]
    ticket = _ticket(lines, middle, size) if has_bars else ()
    arrow = [_arrow(plan, middle + 2.1 * size, size)] if plan.sash.is_running else []
    return Group("label", (Group("ticket", ticket), *written, Group("mark", tuple(arrow))))


def _called(plan: SashPlan, size: float, room_mm: float) -> str:
    """Name a sash, and say so where it is fixed; in one word where there is no room for more."""
    whole = f"{plan.place} sash" if plan.sash.is_running else f"{plan.place} sash, fixed"
    return whole if _width(whole, size) < room_mm else plan.place


def _width(words: str, size: float) -> float:
    return Words((0.0, 0.0), words, size).room().right


def _ticket(lines: list[str], middle: float, size: float) -> tuple[Rect, ...]:
    """Give a ticket behind the words, where bars would run through them."""
    if not lines:
        return ()
    half = max(_width(line, size) for line in lines) / 2.0 + 0.6 * size
    low, high = middle - (1.4 * (len(lines) - 1) + 0.6) * size, middle + 3.5 * size
    return (Rect(-half, low, 2.0 * half, high - low, 0.4 * size),)


def _arrow(plan: SashPlan, y: float, size: float) -> Polygon:
    way = -1.0 if plan.place == "upper" else 1.0
    outline = ((0.0, 1.0), (0.7, 0.1), (0.22, 0.1), (0.22, -0.8), (-0.22, -0.8), (-0.22, 0.1))
    points = [*outline, (-0.7, 0.1)]
    return Polygon(tuple((size * x, y + way * size * up) for x, up in points))


def _measured(
    plan: WindowPlan, frame: Frame, sashes: dict[str, SashSizes], text: float
) -> Iterator[Group]:
    """Give the dimensions and a bar to measure by."""
    words = _quantities(plan).length

    def length(mm: float) -> str:
        return _fitting(words(mm), mm, text)

    left, right = frame.edges
    half, foot, head = frame.width / 2.0, -frame.sill.mm, frame.height
    level = foot - 1.9 * text
    dimensions = [
        Dimension(-half, half, level, (foot, foot), length(frame.width), text, is_upright=False),
        Dimension(0.0, head, left - 0.9 * text, (left, left), length(head), text),
    ]
    for column, (place, sash) in enumerate(sorted(sashes.items())):
        low, high = (head - sash.height, head) if place == "upper" else (0.0, sash.height)
        beside = right + (2.1 + 1.9 * column) * text
        dimensions.append(Dimension(low, high, beside, (right, right), length(sash.height), text))
    yield Group("dimension", tuple(dimensions))
    filled, rest = scale_bar(-half, level - 2.6 * text, text)
    yield Group("dimension", (Group("mark", tuple(filled)), *rest))


def _fitting(words: str, mm: float, text: float) -> str:
    """Give a length in both systems where its line is as long as the words, else in one."""
    return words.partition(" (")[0] if _width(words, text) > mm else words


def _quantities(plan: WindowPlan) -> Quantities:
    """Write lengths as the sashes of the window do; where it has none, metric first."""
    sash = plan.upper or plan.lower
    return sash.ledger.words if sash else Quantities("metric")


def _description(plan: WindowPlan) -> str:
    """Say what the drawing shows."""
    said = []
    for sash in (plan.upper, plan.lower):
        if sash is not None:
            said.append(f"{sash.place} sash: {sash.judgement.verdict}, {sash.judgement.reason}")
    return "; ".join(said) or "No sash is recorded."
