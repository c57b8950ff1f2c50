"""The shapes of a drawing: no colours and no line weights, which belong to layers and writers.

Lengths are in mm; x runs to the right, y up, from the middle of the sill or wherever a drawing
begins. Every shape knows the room it takes up, and can be raised and mirrored.
"""

from __future__ import annotations

import math
from typing import Literal, NamedTuple, TypeAlias

Point: TypeAlias = tuple[float, float]
"""Across and up, in mm."""

Anchor: TypeAlias = Literal["start", "middle", "end"]
"""Which part of words stands at their point."""

_OTHER: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}

LETTER = 0.56
"""Mean width of a letter over its size, in the plain faces that screens have: ours, to lay out."""


class Room(NamedTuple):
    """The upright rectangle that something takes up."""

    left: float
    bottom: float
    right: float
    top: float

    def joined(self, other: Room) -> Room:
        """Give the room of both."""
        return Room(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )

    def moved(self, up_mm: float) -> Room:
        """Give the same room so far up."""
        return self._replace(bottom=self.bottom + up_mm, top=self.top + up_mm)

    def widened(self, by_mm: float) -> Room:
        """Give it with a margin all round."""
        return Room(self.left - by_mm, self.bottom - by_mm, self.right + by_mm, self.top + by_mm)


class Line(NamedTuple):
    """A straight line; with a width, something as thick as that, such as a cord."""

    start: Point
    end: Point
    width: float | None = None

    def room(self) -> Room:
        """Give the room it takes up."""
        return _room_of((self.start, self.end)).widened((self.width or 0.0) / 2.0)

    def raised(self, up: float) -> Line:
        """Give it so far up."""
        return self._replace(start=_raised(self.start, up), end=_raised(self.end, up))

    def mirrored(self) -> Line:
        """Give it in a mirror that stands at x = 0."""
        return self._replace(start=_mirrored(self.start), end=_mirrored(self.end))


class Polygon(NamedTuple):
    """An outline through points, closed."""

    points: tuple[Point, ...]

    def room(self) -> Room:
        """Give the room it takes up."""
        return _room_of(self.points)

    def raised(self, up: float) -> Polygon:
        """Give it so far up."""
        return Polygon(tuple(_raised(point, up) for point in self.points))

    def mirrored(self) -> Polygon:
        """Give it in a mirror that stands at x = 0."""
        return Polygon(tuple(_mirrored(point) for point in self.points))


class Rect(NamedTuple):
    """An upright rectangle, by its lower left corner."""

    x: float
    y: float
    width: float
    height: float
    rounding: float = 0.0

    def room(self) -> Room:
        """Give the room it takes up."""
        return Room(self.x, self.y, self.x + self.width, self.y + self.height)

    def raised(self, up: float) -> Rect:
        """Give it so far up."""
        return self._replace(y=self.y + up)

    def mirrored(self) -> Rect:
        """Give it in a mirror that stands at x = 0."""
        return self._replace(x=-self.x - self.width)


class Circle(NamedTuple):
    """A circle."""

    centre: Point
    radius: float

    def room(self) -> Room:
        """Give the room it takes up."""
        return _room_of((self.centre,)).widened(self.radius)

    def raised(self, up: float) -> Circle:
        """Give it so far up."""
        return self._replace(centre=_raised(self.centre, up))

    def mirrored(self) -> Circle:
        """Give it in a mirror that stands at x = 0."""
        return self._replace(centre=_mirrored(self.centre))


class Arc(NamedTuple):
    """An arc from one angle to another, anticlockwise from the right, in degrees."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float
    width: float | None = None

    def point(self, angle_deg: float) -> Point:
        """Give the point of its circle at an angle."""
        angle = math.radians(angle_deg)
        x, y = self.centre
        return x + self.radius * math.cos(angle), y + self.radius * math.sin(angle)

    def room(self) -> Room:
        """Give the room of its whole circle: near enough to lay out by."""
        return Circle(self.centre, self.radius).room().widened((self.width or 0.0) / 2.0)

    def raised(self, up: float) -> Arc:
        """Give it so far up."""
        return self._replace(centre=_raised(self.centre, up))

    def mirrored(self) -> Arc:
        """Give it in a mirror that stands at x = 0."""
        return self._replace(
            centre=_mirrored(self.centre),
            start_deg=180.0 - self.end_deg,
            end_deg=180.0 - self.start_deg,
        )


class Words(NamedTuple):
    """Words on a level line, or up an upright one; they are never mirrored, only moved."""

    at: Point
    text: str
    size: float
    anchor: Anchor = "start"
    is_upright: bool = False
    figure: str = ""
    """Name of the clearance whose figure it shows, where a page keeps it up to date."""

    def room(self) -> Room:
        """Give the room it takes up, by the mean width of a letter."""
        along = LETTER * self.size * len(self.text)
        before = {"start": 0.0, "middle": along / 2.0, "end": along}[self.anchor]
        x, y = self.at
        if self.is_upright:
            return Room(x - self.size, y - before, x, y - before + along)
        return Room(x - before, y, x - before + along, y + self.size)

    def raised(self, up: float) -> Words:
        """Give it so far up."""
        return self._replace(at=_raised(self.at, up))

    def mirrored(self) -> Words:
        """Give it in a mirror that stands at x = 0."""
        x, y = self.at
        if self.is_upright:
            return self._replace(at=(self.size * CAP - x, y))
        return self._replace(at=(-x, y), anchor=_OTHER[self.anchor])


CAP = 0.72
"""Height of a capital over the size of its face: ours, to lay out."""


class Dimension(NamedTuple):
    """A length measured between two heights, or two points across, with its words."""

    start: float
    end: float
    beside: float
    """Where its line runs: x of an upright one, y of a level one."""
    reach: tuple[float, float]
    """Where each end's witness line begins: x of an upright one, y of a level one."""
    words: str
    size: float
    is_upright: bool = True
    under: str = ""
    """Words on the other side of its line: the same length in the other system."""

    def room(self) -> Room:
        """Give the room it takes up, its words included."""
        low, high = sorted((self.start, self.end))
        over = 1.6 * self.size
        across = min(self.beside - over, *self.reach), max(self.beside + over, *self.reach)
        letters = max(len(self.words), len(self.under))
        half = max(0.0, LETTER * self.size * letters - (high - low)) / 2.0
        if self.is_upright:
            return Room(across[0], low - half, across[1], high + half)
        return Room(low - half, across[0], high + half, across[1])

    def raised(self, up: float) -> Dimension:
        """Give it so far up."""
        if self.is_upright:
            return self._replace(start=self.start + up, end=self.end + up)
        reach = (self.reach[0] + up, self.reach[1] + up)
        return self._replace(beside=self.beside + up, reach=reach)

    def mirrored(self) -> Dimension:
        """Give it in a mirror that stands at x = 0."""
        if self.is_upright:
            return self._replace(beside=-self.beside, reach=(-self.reach[0], -self.reach[1]))
        return self._replace(start=-self.end, end=-self.start, reach=self.reach[::-1])


Shape: TypeAlias = Line | Polygon | Rect | Circle | Arc | Words | Dimension


def _raised(point: Point, up: float) -> Point:
    return point[0], point[1] + up


def _mirrored(point: Point) -> Point:
    return -point[0], point[1]


def _room_of(points: tuple[Point, ...]) -> Room:
    across, up = zip(*points, strict=True)
    return Room(min(across), min(up), max(across), max(up))
