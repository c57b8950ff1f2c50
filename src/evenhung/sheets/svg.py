"""A drawing as SVG: clean, small, the same every time, one unit to a millimetre.

It has classes and no styles, data and no scripts, so that it may stand in a page whose policy
forbids both; ``drawing.css`` gives the classes their look, in daylight and in the dark.
"""

from __future__ import annotations

from functools import singledispatch
from itertools import groupby
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from evenhung.sheets.scene.groups import Group, Shift, Stretch
from evenhung.sheets.scene.shapes import Arc, Circle, Dimension, Line, Polygon, Rect, Words
from evenhung.sheets.scene.strokes import strokes_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from evenhung.sheets.scene.drawing import Drawing
    from evenhung.sheets.scene.groups import Motion
    from evenhung.sheets.scene.shapes import Shape

_HALF_TURN = 180.0
NAMESPACE = "http://www.w3.org/2000/svg"


def svg_of(
    drawing: Drawing,
    *,
    link_to: Callable[[str], str | None] | None = None,
    pixels_per_mm: float | None = None,
    style: str = "",
) -> str:
    """Write a drawing as SVG.

    Parameters
    ----------
    drawing
        What is drawn.
    link_to
        Gives the address that a part leads to, by its path, or None where it leads nowhere;
        without it no part can be tapped. A part with parts that lead somewhere is no link itself.
    pixels_per_mm
        Sets width and height; without it the page sets them.
    style
        A style sheet to carry along, for a file that stands alone; a page has its own.

    Returns
    -------
    str
        One ``svg`` element, heights turned to run down as SVG has them.
    """
    room = drawing.room()
    width, height = room.right - room.left, room.top - room.bottom
    svg = ET.Element("svg", xmlns=NAMESPACE)
    svg.set("class", f"drawing {drawing.name}")
    svg.set("viewBox", " ".join(map(number, (room.left, -room.top, width, height))))
    if pixels_per_mm is not None:
        svg.set("width", number(width * pixels_per_mm))
        svg.set("height", number(height * pixels_per_mm))
    svg.set("role", "group" if link_to else "img")
    svg.set("aria-label", drawing.title)
    if drawing.travel_mm:
        svg.set("data-travel-mm", number(drawing.travel_mm))
    _put_facts(svg, drawing.facts)
    ET.SubElement(svg, "title").text = drawing.title
    ET.SubElement(svg, "desc").text = drawing.description
    if style:
        ET.SubElement(svg, "style").text = style
    for group in drawing.groups:
        _put_group(svg, group, link_to)
    ET.indent(svg, " ")
    return ET.tostring(svg, encoding="unicode") + "\n"


def number(value: float) -> str:
    """Give a number as SVG has it, to a hundredth of a millimetre.

    Examples
    --------
    >>> number(12.5), number(-0.001), number(40.0)
    ('12.5', '0', '40')
    """
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _name_of_link(group: Group) -> str:
    """Give what a link is called: its part, and the words that can be seen on it."""
    seen = [shape.text for shape in group.shapes() if isinstance(shape, Words)]
    return ", ".join(dict.fromkeys([group.title, *seen]))


def _put_group(
    parent: ET.Element, group: Group, link_to: Callable[[str], str | None] | None
) -> None:
    address = _address(group, link_to)
    if address is not None:
        parent = ET.SubElement(parent, "a", {"href": address, "class": "part"})
        parent.set("aria-label", _name_of_link(group))
    element = ET.SubElement(parent, "g")
    classes = [name for name in (group.layer, "assumed" if group.is_assumed else None) if name]
    if classes:
        element.set("class", " ".join(classes))
    if group.part:
        element.set("data-part", group.part)
    _put_facts(element, group.facts)
    if group.motion is not None:
        _put_motion(element, group.motion)
    if group.title:
        ET.SubElement(element, "title").text = group.title
    for member in _gathered(group.members):
        if isinstance(member, Group):
            _put_group(element, member, link_to)
        elif isinstance(member, list):
            _put_lines(element, member)
        else:
            _put(member, element)


def _address(group: Group, link_to: Callable[[str], str | None] | None) -> str | None:
    """Give where a group leads to; a link never holds a link, so the innermost parts have it."""
    if link_to is None or not group.part:
        return None
    inner = (one for one in group.groups() if one is not group and one.part)
    if any(link_to(one.part) is not None for one in inner):
        return None
    return link_to(group.part)


def _gathered(members: Iterable[Shape | Group]) -> Iterator[Shape | Group | list[Line]]:
    """Give members as they are, but thin lines that follow one another as one list."""
    for is_thin, run in groupby(members, lambda one: isinstance(one, Line) and one.width is None):
        if is_thin:
            yield [line for line in run if isinstance(line, Line)]
        else:
            yield from run


def _put_lines(parent: ET.Element, lines: list[Line]) -> None:
    steps = (
        f"M{number(x1)} {number(-y1)}L{number(x2)} {number(-y2)}" for (x1, y1), (x2, y2), _ in lines
    )
    ET.SubElement(parent, "path", d="".join(steps))


def _put_facts(element: ET.Element, facts: Mapping[str, str] | None) -> None:
    for name, value in (facts or {}).items():
        element.set(f"data-{name}", value)


def _put_motion(element: ET.Element, motion: Motion) -> None:
    """Give what a page multiplies by the travel; in SVG heights run down."""
    if isinstance(motion, Shift):
        element.set("data-shift-per-mm", number(-motion.per_mm))
        return
    element.set("data-stretch-from", number(-motion.fixed_mm))
    element.set("data-stretch-shut", _ratio(motion.scale(0.0)))
    element.set("data-stretch-per-mm", _ratio(motion.length.per_mm / motion.drawn_mm))
    element.set("transform", stretched(motion, 0.0))


def stretched(motion: Stretch, travel_mm: float) -> str:
    """Give the transform of a group that stretches, the sash opened so far."""
    fixed = number(-motion.fixed_mm)
    back = number(motion.fixed_mm)
    return f"translate(0 {fixed}) scale(1 {_ratio(motion.scale(travel_mm))}) translate(0 {back})"


def _ratio(value: float) -> str:
    return f"{value:.9f}".rstrip("0").rstrip(".")


@singledispatch
def _put(shape: object, parent: ET.Element) -> None:
    raise TypeError(f"{type(shape).__name__} is no shape to put into <{parent.tag}>")


@_put.register
def _(shape: Line, parent: ET.Element) -> None:
    (x1, y1), (x2, y2), width = shape
    line = _element(parent, "line", x1=x1, y1=-y1, x2=x2, y2=-y2)
    if width is not None:
        line.set("stroke-width", number(width))


@_put.register
def _(shape: Polygon, parent: ET.Element) -> None:
    points = " ".join(f"{number(x)},{number(-y)}" for x, y in shape.points)
    ET.SubElement(parent, "polygon", points=points)


@_put.register
def _(shape: Rect, parent: ET.Element) -> None:
    top = -(shape.y + shape.height)
    rect = _element(parent, "rect", x=shape.x, y=top, width=shape.width, height=shape.height)
    if shape.rounding:
        rect.set("rx", number(shape.rounding))


@_put.register
def _(shape: Circle, parent: ET.Element) -> None:
    _element(parent, "circle", cx=shape.centre[0], cy=-shape.centre[1], r=shape.radius)


@_put.register
def _(shape: Arc, parent: ET.Element) -> None:
    (x1, y1), (x2, y2) = shape.point(shape.start_deg), shape.point(shape.end_deg)
    is_large = int(shape.end_deg - shape.start_deg > _HALF_TURN)
    radius = number(shape.radius)
    path = (
        f"M{number(x1)} {number(-y1)}A{radius} {radius} 0 {is_large} 0 {number(x2)} {number(-y2)}"
    )
    element = ET.SubElement(parent, "path", d=path, fill="none")
    if shape.width is not None:
        element.set("stroke-width", number(shape.width))


@_put.register
def _(shape: Words, parent: ET.Element) -> None:
    x, y = shape.at
    if shape.is_upright:
        text = ET.SubElement(parent, "text")
        text.set("transform", f"translate({number(x)} {number(-y)}) rotate(-90)")
    else:
        text = _element(parent, "text", x=x, y=-y)
    text.set("font-size", number(shape.size))
    if shape.anchor != "start":
        text.set("text-anchor", shape.anchor)
    if shape.figure:
        text.set("data-figure", shape.figure)
    text.text = shape.text


@_put.register
def _(shape: Dimension, parent: ET.Element) -> None:
    _put_group(parent, Group(None, strokes_of(shape)), None)


def _element(parent: ET.Element, tag: str, **lengths: float) -> ET.Element:
    return ET.SubElement(parent, tag, {name: number(value) for name, value in lengths.items()})
