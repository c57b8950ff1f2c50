"""Drawings on paper: at a size of their own, in shades of grey, with words that can be read.

A style sheet goes into each picture, because paper has no page to take one from. Line widths and
words are set in points of the paper, so they come out alike at every scale.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.svg import number, svg_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.sheets.scene import Drawing

POINT_MM = 25.4 / 72.0
"""A typographic point, as print has it today."""

WORDS_PT = 9.0
"""Size of the words on a drawing."""

TRIALS_MM = (20.0, 80.0)
"""Sizes of words with which a drawing is tried: its room grows about evenly with them."""

DETAIL_TRIALS_MM = (5.0, 9.0)
"""The same for a detail, which is drawn at a larger scale."""

_LEAST_SCALE = 1.0 / 100.0


class Picture(NamedTuple):
    """A drawing as it goes on paper."""

    svg: str
    width_mm: float
    height_mm: float
    says: str
    """What it shows, in words."""

    def data(self) -> dict[str, object]:
        """Give it as plain data for a template."""
        return self._asdict()


def picture_of(
    draw: Callable[[float], Drawing],
    *,
    width_mm: float,
    height_mm: float,
    words_pt: float = WORDS_PT,
    trials_mm: tuple[float, float] = TRIALS_MM,
) -> Picture:
    """Fit a drawing into a frame on paper.

    Parameters
    ----------
    draw
        Draws it with words of a given size, in mm of what is drawn.
    width_mm, height_mm
        The frame [mm].
    words_pt
        Size of its words on paper, in points.
    trials_mm
        Sizes of words with which it is tried, near to what they will be [mm].

    Returns
    -------
    Picture
        As large as the frame allows.
    """
    words_mm = words_pt * POINT_MM
    scale = _first_scale(draw, (width_mm, height_mm), words_mm, trials_mm)
    for _ in range(8):
        drawing = draw(words_mm / scale)
        width, height = _room(drawing)
        found = min(width_mm / width, height_mm / height)
        if found >= scale:
            break
        scale = found
    return Picture(
        svg_of(drawing, style=style_on_paper(scale)),
        round(width * scale, 2),
        round(height * scale, 2),
        f"{drawing.title}. {drawing.description}".strip(),
    )


def _room(drawing: Drawing) -> tuple[float, float]:
    room = drawing.room()
    return room.right - room.left, room.top - room.bottom


def _first_scale(
    draw: Callable[[float], Drawing],
    frame_mm: tuple[float, float],
    words_mm: float,
    trials_mm: tuple[float, float],
) -> float:
    """Find the scale at which drawing and words together fill the frame, were all growth even."""
    small, large = trials_mm
    scales = []
    for frame, first, second in zip(frame_mm, _room(draw(small)), _room(draw(large)), strict=True):
        per_word = (second - first) / (large - small)
        bare = first - small * per_word
        if bare > 0.0:  # else its words alone take up the room
            scales.append((frame - words_mm * per_word) / bare)
    return max(min(scales, default=0.0), _LEAST_SCALE)


_FILLS = {
    "frame": ("#c8c8c8", 0.7),
    "box": ("#ffffff", 0.0),
    "bead": ("#efefef", 0.4),
    "pocket": ("#e2e2e2", 0.7),
    "slip": ("#efefef", 0.4),
    "sash": ("#e6e6e6", 0.6),
    "glass": ("#ffffff", 0.4),
    "putty": ("#bdbdbd", 0.4),
    "groove": ("#bdbdbd", 0.4),
    "pulley": ("#f4f4f4", 0.6),
    "wheel": ("#dcdcdc", 0.6),
    "axle": ("#000000", 0.0),
    "weight": ("#6a6a6a", 0.7),
    "make-weight": ("#ffffff", 0.7),
    "ticket": ("#ffffff", 0.4),
}
"""Shade and line of each layer that has a surface, the line in points; 0 has none."""

_LINES = {
    "sheen": 0.4,
    "nail": 1.0,
    "hatch": 0.45,
    "dimension": 0.45,
    "limit": 0.5,
    "label": 0.4,
}
"""Line of each layer that has no surface, in points."""


def style_on_paper(scale: float) -> str:
    """Give the look of every layer at a scale: shades of grey alone, so that a copier keeps it.

    Parameters
    ----------
    scale
        Paper over what is drawn [1].
    """

    def line(points: float) -> str:
        return number(points * POINT_MM / scale)

    rules = [
        ".drawing text { fill: #000; stroke: none; font-family: 'Source Sans 3'; }",
        *(
            f".drawing .{layer} {{ fill: {shade}; stroke: {'#000' if width else 'none'}; "
            f"stroke-width: {line(width)}; }}"
            for layer, (shade, width) in _FILLS.items()
        ),
        *(
            f".drawing .{layer} {{ fill: none; stroke: #000; stroke-width: {line(width)}; }}"
            for layer, width in _LINES.items()
        ),
        ".drawing .cord { fill: none; stroke: #000; }",
        ".drawing .knot, .drawing .mark { fill: #000; stroke: none; }",
        f".drawing .hidden {{ fill: none; stroke: #444; stroke-width: {line(0.5)}; "
        f"stroke-dasharray: {line(3.0)} {line(2.0)}; }}",
        f".drawing .assumed {{ stroke-dasharray: {line(2.2)} {line(1.6)}; }}",
        ".drawing .assumed .label { stroke-dasharray: none; }",
        f".drawing .limit {{ stroke-dasharray: {line(3.0)} {line(1.6)}; }}",
        ".drawing .weight text { fill: #fff; }",
        ".drawing .alarm { visibility: hidden; }",
        ".drawing .alarm text { visibility: hidden; }",
    ]
    return "\n".join(rules)
