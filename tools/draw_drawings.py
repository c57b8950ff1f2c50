"""Draw the elevation, section, details and fabric of docs/pictures from the demo house, to scale.

Run it after the plan, the demo house or the look of drawings has changed:
``python -m tools.draw_drawings``. A test compares the pictures with what this tool draws.
"""

from __future__ import annotations

from pathlib import Path

from evenhung.plan import plan_house
from evenhung.plan.overhaul import overhaul_in_full
from evenhung.sheets.details import jamb_of, meeting_of
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.elevation.fabric import fabric_of
from evenhung.sheets.paper import style_on_paper
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import svg_of
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"
LOOK = ROOT / "src" / "evenhung" / "web" / "static" / "evenhung" / "drawing.css"
PIXELS_PER_MM = 0.4
DETAIL_PIXELS_PER_MM = 2.0


PIXELS_PER_PAPER_MM = 96.0 / 25.4


def pictures() -> dict[str, str]:
    """Give each picture by the name of its file; each carries its look along."""
    plan = plan_house(read_survey(SURVEY.read_bytes()))
    window, kitchen = plan.windows[1], overhaul_in_full(plan).windows[2]
    drawings = {
        "elevation.svg": elevation_of(window),
        "fabric.svg": fabric_of(plan.windows[2], kitchen),
    }
    if window.lower is not None and (section := section_of(window.lower)) is not None:
        drawings["section.svg"] = section
    look = LOOK.read_text(encoding="utf-8")
    drawn = {
        name: svg_of(drawing, pixels_per_mm=PIXELS_PER_MM, style=look)
        for name, drawing in drawings.items()
    }
    details = {"jamb.svg": jamb_of(window), "meeting-rails.svg": meeting_of(window)}
    on_paper = style_on_paper(DETAIL_PIXELS_PER_MM / PIXELS_PER_PAPER_MM)
    return drawn | {
        name: svg_of(drawing, pixels_per_mm=DETAIL_PIXELS_PER_MM, style=on_paper)
        for name, drawing in details.items()
        if drawing is not None
    }


def main() -> None:
    """Write the pictures."""
    PICTURES.mkdir(exist_ok=True)
    for name, picture in pictures().items():
        (PICTURES / name).write_text(picture, encoding="utf-8")


if __name__ == "__main__":
    main()
