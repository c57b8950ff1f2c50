"""Shapes made of plainer ones: dimensions, hatching, scale bars, broken edges."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.sheets.scene.shapes import CAP, Line, Polygon, Rect, Words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.sheets.scene.shapes import Dimension, Point, Shape

_BARS = {
    300.0: ((304.8, 4, "1 ft"), (300.0, 3, "300 mm")),
    100.0: ((101.6, 4, "4 in"), (100.0, 5, "100 mm")),
}
"""Rows of a scale bar: length in mm, parts, words."""


def strokes_of(dimension: Dimension) -> tuple[Line | Words, ...]:
    """Give the lines and words of a dimension: witness lines, its line, a tick at each end."""
    start, end, beside, size = dimension.start, dimension.end, dimension.beside, dimension.size
    over, tick = 0.35 * size, 0.25 * size

    def at(along: float, across: float) -> Point:
        return (across, along) if dimension.is_upright else (along, across)

    lines = [Line(at(start, beside), at(end, beside))]
    for along, reach in zip((start, end), dimension.reach, strict=True):
        past = math.copysign(over, beside - reach)
        lines.append(Line(at(along, reach + past), at(along, beside + past)))
        lines.append(Line(at(along - tick, beside - tick), at(along + tick, beside + tick)))
    upright = dimension.is_upright
    middle = (start + end) / 2.0
    if dimension.under:  # one on either side of the line, both to be read from the same side
        above, below = (-over, over + CAP * size) if upright else (over, -over - CAP * size)
        texts = ((dimension.words, above), (dimension.under, below))
        return (
            *lines,
            *(Words(at(middle, beside + by), text, size, "middle", upright) for text, by in texts),
        )
    outwards = beside >= dimension.reach[0]
    # upright words read upwards: on the right of their line they stand a capital further out
    aside = -over if upright and not outwards else over + CAP * size * upright
    words = Words(at(middle, beside + aside), dimension.words, size, "middle", upright)
    return (*lines, words)


def hatching(rect: Rect, spacing: float, *, is_falling: bool = False) -> Iterator[Line]:
    """Give the lines at 45 degrees that fill a rectangle, so far apart measured across.

    Parameters
    ----------
    rect
        What is hatched.
    spacing
        Between two lines along the bottom [mm].
    is_falling
        Whether they fall to the right; else they rise.

    Examples
    --------
    >>> [line.start for line in hatching(Rect(0.0, 0.0, 10.0, 10.0), 10.0)]
    [(0.0, 0.0)]
    """
    count = math.ceil((rect.width + rect.height) / spacing)
    for number in range(1, count):
        start = number * spacing - rect.height
        low, high = max(start, 0.0), min(start + rect.height, rect.width)
        points = [(along, along - start) for along in (low, high)]
        if is_falling:
            points = [(rect.width - along, up) for along, up in points]
        first, second = ((rect.x + along, rect.y + up) for along, up in points)
        yield Line(first, second)


def hatching_within(
    points: tuple[Point, ...], spacing: float, *, is_falling: bool = False
) -> Iterator[Line]:
    """Give the lines at 45 degrees that fill any outline, so far apart measured level.

    Parameters
    ----------
    points
        The outline.
    spacing
        Between two lines along a level [mm].
    is_falling
        Whether they fall to the right; else they rise.

    Examples
    --------
    >>> square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    >>> [line.end for line in hatching_within(square, 10.0)]
    [(10.0, 10.0)]
    """
    way = -1.0 if is_falling else 1.0
    turned = [(way * x, y) for x, y in points]
    across = [x - y for x, y in turned]
    for number in range(math.ceil(min(across) / spacing), math.floor(max(across) / spacing) + 1):
        crossed = sorted(_crossed(turned, number * spacing))
        for low, high in zip(crossed[::2], crossed[1::2], strict=False):
            if high > low:
                ends = [(way * x, x - number * spacing) for x in (low, high)]
                yield Line(ends[0], ends[1])


def _crossed(points: list[Point], offset: float) -> Iterator[float]:
    """Give the x at which the line x - y = offset crosses each edge of an outline."""
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        before, after = x1 - y1 - offset, x2 - y2 - offset
        if (before < 0.0) != (after < 0.0):
            yield x1 + (x2 - x1) * before / (before - after)


def scale_bar(
    x: float, y: float, size: float, *, long_mm: float = 300.0
) -> tuple[list[Shape], list[Shape]]:
    """Give a bar of inches over one of millimetres: its filled parts, and its outline and words.

    Parameters
    ----------
    x, y
        Where it begins, between its two rows [mm].
    size
        Of its words [mm].
    long_mm
        Length of the lower row, 100 mm or 300 mm; the upper one is 4 in or 1 ft [mm].
    """
    filled: list[Shape] = []
    rest: list[Shape] = []
    high = 0.4 * size
    for row, (length, parts, words) in enumerate(_BARS[long_mm]):
        bottom = y - row * high
        step = length / parts
        filled += [Rect(x + n * step, bottom, step, high) for n in range(0, parts, 2)]
        rest.append(Rect(x, bottom, length, high))
        beside = y + high + 0.25 * size if row == 0 else y - high - (CAP + 0.25) * size
        rest.append(Words((x + length, beside), words, size, "end"))
    return filled, rest


def broken_edge(x: float, bottom: float, top: float, origin: float) -> list[Point]:
    """Give points down a wavy edge at x from the top to the bottom: the drawing breaks off there.

    Parameters
    ----------
    x
        Where the edge runs [mm].
    bottom, top
        Its ends [mm].
    origin
        A height at which its waves begin, so that edges that meet wave alike [mm].
    """
    count = max(2, math.ceil((top - bottom) / 12.0))
    heights = [top - (top - bottom) * number / count for number in range(count + 1)]
    return [
        (x + 6.0 * math.sin((height - origin) * math.tau / 150.0), height) for height in heights
    ]


def broken_off(x: float, bottom: float, right: float, top: float, origin: float) -> Polygon:
    """Give a rectangle whose left edge is broken off."""
    return Polygon(((right, bottom), (right, top), *broken_edge(x, bottom, top, origin)))
