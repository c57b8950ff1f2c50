"""A drawing as a drawing exchange file (DXF), for whoever draws on: lines on named layers, in mm.

The layers are those of the scene. The same drawing gives the same bytes: a file says of itself that
it was made on the first day of 2000. What stands in front hides what stands behind, as on a page.
What nobody measured is dashed. A drawing that moves is written with its sash shut.
"""

from __future__ import annotations

import io
import math
from contextlib import contextmanager
from functools import singledispatch
from typing import TYPE_CHECKING, NamedTuple, get_args

from evenhung.sheets.scene.groups import Group, Layer
from evenhung.sheets.scene.opening import opened
from evenhung.sheets.scene.shapes import (
    CAP,
    Arc,
    Circle,
    Dimension,
    Line,
    Polygon,
    Rect,
    Words,
)
from evenhung.sheets.scene.strokes import strokes_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

    from evenhung.sheets.scene.drawing import Drawing
    from evenhung.sheets.scene.shapes import Point

DASHED = "EVENHUNG_DASHED"
DASH_MM = (15.0, 10.0, -5.0)
"""Length of the pattern, then dash and gap."""

OPAQUE: frozenset[Layer] = frozenset(
    (
        "frame",
        "box",
        "bead",
        "pocket",
        "slip",
        "sash",
        "glass",
        "putty",
        "pulley",
        "wheel",
        "weight",
        "make-weight",
        "ticket",
    )
)
"""Layers whose outlines hide what stands behind them."""

LOOKS: dict[Layer, tuple[int, int]] = {
    "frame": (32, 35),
    "sash": (30, 30),
    "glass": (140, 18),
    "cord": (1, 25),
    "weight": (250, 50),
    "hidden": (8, 18),
    "dimension": (7, 13),
    "hatch": (8, 9),
}
"""Colour by its index and line weight in 1/100 mm, where a layer has its own: ours."""
PLAIN = (7, 18)


class _Pen(NamedTuple):
    """Where to draw, on which layer, and how."""

    space: Modelspace
    layer: Layer
    is_dashed: bool

    def attributes(self) -> dict[str, str]:
        """Give what every entity carries."""
        look = {"layer": layer_name(self.layer)}
        return {**look, "linetype": DASHED} if self.is_dashed else look


def dxf_of(drawing: Drawing) -> str:
    """Write a drawing as DXF, release R2010, one unit to a millimetre.

    Parameters
    ----------
    drawing
        What is drawn; give a section its `opened_mm` to have its sash opened.

    Returns
    -------
    str
        The text of the file.
    """
    with _always_alike():
        document = _document()
        space = document.modelspace()
        for group in opened(drawing, 0.0, {}).groups:
            _put_group(group, _Pen(space, "label", is_dashed=False), shows_alarm=False)
        text = io.StringIO()
        document.write(text)
    return text.getvalue()


@contextmanager
def _always_alike() -> Iterator[None]:
    """Have the library write fixed days and marks in place of the clock's and of chance's."""
    from ezdxf import options  # type: ignore[attr-defined] # loaded only where a file is written

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def layer_name(layer: Layer) -> str:
    """Give the name of a layer in the file.

    Examples
    --------
    >>> layer_name("make-weight")
    'MAKE_WEIGHT'
    """
    return layer.upper().replace("-", "_")


def _document() -> Document:
    from ezdxf.filemanagement import new  # loaded only where a file is written
    from ezdxf.units import MM

    document = new("R2010", units=MM)
    document.linetypes.add(DASHED, pattern=list(DASH_MM), description="__ __ __")
    for layer in get_args(Layer):
        colour, weight = LOOKS.get(layer, PLAIN)
        linetype = DASHED if layer in {"hidden", "limit"} else "CONTINUOUS"
        document.layers.add(layer_name(layer), color=colour, lineweight=weight, linetype=linetype)
    return document


def _put_group(group: Group, pen: _Pen, *, shows_alarm: bool) -> None:
    """Draw a group; a sign of alarm only where something strikes."""
    if group.facts and "state" in group.facts:
        shows_alarm = group.facts["state"] == "struck"
    if group.layer == "alarm" and not shows_alarm:
        return
    pen = pen._replace(layer=group.layer or pen.layer, is_dashed=pen.is_dashed or group.is_assumed)
    for member in group.members:
        if isinstance(member, Group):
            _put_group(member, pen, shows_alarm=shows_alarm)
        else:
            _put(member, pen)


@singledispatch
def _put(shape: object, pen: _Pen) -> None:
    raise TypeError(f"{type(shape).__name__} is no shape to put on layer {pen.layer}")


@_put.register
def _(shape: Line, pen: _Pen) -> None:
    if shape.width is None:
        pen.space.add_line(shape.start, shape.end, dxfattribs=pen.attributes())
        return
    path = pen.space.add_lwpolyline([shape.start, shape.end], dxfattribs=pen.attributes())
    path.dxf.const_width = shape.width


@_put.register
def _(shape: Polygon, pen: _Pen) -> None:
    _outline(shape.points, pen)


@_put.register
def _(shape: Rect, pen: _Pen) -> None:
    left, bottom, right, top = shape.room()
    _outline(((left, bottom), (right, bottom), (right, top), (left, top)), pen)


def _outline(points: tuple[Point, ...], pen: _Pen) -> None:
    if pen.layer in OPAQUE:
        pen.space.add_wipeout(points, dxfattribs={"layer": layer_name(pen.layer)})
    if pen.layer in {"mark", "alarm"}:
        hatch = pen.space.add_hatch(dxfattribs={"layer": layer_name(pen.layer)})
        hatch.paths.add_polyline_path(points, is_closed=True)
        return
    pen.space.add_lwpolyline(points, close=True, dxfattribs=pen.attributes())


@_put.register
def _(shape: Circle, pen: _Pen) -> None:
    pen.space.add_circle(shape.centre, shape.radius, dxfattribs=pen.attributes())


@_put.register
def _(shape: Arc, pen: _Pen) -> None:
    if shape.width is None:
        pen.space.add_arc(
            shape.centre, shape.radius, shape.start_deg, shape.end_deg, dxfattribs=pen.attributes()
        )
        return
    from ezdxf.math import arc_to_bulge  # loaded only where a file is written

    start, end, bulge = arc_to_bulge(
        shape.centre, math.radians(shape.start_deg), math.radians(shape.end_deg), shape.radius
    )
    points = [(start.x, start.y, bulge), (end.x, end.y, 0.0)]
    path = pen.space.add_lwpolyline(points, format="xyb", dxfattribs=pen.attributes())
    path.dxf.const_width = shape.width


@_put.register
def _(shape: Words, pen: _Pen) -> None:
    from ezdxf.enums import TextEntityAlignment  # loaded only where a file is written

    align = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}[shape.anchor]
    rotation = 90.0 if shape.is_upright else 0.0
    text = pen.space.add_text(
        shape.text,
        height=CAP * shape.size,
        rotation=rotation,
        dxfattribs={"layer": layer_name(pen.layer)},
    )
    text.set_placement(shape.at, align=TextEntityAlignment[align])


@_put.register
def _(shape: Dimension, pen: _Pen) -> None:
    for stroke in strokes_of(shape):
        _put(stroke, pen)
