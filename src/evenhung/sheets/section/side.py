"""The section put together: from a planned sash to the drawing of one of its sides."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING

from evenhung.plan.positions import positions_of
from evenhung.sheets.scene import Drawing, Words
from evenhung.sheets.scene.opening import opened, stilled
from evenhung.sheets.scene.shapes import Room
from evenhung.sheets.section.box import box_groups
from evenhung.sheets.section.clearances import clearance_group, clearances_of
from evenhung.sheets.section.hang import line_groups, weight_groups
from evenhung.sheets.section.names import name_group, scale_group, travel_group
from evenhung.sheets.section.sash import sash_group
from evenhung.sheets.section.setting import setting_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan import SashPlan
    from evenhung.plan.frame import Side
    from evenhung.sheets.scene import Group
    from evenhung.sheets.section.clearances import Clearance
    from evenhung.sheets.section.setting import Setting


def section_of(
    plan: SashPlan,
    *,
    side: Side = "right",
    as_found: bool = False,
    opened_mm: float | None = None,
    text_mm: float | None = None,
    is_brief: bool = False,
) -> Drawing | None:
    """Draw the section through the box on one side of a sash, the sash shut unless told otherwise.

    Parameters
    ----------
    plan
        A sash of the plan of its house.
    side
        Which side, seen from inside.
    as_found
        Draw the weights as found; else as they will hang, if the plan has anything to hang.
    opened_mm
        Draw it for good with the sash opened so far, for paper; None leaves it to move [mm].
    text_mm
        Size of the words, in mm of the window; None leaves it to the size of the box [mm].
    is_brief
        Tell only the hang and its clearances, for a small picture: its page says the rest.

    Returns
    -------
    Drawing or None
        Its moving groups shift and stretch with the travel, and its clearances say how they change;
        None for a fixed sash, which has no weights.

    Raises
    ------
    DrawingDomainError
        If the sash does not run so far as it is to be opened.
    """
    positions = positions_of(plan)
    if positions is None:
        return None
    setting = setting_of(plan, positions, side, as_found=as_found)
    setting = setting._replace(text_mm=text_mm, is_brief=is_brief)
    called = f"{plan.window.tag} {plan.place} sash"
    known = list(clearances_of(setting))
    figures = {name: text for one in known for name, text in one.figures(setting, opened_mm or 0.0)}
    parts: tuple[Group, ...] = (*box_groups(setting), sash_group(setting), *line_groups(setting))
    told = (
        *weight_groups(setting),
        *(clearance_group(setting, each, opened_mm or 0.0) for each in known),
    )
    if is_brief:
        groups = (*parts, *told)
    else:
        told = (*told, travel_group(setting), *scale_group(setting))
        travel = positions.travel_mm
        stops_mm = [part * travel for part in _STOPS] if opened_mm is None else [opened_mm]
        taken = _written(setting, (*parts, *told), known, stops_mm)
        names = name_group(setting, [_swept(rooms) for rooms in taken], [one[0] for one in taken])
        groups = (*parts, names, *told)  # what carries words and moves passes over the leaders
    drawing = Drawing(
        name="section",
        title=f"{called}: section through the box on the {side}, to scale",
        description=_description(setting, known),
        groups=groups,
        margin_mm=0.5 * setting.text,
        travel_mm=positions.travel_mm,
        assumed=setting.sizes.assumed,
        facts=_facts(setting),
    )
    if opened_mm is not None:
        drawing = opened(drawing, opened_mm, figures)
    return drawing.mirrored() if side == "left" else drawing


_STOPS = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Parts of the travel at which figures that move are looked at; they are as wide in between."""


def _written(
    setting: Setting, groups: tuple[Group, ...], known: list[Clearance], stops_mm: Sequence[float]
) -> list[tuple[Room, ...]]:
    """Give for each of the words where it stands at every stop."""
    by_stop = []
    for travel_mm in stops_mm:
        figures = {name: text for one in known for name, text in one.figures(setting, travel_mm)}
        shapes = (
            shape for group in groups for shape in stilled(group, travel_mm, figures).shapes()
        )
        by_stop.append([shape.room() for shape in shapes if isinstance(shape, Words)])
    return list(zip(*by_stop, strict=True))


def _swept(rooms: Sequence[Room]) -> Room:
    """Give the room of all of them together."""
    return reduce(Room.joined, rooms)


def _description(setting: Setting, known: list[Clearance]) -> str:
    """Say in words what can be seen, at both ends of the travel."""
    length, travel = setting.words.length, setting.positions.travel_mm
    said = [
        f"Sash shut: {each.label} by {_by(each, 0.0, length)}; "
        f"opened by {length(travel)}: {_by(each, travel, length)}."
        for each in known
    ]
    said += [
        f"{one.what.replace('_', ' ').removesuffix(' mm').capitalize()} not drawn: {one.reason}."
        for one in setting.at.unknown
        if one.what in {"weight_top", "weight_foot", "weight_across_mm"}
    ]
    if setting.at.hangs != "free":
        said.append(f"The {setting.side} weight as found: {setting.at.hangs}.")
    return " ".join(said)


def _by(clearance: Clearance, travel_mm: float, length: object) -> str:
    room = clearance.room.at_mm(travel_mm)
    return clearance.struck if clearance.state(travel_mm) == "struck" else str(length(room))  # type: ignore[operator]


def _facts(setting: Setting) -> dict[str, str]:
    """Give what a page needs to move it and to speak of it."""
    opens = "down" if setting.plan.place == "upper" else "up"
    return {
        "moves": setting.plan.place,
        "own": setting.words.system,
        "tag": setting.plan.window.tag,
        "slider": f"How far the {setting.plan.place} sash is opened",
        "opened": f"{opens} by",
        "shut": "shut",
        "open": "fully open",
        "strikes-from": "once the sash is opened by",
        "short": "short by",
    }
