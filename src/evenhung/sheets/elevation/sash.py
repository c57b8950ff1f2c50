"""A sash in elevation: stiles, rails, bars, panes and horns, its top square or curved.

Its middle stands at x = 0 and its foot at y = 0; whoever places it in a window moves it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.scene import Group, Line, Polygon, Rect
from evenhung.sheets.sizes import HORN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.policy import Place
    from evenhung.sheets.scene.shapes import Point
    from evenhung.sheets.sizes import SashSizes

STEPS = 24
"""Straight pieces that a curved top is drawn with."""


class Arch(NamedTuple):
    """The underside or the top of a curve: how high it stands above its springing, anywhere."""

    half_width: float
    rise: float
    springing: float

    @property
    def radius(self) -> float:
        """Radius of its circle."""
        return (self.half_width**2 + self.rise**2) / (2.0 * self.rise)

    def height(self, x: float) -> float:
        """Give its height at x; level where it does not rise."""
        if self.rise <= 0.0:
            return self.springing
        below = self.radius - self.rise
        return self.springing + math.sqrt(max(0.0, self.radius**2 - x**2)) - below

    def points(self, left: float, right: float) -> list[Point]:
        """Give points along it from left to right: two where it is level."""
        count = STEPS if self.rise > 0.0 else 1
        along = [left + (right - left) * number / count for number in range(count + 1)]
        return [(x, self.height(x)) for x in along]


def outer_arch(sash: SashSizes) -> Arch:
    """Give the top edge of a sash."""
    rise = sash.rise.mm
    return Arch(sash.width / 2.0, rise, sash.height - rise)


def sight_arch(sash: SashSizes) -> Arch:
    """Give the top sight line of a sash: its top rail follows the curve."""
    outer, half = outer_arch(sash), max(1.0, sash.width / 2.0 - sash.stile.mm)
    crown = sash.height - sash.top_rail.mm
    if outer.rise <= 0.0:
        return Arch(half, 0.0, crown)
    radius = max(half, outer.radius - sash.top_rail.mm)
    rise = radius - math.sqrt(radius**2 - half**2)
    return Arch(half, rise, crown - rise)


def sash_groups(place: Place, sash: SashSizes) -> Iterator[Group]:
    """Give the parts of a sash, the panes first, so that bars lie on them."""
    yield _panes(place, sash)
    yield from _members(place, sash)
    if sash.across * sash.up > 1:
        yield Group(
            "sash",
            tuple(_bars(sash)),
            f"{place}.bar",
            f"{place} sash, glazing bars",
            is_assumed=sash.bar.is_assumed,
        )
    if sash.horn > 0.0:
        yield _horns(place, sash)


def _panes(place: Place, sash: SashSizes) -> Group:
    arch, foot = sight_arch(sash), sash.bottom_rail.mm
    half = sash.width / 2.0 - sash.stile.mm
    if half <= 0.0 or arch.springing <= foot:
        return Group("glass", ())  # what is assumed leaves no glass: nothing is drawn for it
    pane = Polygon(((half, foot), (-half, foot), *arch.points(-half, half)))
    sheen = Group("sheen", tuple(_sheen(sash)))
    return Group("glass", (pane, sheen), f"{place}.glass", f"{place} sash, glass")


def _sheen(sash: SashSizes) -> Iterator[Line]:
    """Three strokes in each pane, as glass is marked."""
    for left, right, bottom, top in _lights(sash):
        reach = 0.16 * min(right - left, top - bottom)
        x, y = right - 1.9 * reach, top - 1.9 * reach
        for step, long in ((-0.45, 0.5), (0.0, 1.0), (0.45, 0.5)):
            middle = (x + reach / 2 + step * reach, y + reach / 2 - step * reach)
            half = long * reach / 2
            yield Line((middle[0] - half, middle[1] - half), (middle[0] + half, middle[1] + half))


def _lights(sash: SashSizes) -> Iterator[tuple[float, float, float, float]]:
    """Give the square part of each pane: left, right, bottom, top."""
    half, arch = sash.width / 2.0 - sash.stile.mm, sight_arch(sash)
    foot, crown = sash.bottom_rail.mm, arch.springing + arch.rise
    wide = (2.0 * half - (sash.across - 1) * sash.bar.mm) / sash.across
    high = (crown - foot - (sash.up - 1) * sash.bar.mm) / sash.up
    for column in range(sash.across):
        left = -half + column * (wide + sash.bar.mm)
        for row in range(sash.up):
            bottom = foot + row * (high + sash.bar.mm)
            top = min(bottom + high, arch.height(left), arch.height(left + wide))
            if top > bottom and wide > 0.0:
                yield left, left + wide, bottom, top


def _members(place: Place, sash: SashSizes) -> Iterator[Group]:
    half, stile, foot = sash.width / 2.0, sash.stile.mm, sash.bottom_rail.mm
    outer, sight = outer_arch(sash), sight_arch(sash)
    yield Group(
        "sash",
        (Rect(-half + stile, 0.0, 2 * (half - stile), foot),),
        f"{place}.bottom_rail",
        f"{place} sash, {'meeting' if place == 'upper' else 'bottom'} rail",
        is_assumed=sash.bottom_rail.is_assumed,
    )
    inner = half - stile
    rail = (*outer.points(-inner, inner), *reversed(sight.points(-inner, inner)))
    yield Group(
        "sash",
        (Polygon(rail),),
        f"{place}.top_rail",
        f"{place} sash, {'meeting' if place == 'lower' else 'top'} rail",
        is_assumed=sash.top_rail.is_assumed or sash.rise.is_assumed,
    )
    stiles = tuple(
        Polygon(((right, 0.0), (left, 0.0), *outer.points(left, right)))
        for left, right in ((-half, -inner), (inner, half))
    )
    yield Group(
        "sash",
        stiles,
        f"{place}.stile",
        f"{place} sash, stiles",
        is_assumed=sash.stile.is_assumed,
    )


def _bars(sash: SashSizes) -> Iterator[Polygon | Rect]:
    """Uprights run through to the sight lines, levels between the stiles."""
    half, arch, bar = sash.width / 2.0 - sash.stile.mm, sight_arch(sash), sash.bar.mm
    foot, crown = sash.bottom_rail.mm, arch.springing + arch.rise
    wide = (2.0 * half - (sash.across - 1) * bar) / sash.across
    high = (crown - foot - (sash.up - 1) * bar) / sash.up
    for row in range(1, sash.up):
        y = foot + row * (high + bar) - bar
        reach = half if y + bar <= arch.springing else _reach(arch, y + bar)
        yield Rect(-reach, y, 2.0 * reach, bar)
    for column in range(1, sash.across):
        x = -half + column * (wide + bar) - bar
        top = arch.points(x, x + bar)
        yield Polygon(((x + bar, foot), (x, foot), *top))


def _reach(arch: Arch, height: float) -> float:
    """Half the width between the sides of an arch at a height."""
    below = arch.radius - arch.rise
    up = height - arch.springing + below
    return math.sqrt(max(0.0, arch.radius**2 - up**2))


def _horns(place: Place, sash: SashSizes) -> Group:
    """Horns go on past the meeting rail: below an upper sash, above a lower one."""
    half, stile, long = sash.width / 2.0, sash.stile.mm, sash.horn
    base, way = (0.0, -1.0) if place == "upper" else (sash.height, 1.0)
    horns = []
    for side in (-1.0, 1.0):
        points = [
            (side * (half - across * stile), base + way * along * long) for across, along in HORN
        ]
        horns.append(Polygon(tuple(points)))
    return Group("sash", tuple(horns), f"{place}.horn", f"{place} sash, horns")
