"""Notes on two sashes together: heights that should add up, weights that may strike each other."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, TypeAlias

from evenhung.physics import box
from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.frame import SIDES, box_mm

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan.frame import Side
    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.solve import Hang
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash
    from evenhung.survey.weight import Weight
    from evenhung.survey.window import Window

    Hangs: TypeAlias = dict[Literal["upper", "lower"], tuple[SashInputs, Hang]]


def on_the_pair_of_sashes(window: Window, found: Hangs, words: Words) -> Iterator[Note]:
    """Notes on two sashes together: heights that should add up, weights that may strike."""
    upper, lower = window.upper, window.lower
    if upper is None or lower is None:
        return
    stated = upper.meeting_overlap or lower.meeting_overlap
    if stated is not None:
        total = upper.height.mm + lower.height.mm - stated.mm
        clear = window.box.clear_height.mm
        if abs(total - clear) > assumed("policy/agreement/heights").value:
            yield note("heights-disagree", sum=words.length(total), clear=words.length(clear))
    if window.box.parting_slip == "missing" and {"upper", "lower"} <= found.keys():
        yield from _on_passing(window, upper, lower, found, words)


def _on_passing(
    window: Window,
    upper: Sash,
    lower: Sash,
    found: Hangs,
    words: Words,
) -> Iterator[Note]:
    for side in SIDES:
        missing = _missing(window, upper, lower, found, side)
        if missing:
            yield note("passing-unknown", side=side, missing=f"{missing} not known")
            continue
        shared, room = _overlap_and_room_mm(window, upper, lower, found, side)
        if shared > 0.0:
            spoken = {"overlap": words.length(shared), "room": words.length(max(0.0, room))}
            yield note("weights-may-strike", side=side, **spoken)


def _missing(window: Window, upper: Sash, lower: Sash, found: Hangs, side: Side) -> str:
    """What is missing to tell whether the weights on one side can strike each other."""
    weights = (getattr(upper, side), getattr(lower, side))
    wanted = {
        "compartment width": math.isnan(box_mm(window, upper, side, "compartment_width")),
        "a weight's diameter": any(one is None or one.diameter is None for one in weights),
        "where a weight runs": any(
            math.isnan(getattr(hang, side).top_highest_mm - getattr(inputs, side).length_mm)
            for inputs, hang in found.values()
        ),
    }
    return ", ".join(name for name, is_missing in wanted.items() if is_missing)


def _overlap_and_room_mm(
    window: Window, upper: Sash, lower: Sash, found: Hangs, side: Side
) -> tuple[float, float]:
    width = box_mm(window, upper, side, "compartment_width")
    first, second = (_swept_mm(getattr(sash, side)) for sash in (upper, lower))
    room = box.passing_room_mm(
        box_width_mm=2.0 * width + assumed("joinery/parting slip/thickness").value,
        first_swept_mm=first,
        second_swept_mm=second,
    )
    first_low, first_high = _run_mm(*found["upper"], side)
    second_low, second_high = _run_mm(*found["lower"], side)
    shared = box.overlap_mm(
        first_low_mm=first_low,
        first_high_mm=first_high,
        second_low_mm=second_low,
        second_high_mm=second_high,
    )
    return float(shared), float(room)


def _swept_mm(weight: Weight) -> float:
    """Widest that a weight becomes as it turns; its diameter is known here."""
    across = weight.diameter.mm if weight.diameter else math.nan
    return across * box.DIAGONAL if weight.section == "square" else across


def _run_mm(inputs: SashInputs, hang: Hang, side: Side) -> tuple[float, float]:
    """Lowest and highest point that a weight ever occupies."""
    out = getattr(hang, side)
    return out.top_highest_mm - getattr(inputs, side).length_mm, out.top_lowest_mm
