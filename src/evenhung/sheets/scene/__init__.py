"""A drawing as data, in millimetres with heights that go up; it knows no format and no window."""

from evenhung.sheets.scene.drawing import Drawing
from evenhung.sheets.scene.groups import Group, Layer, Shift, Stretch
from evenhung.sheets.scene.shapes import Arc, Circle, Dimension, Line, Polygon, Rect, Shape, Words

__all__ = [
    "Arc",
    "Circle",
    "Dimension",
    "Drawing",
    "Group",
    "Layer",
    "Line",
    "Polygon",
    "Rect",
    "Shape",
    "Shift",
    "Stretch",
    "Words",
]
