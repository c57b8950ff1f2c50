"""Each drawing of a house as files of its own: SVG to look at, DXF to draw on."""

from __future__ import annotations

import re
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.positions import positions_of
from evenhung.sheets.details import jamb_of, meeting_of, sides_of
from evenhung.sheets.dxf import dxf_of
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.elevation.fabric import fabric_of, puts_in_new
from evenhung.sheets.paper import style_on_paper
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import svg_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.scene import Drawing

FOLDER = "drawings"
LONGEST_NAME = 40
"""Letters of a tag in the name of a file; what is longer is cut."""

WHOLE, DETAIL = 0.4, 2.0
"""Pixels of the screen to a millimetre, where a whole window and where a detail is drawn."""
PIXELS_PER_PAPER_MM = 96.0 / 25.4
"""Pixels to a millimetre of paper, by the inch of CSS Values 4, section 6.2 (from memory)."""


class DrawingFile(NamedTuple):
    """One drawing in one format."""

    name: str
    """Its path in the pack."""
    says: str
    make: Callable[[], bytes]


class _View(NamedTuple):
    """One drawing of a window."""

    name: str
    draw: Callable[[], Drawing | None]
    pixels_per_mm: float


def drawing_files(house: PackHouse) -> Iterator[DrawingFile]:
    """Give the files of every drawing of a house, window by window; nothing is drawn yet."""
    taken: set[str] = set()
    for number, window in enumerate(house.plan.windows, 1):
        stem = _stem(window.window.tag, number, taken)
        says = f"drawings of {stem}"
        for view in (*_views(window), *_fabric(house, window)):
            path = f"{FOLDER}/{stem}-{view.name}"
            yield DrawingFile(f"{path}.svg", says, partial(_svg, view))
            yield DrawingFile(f"{path}.dxf", says, partial(_dxf, view))


def _stem(tag: str, number: int, taken: set[str]) -> str:
    """Give a name that every system takes for a file, another one for every window."""
    plain = re.sub(r"[^A-Za-z0-9]+", "-", tag).strip("-")[:LONGEST_NAME].rstrip("-")
    stem = plain or f"window-{number}"
    if stem.lower() in taken:
        stem = f"{stem}-no-{number}"
    taken.add(stem.lower())
    return stem


def _views(window: WindowPlan) -> Iterator[_View]:
    """Give the drawings that there are of a window."""
    yield _View("elevation", partial(elevation_of, window), WHOLE)
    for side in sides_of(window):
        yield _View(f"jamb-{side}", partial(jamb_of, window, side=side), DETAIL)
    if window.upper is not None and window.lower is not None:
        yield _View("meeting-rails", partial(meeting_of, window), DETAIL)
    for sash in (window.upper, window.lower):
        if sash is not None:
            yield from _hangs(sash)


def _fabric(house: PackHouse, window: WindowPlan) -> Iterator[_View]:
    """Give what is kept and what is new of a window that anything new goes into."""
    overhaul = house.overhaul_of(window)
    if overhaul is not None and puts_in_new(overhaul):
        yield _View("fabric", partial(fabric_of, window, overhaul), WHOLE)


def _hangs(sash: SashPlan) -> Iterator[_View]:
    """Give the box on the right of a sash that runs, the sash shut and fully open."""
    positions = positions_of(sash)
    if positions is None:
        return
    for end, opened_mm in (("shut", 0.0), ("open", positions.travel_mm)):
        draw = partial(section_of, sash, opened_mm=opened_mm)
        yield _View(f"{sash.place}-{end}", draw, WHOLE)


def _drawn(view: _View) -> Drawing:
    drawing = view.draw()
    if drawing is None:
        raise LookupError(f"{view.name}: there is nothing to draw")
    return drawing


def _svg(view: _View) -> bytes:
    style = style_on_paper(view.pixels_per_mm / PIXELS_PER_PAPER_MM)
    return svg_of(_drawn(view), pixels_per_mm=view.pixels_per_mm, style=style).encode()


def _dxf(view: _View) -> bytes:
    return dxf_of(_drawn(view)).encode()
