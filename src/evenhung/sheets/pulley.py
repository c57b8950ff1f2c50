"""A pulley with its cord, as elevation and section both show it: the wheel lies in their plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.scene import Circle, Group, Line, Rect, Stretch
from evenhung.sheets.sizes import AXLE_MM, CASE_MM, WHEEL_RIM_MM

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.plan.frame import Side
    from evenhung.plan.positions import Run, SidePositions


def pulley_group(x: float, at: SidePositions, *, side: Side, cord_mm: float) -> Group:
    """Give one pulley: its case, its wheel, its axle.

    Parameters
    ----------
    x
        Plumb line of its axle [mm].
    at
        Its heights and its radius.
    side
        Which side of the window it is on.
    cord_mm
        Diameter of the cord [mm].
    """
    case = at.axle_mm - at.case_mm
    members = (
        Group("pulley", (Rect(x - CASE_MM, at.case_mm, 2.0 * CASE_MM, 2.0 * case, 6.0),)),
        Group("wheel", (Circle((x, at.axle_mm), at.radius_mm - cord_mm / 2.0 + WHEEL_RIM_MM),)),
        Group("axle", (Circle((x, at.axle_mm), AXLE_MM),)),
    )
    return Group("pulley", members, f"pulley.{side}", f"pulley on the {side}")


def cord_group(
    x: float,
    at: SidePositions,
    run: Run,
    *,
    travel_mm: float,
    cord_mm: float,
    facts: Mapping[str, str] | None = None,
) -> Group:
    """Give one straight run of the cord, from the height of the axle down; it stretches.

    Parameters
    ----------
    x
        Its plumb line [mm].
    at
        The height of the axle.
    run
        Its length.
    travel_mm
        How far the sash runs [mm].
    cord_mm
        Diameter of the cord [mm].
    facts
        What a page is told besides.
    """
    longest = max(run.at_mm(0.0), run.at_mm(travel_mm), 1.0)
    line = Line((x, at.axle_mm), (x, at.axle_mm - longest), cord_mm)
    return Group("cord", (line,), motion=Stretch(at.axle_mm, longest, run), facts=facts)
