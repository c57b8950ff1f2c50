"""The bench card: one page for one window, to be read at arm's length."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.pack.cautions import DEFERENCE, ON_THE_BENCH, ON_THE_HANG, rules
from evenhung.sheets.pack.figures import shortened
from evenhung.sheets.pack.sash import sash_data
from evenhung.sheets.pack.steps import steps_of
from evenhung.sheets.pack.typesetting import typeset
from evenhung.sheets.paper import picture_of
from evenhung.sheets.section import section_of

if TYPE_CHECKING:
    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.scene import Drawing

PICTURE_MM = (56.0, 66.0)
"""Frame of each drawing on a card."""


def bench_cards(house: PackHouse) -> bytes:
    """Give the bench cards of a house as PDF, a page for each window."""
    data = {
        "windows": [_window(house, window) for window in house.plan.windows],
        "hang_rules": rules(ON_THE_HANG),
        "bench_rules": rules(ON_THE_BENCH),
        "deference": DEFERENCE,
    }
    return typeset("bench", data, house=house.name, edition=house.edition)


def _window(house: PackHouse, window: WindowPlan) -> dict[str, object]:
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    return {
        "tag": shortened(window.window.tag),
        "room": shortened(window.window.room or ""),
        "note": shortened(window.window.note or "", 160),
        "sashes": [sash_data(house, sash) for sash in sashes],
        "steps": steps_of(house, window),
        "pictures": _pictures(window, sashes),
    }


def _pictures(window: WindowPlan, sashes: list[SashPlan]) -> list[dict[str, object]]:
    """Draw the elevation, and the hang of one sash: the one there is most to do at."""
    width, height = PICTURE_MM
    elevation = picture_of(
        lambda mm: elevation_of(window, text_mm=mm), width_mm=width, height_mm=height
    )
    drawn = [{**elevation.data(), "caption": "Seen from inside"}]
    running = [sash for sash in reversed(sashes) if sash.found is not None]
    asked = [sash for sash in running if sash.judgement.verdict != "hangs true"] or running
    for sash in asked[:1]:
        picture = picture_of(partial(_section, sash), width_mm=width, height_mm=height)
        drawn.append(
            {**picture.data(), "caption": f"{sash.place.capitalize()} sash, right box, shut"}
        )
    return drawn


def _section(sash: SashPlan, text_mm: float) -> Drawing:
    drawing = section_of(sash, opened_mm=0.0, text_mm=text_mm, is_brief=True)
    if drawing is None:
        raise LookupError(f"{sash.window.tag} {sash.place}: a fixed sash has no section to draw")
    return drawing
