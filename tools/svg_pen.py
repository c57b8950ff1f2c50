"""A pen that draws into one group of an SVG picture, with heights that go up as in the plan."""

from __future__ import annotations

from xml.etree import ElementTree as ET


class Pen:
    """Draws into one group of the picture; heights go up, as in the plan."""

    def __init__(self, group: ET.Element) -> None:
        self.group = group

    def rect(
        self, kind: str, x: float, height: float, size: tuple[float, float], r: int = 0
    ) -> None:
        """Draw a rectangle that stands on a height, of a size across and up."""
        place = {"x": number(x), "y": number(-height - size[1]), "rx": number(r)}
        size_words = {"width": number(size[0]), "height": number(size[1])}
        ET.SubElement(self.group, "rect", {"class": kind, **place, **size_words})

    def circle(self, kind: str, x: float, height: float, r: float) -> None:
        """Draw a circle about a point."""
        place = {"cx": number(x), "cy": number(-height), "r": number(r)}
        ET.SubElement(self.group, "circle", {"class": kind, **place})

    def path(self, kind: str, steps: str, width: float | None = None) -> None:
        """Draw a path, its steps as SVG has them."""
        stroke = {} if width is None else {"stroke-width": number(width)}
        ET.SubElement(self.group, "path", {"class": kind, "d": steps, **stroke})

    def line(self, kind: str, x: float, height: float, to_x: float, to_height: float) -> None:
        """Draw a straight line."""
        numbers = [number(place) for place in (x, -height, to_x, -to_height)]
        self.path(kind, "M {} {} L {} {}".format(*numbers))

    def write(self, kind: str, x: float, height: float, words: str) -> None:
        """Write words on a level line."""
        place = {"x": number(x), "y": number(-height)}
        ET.SubElement(self.group, "text", {"class": kind, **place}).text = words

    def write_upright(self, kind: str, x: float, height: float, words: str) -> None:
        """Write words up an upright line, their middle at a height."""
        turn = f"translate({number(x)} {number(-height)}) rotate(-90)"
        ET.SubElement(
            self.group, "text", {"class": kind, "transform": turn, "dy": "10"}
        ).text = words


def number(value: float) -> str:
    """Return a number as SVG has it, to a hundredth."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
