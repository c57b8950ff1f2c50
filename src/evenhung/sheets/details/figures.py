"""Dimensions of the details: what the survey states in both systems, what stands in as usual."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.words import Words as Quantities
from evenhung.sheets.details.stiles import edge_mm
from evenhung.sheets.scene import Dimension, Group, Words
from evenhung.sheets.scene.strokes import scale_bar

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan import WindowPlan
    from evenhung.sheets.details.planes import Planes
    from evenhung.sheets.scene.shapes import Room
    from evenhung.sheets.sizes import Size

ROW = 3.0
"""Between two rows of dimensions, over the size of their words."""

BAR_MM = 100.0
"""Length of the bar to measure by; four inches lie over it."""


USUAL = "*"
"""Beside a figure that nobody measured."""


def quantities_of(window: WindowPlan) -> Quantities:
    """Write lengths as the sashes of the window do; where it has none, metric first."""
    sash = window.upper or window.lower
    return sash.ledger.words if sash else Quantities("metric")


class Measure(NamedTuple):
    """One size to dimension, and where it is."""

    size: Size
    ends: tuple[float, float]


def usual_group(x: float, y: float, text: float) -> Group:
    """Say what the mark beside a figure means."""
    return Group("label", (Words((x, y), f"{USUAL} as usual: nobody measured it", text),))


def in_rows(
    measures: Sequence[Measure],
    quantities: Quantities,
    *,
    beside: float,
    away: float,
    reach: float,
    text: float,
    is_upright: bool,
) -> list[Group]:
    """Dimension sizes in as few rows as their words need, the first row nearest to the drawing.

    Parameters
    ----------
    measures
        What to dimension.
    quantities
        How lengths are written for the house.
    beside
        Where the first row runs: x of upright ones, y of level ones [mm].
    away
        Which way the next row lies: 1 or -1.
    reach
        Where witness lines begin [mm].
    text
        Size of the words [mm].
    is_upright
        Whether heights are measured.
    """
    rows: list[list[Room]] = []
    groups = []
    for measure in measures:
        number = 0
        while True:
            line = beside + away * ROW * text * number
            one = _dimension(measure, quantities, line, reach, text, is_upright=is_upright)
            room = one.room()
            if number == len(rows):
                rows.append([])
            if not any(_meet(room, other, is_upright=is_upright) for other in rows[number]):
                break
            number += 1
        rows[number].append(room)
        groups.append(Group("dimension", (one,), is_assumed=measure.size.is_assumed))
    return groups


def _meet(one: Room, other: Room, *, is_upright: bool) -> bool:
    """Tell whether two dimensions in one row would run into each other."""
    if is_upright:
        return one.bottom < other.top and other.bottom < one.top
    return one.left < other.right and other.left < one.right


def _dimension(
    measure: Measure,
    quantities: Quantities,
    line: float,
    reach: float,
    text: float,
    *,
    is_upright: bool,
) -> Dimension:
    """Dimension a size in both systems; one that nobody measured carries a mark."""
    own, _, other = quantities.length(measure.size.mm).rstrip(")").partition(" (")
    if measure.size.is_assumed:
        other = f"{other} {USUAL}"
    start, end = sorted(measure.ends)
    return Dimension(start, end, line, (reach, reach), own, text, is_upright, other)


def jamb_figures(
    window: WindowPlan, planes: Planes, shown_mm: float, text: float
) -> Iterator[Group]:
    """Dimension a horizontal section: level ones below, upright ones at both sides."""
    words, box = quantities_of(window), planes.box
    low = min(planes.inner_lining.inner, planes.staff_bead.inner) - 1.7 * text
    level = [
        Measure(box.depth, (box.wall.mm, box.wall.mm + box.depth.mm)),
        Measure(box.wall, (0.0, box.wall.mm)),
        *_stiles(window, planes),
    ]
    across = in_rows(
        level,
        words,
        beside=low - 1.2 * text,
        away=-1.0,
        reach=low + 1.0 * text,
        text=text,
        is_upright=False,
    )
    compartments = [
        Measure(size, planes.compartment(place)) for place, size in planes.compartments.items()
    ]
    right, left = box.whole, -shown_mm
    yield from across
    yield from in_rows(
        compartments,
        words,
        beside=right + 1.7 * text,
        away=1.0,
        reach=right,
        text=text,
        is_upright=True,
    )
    yield from in_rows(
        [Measure(sash.thickness, sash.span) for sash in planes.sashes.values()],
        words,
        beside=left - 1.7 * text,
        away=-1.0,
        reach=left,
        text=text,
        is_upright=True,
    )
    lowest = min(room.bottom for group in across if (room := group.room(0.0)))
    yield from foot_groups(left, lowest - 1.8 * text, text)


def _stiles(window: WindowPlan, planes: Planes) -> Iterator[Measure]:
    """Give the face of the stiles: of the lower sash, and of the upper where it differs."""
    shown: list[float] = []
    for sash in reversed(planes.sashes.values()):
        stile = sash.sizes.stile
        if stile.mm not in shown:
            shown.append(stile.mm)
            edge = edge_mm(window, sash)
            yield Measure(stile, (edge - stile.mm, edge))


def foot_groups(x: float, y: float, text: float) -> Iterator[Group]:
    """Give the bar to measure by, four inches over a hundred millimetres, and tell the mark."""
    filled, rest = scale_bar(x, y, text, long_mm=BAR_MM)
    yield Group("dimension", (Group("mark", tuple(filled)), *rest))
    yield usual_group(x, y - 3.2 * text, text)
