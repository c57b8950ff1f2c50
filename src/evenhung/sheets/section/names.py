"""The names of the parts beside a section, each at the end of a leader, none over another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.scene import Circle, Dimension, Group, Line, Words
from evenhung.sheets.scene.strokes import scale_bar
from evenhung.sheets.section.setting import SASH_SHOWN_MM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.sheets.scene.shapes import Point
    from evenhung.sheets.section.setting import Setting

LINE_SPACING = 1.35
"""Between two names, over the size of the words."""


LONGEST_TAG = 12
"""Letters of a tag that stand above a drawing; its title has all of them."""


def name_group(setting: Setting) -> Group:
    """Name what does not move."""
    size, x = setting.text, setting.names_mm
    named = sorted(_named(setting).items(), key=lambda item: item[1][1], reverse=True)
    heights = spread([at[1] for _, at in named], LINE_SPACING * size)
    members: list[Line | Circle | Words] = []
    for (name, at), height in zip(named, heights, strict=True):
        bend = (x - 0.9 * size, at[1])
        members += [Line(at, bend), Line(bend, (x - 0.25 * size, height))]
        members += [Circle(at, 0.1 * size), Words((x, height - 0.33 * size), name, size)]
    return Group("label", tuple(members))


def spread(heights: list[float], apart: float) -> list[float]:
    """Give heights that are so far apart, none moved further than it must, from the top down.

    Parameters
    ----------
    heights
        Where things would stand, the highest first [mm].
    apart
        The least between two of them [mm].

    Examples
    --------
    >>> spread([100.0, 95.0, 20.0], 10.0)
    [102.5, 92.5, 20.0]
    """
    clusters: list[tuple[float, int]] = []  # the middle of each, and how many stand in it
    for height in heights:
        middle, count = height, 1
        while clusters:
            above, more = clusters[-1]
            if above - middle >= apart * (count + more) / 2.0:
                break
            clusters.pop()
            middle, count = (middle * count + above * more) / (count + more), count + more
        clusters.append((middle, count))
    return [
        middle + apart * ((count - 1) / 2.0 - number)
        for middle, count in clusters
        for number in range(count)
    ]


def _named(setting: Setting) -> dict[str, Point]:
    """Give what is named, with the point that its leader comes from."""
    at, head = setting.at, setting.inputs.head_mm
    low, high = at.box_bottom_mm, at.axle_mm
    middle = (setting.wall.mm + setting.back_mm) / 2.0
    named: dict[str, Point] = {
        "pulley": (setting.cord_mm + at.radius_mm, at.axle_mm),
        "back lining": (setting.back_mm + setting.lining.mm / 2.0, low + 0.62 * (high - low)),
        "pulley stile": (setting.wall.mm / 2.0, low + 0.54 * (high - low)),
        "box bottom": (middle, at.box_bottom_mm),
        "head": (setting.outer_mm - 0.5 * setting.text, head + setting.head.mm / 2.0),
    }
    pocket = setting.side_inputs
    if pocket.pocket_height_mm > 0.0:
        stated = pocket.pocket_above_sill_mm
        foot = stated if stated >= 0.0 else _POCKET_MM
        named["pocket"] = (setting.wall.mm / 2.0, foot + 0.6 * pocket.pocket_height_mm)
    if setting.plan.window.box.parting_slip == "present":
        named["parting slip"] = (setting.back_mm - 8.0, low + 0.7 * (high - low))
    return named


_POCKET_MM = 100.0
"""About where a pocket begins, for its leader only."""


def travel_group(setting: Setting) -> Group:
    """Dimension the travel beside the sash: how far its top runs."""
    positions, size = setting.positions, setting.text
    run = positions.sash_top
    travel = positions.travel_mm
    words = f"travel {setting.words.length(travel)}"
    beside = -SASH_SHOWN_MM - 1.1 * size
    reach = -SASH_SHOWN_MM - 0.4 * size
    low, high = sorted((run.at_mm(0.0), run.at_mm(travel)))
    return Group("dimension", (Dimension(low, high, beside, (reach, reach), words, size),))


def scale_group(setting: Setting) -> Iterator[Group]:
    """Give a bar to measure by, and above the head what is drawn."""
    size, left = setting.text, -SASH_SHOWN_MM - 2.4 * setting.text
    filled, rest = scale_bar(left, setting.lowest_mm - 2.2 * size, size)
    yield Group("dimension", (Group("mark", tuple(filled)), *rest))
    height = setting.inputs.head_mm + setting.head.mm + 0.9 * size
    written = []
    for line in reversed(_captions(setting)):
        written.append(Words((left, height), line, size))
        height += LINE_SPACING * size
    yield Group("label", tuple(reversed(written)))


def _captions(setting: Setting) -> list[str]:
    """Say which side is drawn, on which weight, on which cord."""
    plan, cord = setting.plan, setting.hanging.cord
    tag = plan.window.tag
    tag = tag if len(tag) <= LONGEST_TAG else f"{tag[: LONGEST_TAG - 1]}…"
    lines = [f"{tag} {plan.place} sash, {setting.side} side"]
    state = "as it will hang" if setting.hung else "as found"
    if setting.mass_words:
        state = f"{state}, weight {setting.mass_words}"
    lines.append(state)
    if cord is None:
        lines.append("no weight can be placed")
    elif cord != "as planned":
        lines.append(f"no cord serves: drawn on the {cord}")
    return lines
