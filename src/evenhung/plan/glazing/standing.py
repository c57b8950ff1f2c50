"""Where a pane stands: its edges above the floor, and what is near it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from evenhung.plan.repair.piece import Panes
    from evenhung.survey.window import Window


class Standing(NamedTuple):
    """One pane as the rules look at it; nan is not known."""

    bottom_mm: float
    """Bottom edge of the glass that is seen, above the floor."""
    top_mm: float
    width_mm: float
    height_mm: float
    glass_mm: float
    door_mm: float
    """To the nearest edge of a door."""
    walking_mm: float
    """Level, to where anybody walks."""

    @property
    def area_mm2(self) -> float:
        """Area of glass that is seen [mm2]."""
        return self.width_mm * self.height_mm


class Opening(NamedTuple):
    """A window's opening as the rules look at it; nan is not known."""

    sill_mm: float
    """Lowest edge of what opens, above the floor."""
    ground_mm: float
    """The same above the ground outside."""


def standing_of(window: Window, panes: Panes, row: int) -> Standing:
    """Give where a pane stands with its sash shut.

    Parameters
    ----------
    window
        Its window.
    panes
        The panes of its sash.
    row
        Its row, from the top.
    """
    place = window.place
    sash = dict(window.sashes())[panes.place]  # type: ignore[index] # panes are of a sash
    foot = window.box.clear_height.mm - sash.height.mm if panes.place == "upper" else 0.0
    below = (panes.up - row) * (panes.sight_height_mm + panes.bar_mm)
    bottom = _mm(window, "sill_above_floor") + foot + panes.bottom_mm + below
    return Standing(
        bottom_mm=bottom,
        top_mm=bottom + panes.sight_height_mm,
        width_mm=panes.sight_width_mm,
        height_mm=panes.sight_height_mm,
        glass_mm=panes.glass_mm,
        door_mm=_mm(window, "door_away") if place else math.nan,
        walking_mm=_mm(window, "walking_away") if place else math.nan,
    )


def opening_of(window: Window) -> Opening | None:
    """Give a window's opening; None where neither sash runs.

    The lower sash opens from the sill; the upper one, alone, from where its top comes down to.
    """
    if window.lower is not None and window.lower.is_running:
        above_sill = 0.0
    elif window.upper is not None and window.upper.is_running:
        upper, high = window.upper, window.box.clear_height.mm
        horn = upper.horn.mm if upper.horn else 0.0
        travel = upper.travel.mm if upper.travel else high - upper.height.mm - horn
        above_sill = high - travel
    else:
        return None
    return Opening(
        _mm(window, "sill_above_floor") + above_sill, _mm(window, "sill_above_ground") + above_sill
    )


def _mm(window: Window, field: str) -> float:
    stated = getattr(window.place, field) if window.place is not None else None
    return math.nan if stated is None else float(stated.mm)
