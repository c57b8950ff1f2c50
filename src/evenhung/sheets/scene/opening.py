"""A drawing with its sash opened so far: every motion carried out, for paper and for files.

A page moves groups itself; whatever cannot move is given a drawing that stands still.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.errors import DrawingDomainError
from evenhung.sheets.scene.groups import Group, Shift, Stretch
from evenhung.sheets.scene.shapes import Line, Words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.sheets.scene.drawing import Drawing
    from evenhung.sheets.scene.shapes import Shape


def opened(drawing: Drawing, travel_mm: float, figures: Mapping[str, str]) -> Drawing:
    """Give a drawing whose sash stands opened so far, and that moves no more.

    Parameters
    ----------
    drawing
        A drawing with its sash shut.
    travel_mm
        How far to open it [mm].
    figures
        What to write for each figure, by its name; others stay as they are.

    Raises
    ------
    DrawingDomainError
        If the sash does not run so far.
    """
    if not 0.0 <= travel_mm <= drawing.travel_mm:
        raise DrawingDomainError(
            f"opened_mm: {travel_mm:g}: from 0 to {drawing.travel_mm:g}, the travel of the sash"
        )
    groups = tuple(stilled(group, travel_mm, figures) for group in drawing.groups)
    return drawing._replace(groups=groups, travel_mm=0.0)


def stilled(group: Group, travel_mm: float, figures: Mapping[str, str]) -> Group:
    """Give a group with its motions carried out, the inner ones first.

    Parameters
    ----------
    group
        A group with the sash shut.
    travel_mm
        How far the sash is opened [mm].
    figures
        What to write for each figure, by its name.
    """
    members = tuple(
        stilled(member, travel_mm, figures)
        if isinstance(member, Group)
        else _written(member, figures)
        for member in group.members
    )
    still = group._replace(members=members, motion=None)
    if isinstance(group.motion, Shift):
        return still.raised(group.motion.up_mm(travel_mm))
    if isinstance(group.motion, Stretch):
        return still._replace(members=tuple(_stretched(group.motion, travel_mm, members)))
    return still


def _written(shape: Shape, figures: Mapping[str, str]) -> Shape:
    if isinstance(shape, Words) and shape.figure in figures:
        return shape._replace(text=figures[shape.figure])
    return shape


def _stretched(motion: Stretch, travel_mm: float, members: tuple[Shape | Group, ...]) -> list[Line]:
    """Stretch straight lines; nothing else is ever drawn to stretch."""
    scale, fixed = motion.scale(travel_mm), motion.fixed_mm
    lines = []
    for member in members:
        if not isinstance(member, Line):
            raise TypeError(f"{type(member).__name__} cannot stretch; only a line can")
        (x1, y1), (x2, y2), width = member
        ends = ((x, fixed + (y - fixed) * scale) for x, y in ((x1, y1), (x2, y2)))
        lines.append(Line(next(ends), next(ends), width))
    return lines
