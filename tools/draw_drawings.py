"""Draw docs/pictures/elevation.svg, section.svg and fabric.svg from the demo house, to scale.

Run it after the plan, the demo house or the look of drawings has changed:
``python -m tools.draw_drawings``. A test compares the pictures with what this tool draws.
"""

from __future__ import annotations

from pathlib import Path

from evenhung.plan import plan_house
from evenhung.plan.overhaul import overhaul_in_full
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.elevation.fabric import fabric_of
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import svg_of
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"
LOOK = ROOT / "src" / "evenhung" / "web" / "static" / "evenhung" / "drawing.css"
PIXELS_PER_MM = 0.4


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
    return {
        name: svg_of(drawing, pixels_per_mm=PIXELS_PER_MM, style=look)
        for name, drawing in drawings.items()
    }


def main() -> None:
    """Write the pictures."""
    PICTURES.mkdir(exist_ok=True)
    for name, picture in pictures().items():
        (PICTURES / name).write_text(picture, encoding="utf-8")


if __name__ == "__main__":
    main()
