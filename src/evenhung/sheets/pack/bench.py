"""The bench card: one page for one window, to be read at arm's length."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.pack.cautions import DEFERENCE, ON_THE_BENCH, ON_THE_HANG, rules
from evenhung.sheets.pack.figures import shortened
from evenhung.sheets.pack.repairs import repair_data
from evenhung.sheets.pack.sash import sash_data
from evenhung.sheets.pack.steps import steps_of
from evenhung.sheets.pack.typesetting import asked, typeset
from evenhung.sheets.paper import picture_of
from evenhung.sheets.section import section_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.scene import Drawing

ELEVATION_MM = {"a4": (56.0, 66.0), "letter": (56.0, 60.0)}
SECTION_MM = {"a4": (56.0, 56.0), "letter": (56.0, 52.0)}
"""Frames of the two drawings on a card: any smaller, their words lie over each other."""

AT_A_TIME = 25
"""Cards that are fitted together: trying takes far more memory than setting."""


def bench_cards(house: PackHouse, *, is_drawn: bool = False) -> bytes:
    """Give the bench cards of a house as PDF, a page for each window.

    Parameters
    ----------
    house
        The house.
    is_drawn
        Whether the drawings come with it: a card without room for its own says where they are.
    """
    undrawn = "drawn in drawings.pdf" if is_drawn else "no room to draw: add drawings.pdf"
    partly = "seen from inside" if is_drawn else "no room to draw it from inside"
    windows = [_window(house, window) for window in house.plan.windows]
    data = {
        "windows": windows,
        "hang_rules": rules(ON_THE_HANG),
        "bench_rules": rules(ON_THE_BENCH),
        "deference": DEFERENCE,
        "undrawn": undrawn,
        "partly_drawn": f"{partly}: {'' if is_drawn else 'add '}drawings.pdf",
    }
    for window, fit in zip(windows, _fits(house, data), strict=True):
        window["fit"] = fit
    return typeset("bench", data, house=house.name, edition=house.edition)


def _fits(house: PackHouse, data: dict[str, Any]) -> Iterator[dict[str, float | str]]:
    """Find for each card the type, the words and the pictures that keep it to one page."""
    for first in range(0, len(data["windows"]), AT_A_TIME):
        some = [_blank(window) for window in data["windows"][first : first + AT_A_TIME]]
        yield from asked(
            "bench-fit", "fit", {**data, "windows": some}, house=house.name, edition=house.edition
        )


def _blank(window: dict[str, Any]) -> dict[str, Any]:
    """Give a window with its pictures as bare sizes: to fit a card they need not be drawn."""
    pictures = [
        {name: value for name, value in picture.items() if name != "svg"}
        for picture in window["pictures"]
    ]
    return {**window, "pictures": pictures}


def _window(house: PackHouse, window: WindowPlan) -> dict[str, Any]:
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    return {
        "tag": shortened(window.window.tag),
        "room": shortened(window.window.room or ""),
        "note": shortened(window.window.note or "", 160),
        "sashes": [sash_data(house, sash) for sash in sashes],
        "steps": steps_of(house, window),
        **repair_data(house, window),
        "pictures": _pictures(window, sashes, house.edition.paper),
    }


def _pictures(window: WindowPlan, sashes: list[SashPlan], paper: str) -> list[dict[str, object]]:
    """Draw the elevation, and the hang of one sash: the one there is most to do at."""
    width, height = ELEVATION_MM[paper]
    elevation = picture_of(
        lambda mm: elevation_of(window, text_mm=mm), width_mm=width, height_mm=height
    )
    drawn = [{**elevation.data(), "caption": "Seen from inside"}]
    running = [sash for sash in reversed(sashes) if sash.found is not None]
    asked = [sash for sash in running if sash.judgement.verdict != "hangs true"] or running
    width, height = SECTION_MM[paper]
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
