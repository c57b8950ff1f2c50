"""The two clearances, dimensioned as they are with the sash shut, and how they change.

A page reads from each group what it is with the sash shut, what it changes for each millimetre,
what is wanted and what to say; it moves the lines and writes the figures anew.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from evenhung.plan.positions import Run
from evenhung.quantities import print_length
from evenhung.sheets.scene import Group, Line, Polygon, Shift, Stretch, Words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.quantities import System
    from evenhung.sheets.scene import Shape
    from evenhung.sheets.section.setting import Setting


class Clearance(NamedTuple):
    """One clearance: which, what it is, what it is measured from, what is wanted."""

    name: Literal["top", "bottom"]
    room: Run
    fixed_mm: float
    """The end that stays: the pulley case or the box bottom."""
    way: float
    """Which way the other end lies from it: -1 is down."""
    wanted_mm: float
    label: str
    struck: str

    def state(self, travel_mm: float) -> str:
        """Tell how it stands with the sash opened so far: clear, close or struck."""
        room = self.room.at_mm(travel_mm)
        if room <= -_SLACK_MM:
            return "struck"
        return "close" if room < self.wanted_mm - _SLACK_MM else "clear"

    def figures(self, setting: Setting, travel_mm: float) -> list[tuple[str, str]]:
        """Give its two figures with the sash opened so far, by their names: own system, other."""
        room, own = self.room.at_mm(travel_mm), setting.words.system
        systems = (("own", own), ("other", _OTHER[own]))
        return [(f"{self.name} {which}", print_length(room, system)) for which, system in systems]


_OTHER: dict[System, System] = {"imperial": "metric", "metric": "imperial"}

_SLACK_MM = 0.005
"""Half of what the drawing is written to: nearer than that to a limit is at it."""


def clearances_of(setting: Setting) -> Iterator[Clearance]:
    """Give the clearances that are known."""
    at, hanging = setting.at, setting.hanging
    if at.hangs != "free":
        return
    if at.top_clear is not None:
        yield Clearance(
            "top",
            at.top_clear,
            at.case_mm,
            -1.0,
            hanging.wanted_top_mm,
            "knot below pulley case",
            "the knot strikes the pulley case",
        )
    if at.bottom_clear is not None:
        yield Clearance(
            "bottom",
            at.bottom_clear,
            at.box_bottom_mm,
            1.0,
            hanging.wanted_bottom_mm,
            "weight above box bottom",
            "the weight stands on the box bottom",
        )


def clearance_group(setting: Setting, clearance: Clearance, travel_mm: float) -> Group:
    """Give one clearance: its limits, its line, its figures in both systems.

    It is drawn with the sash shut, as everything is; how it stands is told for the given travel.
    """
    room, fixed, way = clearance.room, clearance.fixed_mm, clearance.way
    x, text = setting.figures_mm, setting.text
    travel = setting.positions.travel_mm
    longest = max(room.at_mm(0.0), room.at_mm(travel), 1.0)
    tick = 0.25 * text
    start, end = setting.weight_mm, x + 0.35 * text
    moving = fixed + way * room.shut_mm
    line = Line((x, fixed), (x, fixed + way * longest))
    members = (
        Group("limit", (Line((start, fixed), (end, fixed)),)),
        Group("limit", (Line((start, moving), (end, moving)),), motion=Shift(way * room.per_mm)),
        Group("dimension", (line,), motion=Stretch(fixed, longest, room)),
        Group("dimension", (_tick(x, fixed, tick),)),
        Group("dimension", (_tick(x, moving, tick),), motion=Shift(way * room.per_mm)),
        _figures(setting, clearance, x + 0.6 * text),
        _alarm(setting, clearance),
    )
    return Group(None, members, facts=_facts(setting, clearance, travel_mm))


def _tick(x: float, y: float, size: float) -> Line:
    return Line((x - size, y - size), (x + size, y + size))


def _figures(setting: Setting, clearance: Clearance, x: float) -> Group:
    """Write the clearance in both systems, half way along it, the house's own first."""
    room, way, size = clearance.room, clearance.way, setting.text
    middle = clearance.fixed_mm + way * (room.shut_mm / 2.0 + _ASIDE * size)
    (own, own_text), (other, other_text) = clearance.figures(setting, 0.0)
    words = (
        Words((x, middle + 0.15 * size), own_text, size, figure=own),
        Words((x, middle - 1.05 * size), other_text, size, figure=other),
    )
    return Group("dimension", words, motion=Shift(way * room.per_mm / 2.0))


_ASIDE = 1.1
"""How far figures stand off the middle, over their size: clear of the end that stays."""


def _alarm(setting: Setting, clearance: Clearance) -> Group:
    """Give the sign that stands where something strikes; it shows only while it does."""
    size = 1.3 * setting.text
    x = setting.back_mm - setting.depth.mm / 2.0
    y = clearance.fixed_mm - (0.9 * size if clearance.name == "bottom" else -0.1 * size)
    triangle = Polygon(((x - 0.58 * size, y), (x + 0.58 * size, y), (x, y + size)))
    mark: tuple[Shape, ...] = (triangle, Words((x, y + 0.14 * size), "!", 0.72 * size, "middle"))
    return Group("alarm", mark)


def _facts(setting: Setting, clearance: Clearance, travel_mm: float) -> dict[str, str]:
    wanted = setting.words.length(clearance.wanted_mm)
    return {
        "clearance": clearance.name,
        "shut-mm": f"{clearance.room.shut_mm:.4f}",
        "per-mm": f"{clearance.room.per_mm:g}",
        "wanted-mm": f"{clearance.wanted_mm:.4f}",
        "label": clearance.label,
        "close": f"closer than the {wanted} wanted",
        "struck": clearance.struck,
        "state": clearance.state(travel_mm),
    }
