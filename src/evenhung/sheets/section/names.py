"""The names of the parts beside a section, each at the end of a leader, none over another."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.scene import Circle, Dimension, Group, Line, Words
from evenhung.sheets.scene.strokes import scale_bar
from evenhung.sheets.section.setting import SASH_SHOWN_MM

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.sheets.scene.shapes import Room
    from evenhung.sheets.section.setting import Setting

LINE_SPACING = 1.35
"""Between two names, over the size of the words."""


LONGEST_TAG = 12
"""Letters of a tag that stand above a drawing; its title has all of them."""


STEP = 0.25
"""How finely a clear height is looked for, over the size of the words."""


class Named(NamedTuple):
    """A part that has a name beside the section: where its leader begins, and may begin."""

    name: str
    x: float
    y: float
    least: float
    most: float
    """Heights between which it is the same part; a leader takes the nearest clear one."""


def name_group(setting: Setting, swept: Sequence[Room], shut: Sequence[Room]) -> Group:
    """Name what does not move, each name at the end of a leader.

    Parameters
    ----------
    setting
        What is drawn.
    swept
        Where words stand already, or come while the sash moves: no leader runs through there, if
        its part can be reached otherwise.
    shut
        Where they stand first: no leader runs through them in any case.
    """
    size, x = setting.text, setting.names_mm
    found = {
        one.name: (one.x, y)
        for one in _named(setting)
        if (y := _clear_of(one, swept, shut, setting)) is not None
    }
    named = sorted(found.items(), key=lambda item: item[1][1], reverse=True)
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


def _clear_of(
    part: Named, swept: Sequence[Room], shut: Sequence[Room], setting: Setting
) -> float | None:
    always = _clear(part, swept, setting)
    return _clear(part, shut, setting) if always is None else always


def _clear(part: Named, taken: Sequence[Room], setting: Setting) -> float | None:
    """Give the height of a part nearest to the wanted one at which a leader meets no words.

    None where there is none: a part goes without its name rather than with one struck out.
    """
    size = setting.text
    margin = 0.2 * size

    def is_clear(y: float) -> bool:
        return not any(
            room.bottom - margin < y < room.top + margin
            and part.x < room.right
            and room.left < setting.names_mm - 0.25 * size
            for room in taken
        )

    count = math.ceil((part.most - part.least) / (STEP * size))
    off = (way * number * STEP * size for number in range(count + 1) for way in (1.0, -1.0))
    tried = (part.y + by for by in off if part.least <= part.y + by <= part.most)
    return part.y if part.least == part.most else next(filter(is_clear, tried), None)


def _named(setting: Setting) -> Iterator[Named]:
    """Give what is named: at one height, or wherever along its length there is room."""
    at, head = setting.at, setting.inputs.head_mm
    low, high = at.box_bottom_mm, at.axle_mm
    middle = (setting.wall.mm + setting.back_mm) / 2.0
    under = head + setting.head.mm / 2.0
    for name, x, y in (
        ("pulley", setting.cord_mm + at.radius_mm, at.axle_mm),
        ("box bottom", middle, at.box_bottom_mm),
        ("head", setting.outer_mm - 0.5 * setting.text, under),
    ):
        yield Named(name, x, y, y, y)
    foot, top = low, low
    pocket = setting.side_inputs
    if pocket.pocket_height_mm > 0.0:
        stated = pocket.pocket_above_sill_mm
        foot = stated if stated >= 0.0 else _POCKET_MM
        top = foot + pocket.pocket_height_mm
        slope = setting.wall.mm / 2.0  # its ends fall through the stile
        y = foot + 0.6 * pocket.pocket_height_mm
        yield Named("pocket", slope, y, foot - slope, top - slope)
    above = max(low, top) + setting.wall.mm
    stile = max(low + 0.54 * (high - low), above)
    yield Named("pulley stile", setting.wall.mm / 2.0, stile, above, high - setting.wall.mm)
    back = setting.back_mm + setting.lining.mm / 2.0
    yield Named("back lining", back, low + 0.62 * (high - low), low, high)
    if setting.plan.window.box.parting_slip == "present":
        slip = low + 0.7 * (high - low)
        yield Named("parting slip", setting.back_mm - 8.0, slip, low + 0.1 * (high - low), high)


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
