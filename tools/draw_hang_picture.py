"""Draw docs/pictures/hang.svg: a weight box in section, each sash at both ends of its travel.

The heights are those of the plan of window W1 of the demo house, and one unit of the drawing is one
millimetre of the window. Run it after the plan or the demo house has changed:
``python -m tools.draw_hang_picture``. A test compares the picture with what this tool draws.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from xml.etree import ElementTree as ET

from tools.svg_pen import Pen, number

from evenhung.plan import plan_house
from evenhung.quantities import print_length, print_mass
from evenhung.reference import look_up
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey

if TYPE_CHECKING:
    from evenhung.plan import SashPlan

ROOT = Path(__file__).resolve().parent.parent
PICTURE = ROOT / "docs" / "pictures" / "hang.svg"

WIDTH, HEIGHT = 2000, 2076
PIXELS_PER_MM = 0.43
SILL_DOWN = 1900
"""From the top of the drawing down to the sill [mm]."""
STILE_FACES = (200, 680, 1200, 1680)
"""Where the face of the pulley stile stands in each of the four sections [mm]."""
SHOWN = 140
"""How much of a sash is shown beside the stile, up to the break [mm]."""
LINING, HEAD, SILL, RIM, KNOT = 10, 34, 44, 4, 16
"""Not surveyed, drawn as usual: back lining, head, sill, rim of a wheel, width of a knot [mm]."""

STYLE = """
text { font-family: sans-serif; font-size: 31px; fill: #26231f }
.title { font-size: 46px; font-weight: bold } .caption { font-size: 35px; font-weight: bold }
.second { font-size: 27px; fill: #4a453e }
.on-sash, .on-iron { font-size: 28px; text-anchor: middle } .on-iron { fill: #fff }
.ground { fill: #fbf9f4; stroke: #d8d2c6; stroke-width: 3 } .cavity { fill: #efeae0 }
.frame { fill: #bf9e70; stroke: #5d4a30; stroke-width: 2 }
.sash { fill: #ead7b1; stroke: #6e5a3c; stroke-width: 2 } .glass { fill: #dbe7ea }
.groove { fill: #c7ac7c } .torn { fill: #fbf9f4 }
.iron { fill: #474c52; stroke: #24272a; stroke-width: 2 }
.case { fill: #f3e3b0; stroke: #4d3f14; stroke-width: 2.5 }
.wheel { fill: #b8973f; stroke: #4d3f14; stroke-width: 2.5 } .axle { fill: #4d3f14 }
.cord { fill: none; stroke: #9c2f16 } .knot { fill: #9c2f16 }
.line { fill: none; stroke: #26231f; stroke-width: 2.5 }
.tick { fill: none; stroke: #26231f; stroke-width: 5 }
.leader { fill: none; stroke: #26231f; stroke-width: 1.5 }
.limit { fill: none; stroke: #26231f; stroke-width: 2; stroke-dasharray: 10 6 }
"""


class Section(NamedTuple):
    """A sash at one end of its travel and the weight that hangs for it there.

    Heights are above the sill, lengths across run from the face of the pulley stile into the box,
    all in mm.
    """

    caption: str
    sash_words: str
    weight_words: str
    is_lowest: bool
    head: float
    box_bottom: float
    wall: float
    depth: float
    gap: float
    sash_top: float
    sash_height: float
    top_rail: float
    bottom_rail: float
    cord_end: float
    cord: float
    axle: float
    radius: float
    case: float
    knot: float
    weight_top: float
    weight_length: float
    weight_across: float

    @property
    def cord_x(self) -> float:
        """Plumb line of the cord in the groove of the sash: it lies flush with the edge."""
        return -self.gap - self.cord / 2

    @property
    def weight_x(self) -> float:
        """Plumb line of the weight."""
        return self.cord_x + 2 * self.radius

    @property
    def lining_x(self) -> float:
        """Outer face of the back lining."""
        return self.wall + self.depth + LINING


def picture() -> str:
    """Return the whole picture as SVG."""
    plan = plan_house(read_survey(SURVEY.read_bytes()))
    window = plan.windows[0]
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    title = f"{plan.survey.house.name}, {window.window.tag}: where the weights run"
    svg = _canvas(title)
    sections = [_section(sash, is_lowest=end) for sash in sashes for end in (True, False)]
    for face, section in zip(STILE_FACES, sections, strict=True):
        _draw_section(_pen_at(svg, face), section)
    _name_parts(_pen_at(svg, STILE_FACES[0]), sections[0])
    for face, sash in zip(STILE_FACES[::2], sashes, strict=True):
        _write_cut(_pen_at(svg, face - SHOWN), sash)
    _draw_scale(Pen(svg))
    ET.indent(svg, " ")
    return ET.tostring(svg, encoding="unicode") + "\n"


def _section(plan: SashPlan, *, is_lowest: bool) -> Section:
    """Read a section out of the plan, with the weights that the plan proposes to hang."""
    if plan.proposal is None or plan.sash.cord_end is None:
        raise LookupError(f"{plan.window.tag} {plan.place}: the plan has no hang to draw")
    inputs, hang = plan.proposal.inputs, plan.proposal.hang
    side, found = inputs.right, hang.right
    end = inputs.cord_end_lowest_mm + (0.0 if is_lowest else inputs.travel_mm)
    rails = ("top_rail", "meeting_rail") if inputs.is_upper else ("meeting_rail", "bottom_rail")
    says = "shut" if is_lowest != inputs.is_upper else "lowered" if is_lowest else "raised"
    return Section(
        caption=f"{plan.place.capitalize()} sash {says}",
        sash_words=f"{plan.place} sash {_mass(plan.mass.kg)}",
        weight_words=f"weight {_mass(side.weight_kg)}",
        is_lowest=is_lowest,
        head=inputs.head_mm,
        box_bottom=side.box_bottom_mm,
        wall=side.wall_mm,
        depth=side.depth_mm,
        gap=(plan.window.box.clear_width.mm - plan.sash.width.mm) / 2,
        sash_top=end + plan.sash.cord_end.mm,
        sash_height=plan.sash.height.mm,
        top_rail=_usual("assumed sash", rails[0]),
        bottom_rail=_usual("assumed sash", rails[1]),
        cord_end=end,
        cord=inputs.cord_mm,
        axle=side.axle_mm,
        radius=side.radius_mm,
        case=side.case_below_axle_mm,
        knot=inputs.knot_mm,
        weight_top=found.top_lowest_mm if is_lowest else found.top_highest_mm,
        weight_length=side.length_mm,
        weight_across=side.across_mm,
    )


def _usual(key: str, name: str) -> float:
    """Give a size that nobody measured on this window, from the reference [mm]."""
    return look_up("joinery", key, name).si


def _canvas(title: str) -> ET.Element:
    svg = ET.Element("svg", xmlns="http://www.w3.org/2000/svg", role="img")
    svg.set("viewBox", f"0 0 {WIDTH} {HEIGHT}")
    svg.set("width", f"{WIDTH * PIXELS_PER_MM:.0f}")
    svg.set("height", f"{HEIGHT * PIXELS_PER_MM:.0f}")
    svg.set("aria-labelledby", "title")
    ET.SubElement(svg, "title", id="title").text = f"{title}, drawn to scale"
    ET.SubElement(svg, "style").text = STYLE
    pen = Pen(svg)
    pen.rect("ground", 2, 2 - HEIGHT, (WIDTH - 4, HEIGHT - 4), r=24)
    pen.write("title", STILE_FACES[0] - SHOWN, -86, title)
    return svg


def _pen_at(svg: ET.Element, face: float) -> Pen:
    return Pen(ET.SubElement(svg, "g", transform=f"translate({face} {SILL_DOWN})"))


def _draw_section(pen: Pen, section: Section) -> None:
    _draw_sash(pen, section)
    _draw_frame(pen, section)
    _draw_hang(pen, section)
    _draw_clearance(pen, section)
    pen.write("caption", -SHOWN, section.head + HEAD + 26, section.caption)


def _draw_frame(pen: Pen, section: Section) -> None:
    """Draw head and sill, the pulley stile, the box behind it and its back lining."""
    wall, depth, bottom = section.wall, section.depth, section.box_bottom
    pen.rect("cavity", wall, bottom, (depth, section.head - bottom))
    pen.rect("frame", wall, 0, (depth, bottom))
    pen.rect("frame", 0, 0, (wall, section.head))
    pen.rect("frame", wall + depth, 0, (LINING, section.head))
    pen.rect("frame", -SHOWN, section.head, (SHOWN + section.lining_x, HEAD))
    pen.rect("frame", -SHOWN, -SILL, (SHOWN + section.lining_x, SILL))


def _draw_sash(pen: Pen, section: Section) -> None:
    """Draw the stile of the sash with its cord groove, and its rails and glass up to the break."""
    stile, groove = _usual("assumed sash", "stile"), _usual("cord groove", "depth")
    gap, top, height = section.gap, section.sash_top, section.sash_height
    foot, shown = top - height, SHOWN - gap
    pen.rect("glass", -SHOWN, foot, (shown, height))
    pen.rect("sash", -SHOWN, top - section.top_rail, (shown, section.top_rail))
    pen.rect("sash", -SHOWN, foot, (shown, section.bottom_rail))
    pen.rect("sash", -gap - stile, foot, (stile, height))
    pen.rect("groove", -gap - groove, section.cord_end, (groove, top - section.cord_end))
    count = 2 * round(height / 140)
    waves = "".join(
        f" q {14 if wave % 2 else 2} {number(height / count / 2)} 0 {number(height / count)}"
        for wave in range(count)
    )
    pen.path("torn", f"M {-SHOWN - 3} {number(-top - 3)} h 7 v 3{waves} v 3 h -7 z")
    middle = (-SHOWN - gap - stile) / 2 + 4
    pen.write_upright("on-sash", middle, foot + height / 2, section.sash_words)


def _draw_hang(pen: Pen, section: Section) -> None:
    """Draw pulley, cord, knot and weight, the weight on the plumb line of its cord."""
    radius, axle, weight_x = section.radius, section.axle, section.weight_x
    wheel_x, top, across = section.cord_x + radius, section.weight_top, section.weight_across
    pen.rect("case", wheel_x - 17, axle - section.case, (34, 2 * section.case), r=6)
    pen.circle("wheel", wheel_x, axle, radius - section.cord / 2 + RIM)
    pen.circle("axle", wheel_x, axle, RIM)
    down, over, up = number(-top), number(2 * radius), number(-axle)
    start = f"M {number(section.cord_x)} {number(-section.cord_end)} V {up}"
    arc = f"a {number(radius)} {number(radius)} 0 0 1 {over} 0 V {down}"
    pen.path("cord", f"{start} {arc}", section.cord)
    pen.rect("knot", weight_x - KNOT / 2, top, (KNOT, section.knot), r=8)
    length = section.weight_length
    pen.rect("iron", weight_x - across / 2, top - length, (across, length), r=5)
    pen.write_upright("on-iron", weight_x, top - length / 2, section.weight_words)


def _draw_clearance(pen: Pen, section: Section) -> None:
    """Dimension what knot or weight keeps clear of the end of the box that it comes near to."""
    case, bottom, x = section.axle - section.case, section.box_bottom, section.lining_x
    foot = section.weight_top - section.weight_length
    low, high = (section.weight_top + section.knot, case) if section.is_lowest else (bottom, foot)
    for height in (low, high):
        pen.line("limit", section.weight_x, height, x + 34, height)
    pen.line("line", x + 22, low, x + 22, high)
    for height in (low, high):
        pen.line("tick", x + 12, height - 10, x + 32, height + 10)
    middle = (low + high) / 2
    pen.write("", x + 46, middle + 5, print_length(high - low, "imperial"))
    pen.write("second", x + 46, middle - 27, print_length(high - low, "metric"))


def _name_parts(pen: Pen, section: Section) -> None:
    """Name, beside one section, the parts that are not named elsewhere."""
    names = {
        "pulley": (section.axle, section.cord_x + section.radius),
        "knot": (section.weight_top + section.knot / 2, section.weight_x),
        "back lining": (0.4 * section.axle, section.lining_x - LINING / 2),
        "pulley stile": (0.34 * section.axle, section.wall / 2),
        "box bottom": (section.box_bottom, section.weight_x),
    }
    for name, (height, x) in names.items():
        pen.line("leader", x, height, section.lining_x + 34, height)
        pen.circle("axle", x, height, RIM)
        pen.write("second", section.lining_x + 46, height - 9, name)


def _write_cut(pen: Pen, plan: SashPlan) -> None:
    """Write under the two sections of a sash what cord to cut for it."""
    if plan.proposal is None:
        raise LookupError(f"{plan.window.tag} {plan.place}: the plan has no cord to cut")
    cut = plan.proposal.hang.cut_mm
    pen.write("", 0, -SILL - 60, f"Cut two cords of {print_length(cut, 'imperial', both=True)},")
    tail = plan.proposal.inputs.tail_mm
    words = f"{print_length(tail, 'imperial', both=True)} of each for the knot at the weight."
    pen.write("second", 0, -SILL - 100, words)


def _draw_scale(pen: Pen) -> None:
    """Draw a bar to measure by."""
    x, step, height = STILE_FACES[-1] - SHOWN, 100, -66
    for part in range(3):
        pen.rect("cavity" if part % 2 else "iron", x + part * step, height, (step, 14))
    pen.write("second", x, height - 36, "0")
    pen.write("second", x + 3 * step - 100, height - 36, "300 mm")


def _mass(kg: float) -> str:
    return print_mass(kg, "imperial", both=True)


def main() -> None:
    """Write the picture."""
    PICTURE.parent.mkdir(exist_ok=True)
    PICTURE.write_text(picture(), encoding="utf-8")


if __name__ == "__main__":
    main()
