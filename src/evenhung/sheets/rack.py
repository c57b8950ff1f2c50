"""A weight of the house on a rack, as long and as thick as it is, all of them at one scale."""

from __future__ import annotations

from typing import NamedTuple

from evenhung.sheets.scene import Circle, Drawing, Group, Line, Polygon, Rect

PIXELS_PER_MM = 0.34
"""Scale of a rack on a screen: a weight of 500 mm is 170 pixels long and one of 38 mm 13 across."""

CORD_MM, KNOT_MM, BEVEL_MM, MARGIN_MM = 45.0, 9.0, 10.0, 4.0
"""How far below the rail a weight hangs, how thick its knot is, how far its ends are rounded."""
USUAL_LENGTH_MM, USUAL_ACROSS_MM = 400.0, 38.0
"""Drawn where a weight was not measured, with a dashed edge: ours, nothing depends on it."""


class Racked(NamedTuple):
    """A weight as the rack shows it."""

    name: str
    """Where it was found, or what is chalked on it."""
    says: str
    """What is to be said of it to whoever cannot see it."""
    length_mm: float | None
    """None where it was not measured."""
    across_mm: float | None
    is_square: bool = False


def racked(weight: Racked) -> Drawing:
    """Draw a weight as it hangs on the rack, its rail at height 0.

    Parameters
    ----------
    weight
        The weight; what was not measured of it is drawn as usual, and dashed.

    Returns
    -------
    Drawing
        To be written at `PIXELS_PER_MM`, so that the weights of a rack compare.

    Examples
    --------
    >>> room = racked(Racked("W1 upper left", "9 lb", 494.0, 38.0)).room()
    >>> -room.bottom - MARGIN_MM - CORD_MM
    494.0
    """
    is_assumed = weight.length_mm is None or weight.across_mm is None
    cord = Group("cord", (Line((0.0, 0.0), (0.0, -CORD_MM), 6.0),))
    knot = Group("knot", (Circle((0.0, -CORD_MM + KNOT_MM / 2.0), KNOT_MM),))
    return Drawing(
        name="racked",
        title=f"{weight.name}: {weight.says}",
        description="",
        groups=(cord, Group("weight", (_outline(weight),), is_assumed=is_assumed), knot),
        margin_mm=MARGIN_MM,
        assumed=(weight.name,) if is_assumed else (),
    )


def _outline(weight: Racked) -> Polygon | Rect:
    """Give its outline: a square bar as it is, a round one with its ends rounded off."""
    half = (weight.across_mm or USUAL_ACROSS_MM) / 2.0
    length = weight.length_mm or USUAL_LENGTH_MM
    top, foot, bevel = -CORD_MM, -CORD_MM - length, min(BEVEL_MM, half / 2.0)
    if weight.is_square:
        return Rect(-half, foot, 2.0 * half, length)
    right = ((half - bevel, top), (half, top - bevel), (half, foot + bevel), (half - bevel, foot))
    return Polygon((*right, *((-x, y) for x, y in reversed(right))))
