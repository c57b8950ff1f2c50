"""The house sheet: what was found and what will be done, window by window."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from evenhung.sheets.glyph import glyph_of, in_words
from evenhung.sheets.kept import kept_lines
from evenhung.sheets.pack.cautions import DEFERENCE, ON_THE_BENCH, ON_THE_HANG, rules
from evenhung.sheets.pack.figures import breakable, shortened
from evenhung.sheets.pack.repairs import repair_data
from evenhung.sheets.pack.sash import sash_data
from evenhung.sheets.pack.typesetting import typeset
from evenhung.sheets.paper import Picture, style_on_paper
from evenhung.sheets.svg import svg_of

if TYPE_CHECKING:
    from evenhung.plan import WindowPlan
    from evenhung.sheets.pack.house import PackHouse

GLYPH_MM = (20.0, 30.0)
"""Room for the glyph of the largest window; all are at one scale."""

MOST_GLYPH_SCALE = 1.0 / 50.0


def house_sheet(house: PackHouse) -> bytes:
    """Give the house sheet as PDF."""
    scale = _scale(house)
    counts = Counter(sash.judgement.verdict for sash in house.plan.sashes())
    notes, overhaul = house.plan.notes, house.job.overhaul
    data = {
        "windows": [_window(house, window, scale) for window in house.plan.windows],
        "tally": [{"verdict": verdict, "count": count} for verdict, count in counts.most_common()],
        "note": breakable(house.plan.survey.house.note or ""),
        "assumed": [
            {"text": breakable(note.text.replace(" taken as ", " ", 1)), "source": note.source}
            for note in notes
            if note.code == "assumed"
        ],
        "kept": list(kept_lines(overhaul.repair.fabric)) if overhaul is not None else [],
        "is_allotted": house.allotment is not None,
        "rules": rules([*ON_THE_HANG, *ON_THE_BENCH]),
        "deference": DEFERENCE,
    }
    return typeset("found", data, house=house.name, edition=house.edition)


def _window(house: PackHouse, window: WindowPlan, scale: float) -> dict[str, object]:
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    drawing = glyph_of(window)
    room = drawing.room()
    picture = Picture(
        svg_of(drawing, style=style_on_paper(scale)),
        round((room.right - room.left) * scale, 2),
        round((room.top - room.bottom) * scale, 2),
        f"{window.window.tag}: {in_words(window)}",
    )
    return {
        "tag": shortened(window.window.tag),
        "room": shortened(window.window.room or ""),
        "note": breakable(window.window.note or ""),
        "glyph": picture.data(),
        "sashes": [sash_data(house, sash) for sash in sashes],
        **repair_data(house, window),
    }


def _scale(house: PackHouse) -> float:
    """Give the one scale at which the largest window of the house has room."""
    scale = MOST_GLYPH_SCALE
    for window in house.plan.windows:
        room = glyph_of(window).room()
        width, height = GLYPH_MM
        scale = min(scale, width / (room.right - room.left), height / (room.top - room.bottom))
    return scale
