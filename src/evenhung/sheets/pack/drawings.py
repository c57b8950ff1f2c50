"""The drawings of a house: windows seen from inside, and hangs at both ends of their travel."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from evenhung.plan.positions import positions_of
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import breakable, shortened
from evenhung.sheets.pack.typesetting import typeset
from evenhung.sheets.paper import picture_of
from evenhung.sheets.section import section_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.scene import Drawing

ELEVATION_MM = (180.0, 205.0)
"""Frame of an elevation, which has a page of its own; both papers have room for it."""

SECTION_MM = (92.0, 205.0)
"""Frame of a section; the two ends of a travel stand side by side."""


def drawings(house: PackHouse) -> bytes:
    """Give the drawings of a house as PDF, to scale."""
    data = {
        "windows": [_window(window) for window in house.plan.windows],
        "deference": DEFERENCE,
    }
    return typeset("drawings", data, house=house.name, edition=house.edition)


def _window(window: WindowPlan) -> dict[str, object]:
    width, height = ELEVATION_MM
    draw = partial(_elevation, window)
    assumed = elevation_of(window).assumed
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    return {
        "tag": shortened(window.window.tag),
        "room": shortened(window.window.room or ""),
        "elevation": picture_of(draw, width_mm=width, height_mm=height).data(),
        "assumed": breakable(", ".join(assumed)),
        "hangs": [hang for sash in sashes for hang in _hangs(sash)],
    }


def _elevation(window: WindowPlan, text_mm: float) -> Drawing:
    return elevation_of(window, text_mm=text_mm)


def _hangs(sash: SashPlan) -> Iterator[dict[str, object]]:
    """Draw the box on the right of a running sash, the sash shut and fully open."""
    positions = positions_of(sash)
    if positions is None:
        return
    width, height = SECTION_MM
    ends = [("shut", 0.0), ("fully open", positions.travel_mm)]
    drawing = section_of(sash)
    yield {
        "place": sash.place,
        "assumed": breakable(", ".join(drawing.assumed if drawing else ())),
        "ends": [
            {
                "end": end,
                **picture_of(
                    partial(_section, sash, opened_mm), width_mm=width, height_mm=height
                ).data(),
            }
            for end, opened_mm in ends
        ],
    }


def _section(sash: SashPlan, opened_mm: float, text_mm: float) -> Drawing:
    drawing = section_of(sash, opened_mm=opened_mm, text_mm=text_mm)
    if drawing is None:
        raise LookupError(f"{sash.window.tag} {sash.place}: a fixed sash has no section to draw")
    return drawing
