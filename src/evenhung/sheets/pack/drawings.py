"""The drawings of a house: windows from inside, their details, hangs at both ends of travel."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from evenhung.plan.positions import positions_of
from evenhung.sheets.details import jamb_of, meeting_of, sides_of
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.elevation.fabric import NEW, fabric_of, puts_in_new
from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import breakable, shortened
from evenhung.sheets.pack.repairs import repairs_of
from evenhung.sheets.pack.typesetting import typeset
from evenhung.sheets.paper import DETAIL_TRIALS_MM, picture_of
from evenhung.sheets.section import section_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.plan.frame import Side
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.scene import Drawing

ELEVATION_MM = (180.0, 205.0)
"""Frame of an elevation, which has a page of its own; both papers have room for it."""

SECTION_MM = (92.0, 205.0)
"""Frame of a section; the two ends of a travel stand side by side."""

JAMB_MM = (184.0, 120.0)
"""Frame of a horizontal section."""

MEETING_MM = (184.0, 90.0)
"""Frame of the section of the meeting rails, which stands below it on the same page."""


def drawings(house: PackHouse) -> bytes:
    """Give the drawings of a house as PDF, to scale."""
    data = {
        "windows": [_window(house, window) for window in house.plan.windows],
        "deference": DEFERENCE,
    }
    return typeset("drawings", data, house=house.name, edition=house.edition)


def _window(house: PackHouse, window: WindowPlan) -> dict[str, object]:
    width, height = ELEVATION_MM
    draw = partial(_elevation, window)
    assumed = elevation_of(window).assumed
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    return {
        "tag": shortened(window.window.tag),
        "room": shortened(window.window.room or ""),
        "elevation": picture_of(draw, width_mm=width, height_mm=height).data(),
        "assumed": breakable(", ".join(assumed)),
        "fabric": _fabric(house, window),
        "details": [_detail(window, side) for side in sides_of(window)],
        "meeting": _meeting(window),
        "hangs": [hang for sash in sashes for hang in _hangs(sash)],
    }


def _elevation(window: WindowPlan, text_mm: float) -> Drawing:
    return elevation_of(window, text_mm=text_mm)


def _fabric(house: PackHouse, window: WindowPlan) -> dict[str, object] | None:
    """Draw what is kept and what is new; None where nothing new goes in."""
    overhaul = house.overhaul_of(window)
    if overhaul is None or not puts_in_new(overhaul):
        return None
    width, height = ELEVATION_MM

    def draw(text_mm: float) -> Drawing:
        return fabric_of(window, overhaul, text_mm=text_mm)

    repairs = repairs_of(overhaul, house.words)
    new = [f"{one.part}: {one.what}" for one in repairs if one.what in NEW]
    return {
        **picture_of(draw, width_mm=width, height_mm=height).data(),
        "new": breakable("; ".join(dict.fromkeys(new))),
    }


def _detail(window: WindowPlan, side: Side) -> dict[str, object]:
    """Draw the box on one side cut level."""
    width, height = JAMB_MM
    draw = partial(_jamb, window, side)
    picture = picture_of(draw, width_mm=width, height_mm=height, trials_mm=DETAIL_TRIALS_MM)
    drawing = jamb_of(window, side=side)
    return {"side": side, "assumed": breakable(", ".join(drawing.assumed)), **picture.data()}


def _jamb(window: WindowPlan, side: Side, text_mm: float) -> Drawing:
    return jamb_of(window, side=side, text_mm=text_mm)


def _meeting(window: WindowPlan) -> dict[str, object] | None:
    """Draw the meeting rails; None where there is only one sash, or none."""
    found = meeting_of(window)
    if found is None:
        return None
    width, height = MEETING_MM

    def draw(text_mm: float) -> Drawing:
        return meeting_of(window, text_mm=text_mm) or found

    picture = picture_of(draw, width_mm=width, height_mm=height, trials_mm=DETAIL_TRIALS_MM)
    return {"assumed": breakable(", ".join(found.assumed)), **picture.data()}


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
