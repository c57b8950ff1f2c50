"""The weights seen from above in their compartments, and the cords that hang to them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.plan.positions import positions_of
from evenhung.sheets.details.stiles import edge_mm
from evenhung.sheets.scene import Circle, Group, Rect, Words
from evenhung.sheets.scene.shapes import CAP
from evenhung.sheets.sizes import WEIGHT_MM, Size

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.plan.frame import Side
    from evenhung.plan.positions import SidePositions
    from evenhung.sheets.details.planes import Planes, SashPlane
    from evenhung.sheets.sizes import Sizes


def weight_groups(
    window: WindowPlan, planes: Planes, side: Side, text: float, sizes: Sizes
) -> Iterator[Group]:
    """Give the weight of each sash that runs, on the plumb line of its cord."""
    for sash in planes.sashes.values():
        at = _side(sash.plan, side)
        if at is None or at.hangs in {"missing", "not recorded"}:
            continue
        yield from _weight(window, planes, sash, at, side, text, sizes)


def _side(plan: SashPlan, side: Side) -> SidePositions | None:
    """Give a side as it will hang, if the plan has a hang, else as found."""
    positions = positions_of(plan)
    if positions is None:
        return None
    hanging = positions.hung or positions.found
    return hanging.left if side == "left" else hanging.right


def _weight(
    window: WindowPlan,
    planes: Planes,
    sash: SashPlane,
    at: SidePositions,
    side: Side,
    text: float,
    sizes: Sizes,
) -> Iterator[Group]:
    across = at.weight_across_mm
    size = Size(across) if across else sizes.granted(WEIGHT_MM, "thickness of the weight")
    cord = sash.plan.found.inputs.cord_mm if sash.plan.found else 0.0
    x = edge_mm(window, sash) - cord / 2.0 + 2.0 * at.radius_mm
    y = planes.compartment(sash.plan.place).middle
    half = size.mm / 2.0
    body = (
        Rect(x - half, y - half, size.mm, size.mm)
        if _is_square(sash.plan, side)
        else Circle((x, y), half)
    )
    place = sash.plan.place
    layer = "weight" if at.hangs == "free" else "hidden"
    words = Words((x, y + 0.9 * text), place, text, "middle")
    low = words._replace(at=(x, y - (0.9 + CAP) * text), text="weight")
    members = (body, *((words, low) if _fits(low, half, (0.9 + CAP) * text) else ()))
    title = f"{place} sash, {side} weight"
    yield Group(layer, members, f"{place}.{side}", title, is_assumed=size.is_assumed)  # type: ignore[arg-type] # one of two layers
    if at.hangs == "free":
        yield Group("cord", (Circle((x, y), cord / 2.0),), f"{place}.{side}", "cord")


def _fits(words: Words, half: float, off: float) -> bool:
    """Tell whether words fit into a round so far off its middle."""
    room = words.room()
    return half > off and (room.right - room.left) / 2.0 < math.sqrt(half**2 - off**2)


def standing(window: WindowPlan, side: Side) -> tuple[object, ...]:
    """Give what the weights of a side are drawn by: how they hang, how thick, on what wheel."""
    found = []
    for plan in (window.upper, window.lower):
        at = _side(plan, side) if plan is not None else None
        if plan is not None and at is not None:
            shape = (at.hangs, at.weight_across_mm, at.radius_mm, _is_square(plan, side))
            found.append(shape)
    return tuple(found)


def _is_square(plan: SashPlan, side: Side) -> bool:
    """Tell whether the weight that hangs there is square; a new one is drawn round."""
    found = plan.sash.left if side == "left" else plan.sash.right
    hung = plan.proposal and (plan.proposal.left if side == "left" else plan.proposal.right)
    is_own = hung is None or hung.origin == "found"
    return is_own and found is not None and found.section == "square"


def unseen(window: WindowPlan, side: Side) -> Iterator[str]:
    """Say which weights are not drawn, and why."""
    for plan in (window.upper, window.lower):
        at = _side(plan, side) if plan is not None else None
        if plan is not None and at is not None and at.hangs in {"missing", "not recorded"}:
            yield f"The {side} weight of the {plan.place} sash is not drawn: {at.hangs}."
