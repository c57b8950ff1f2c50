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
    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.solve import Hang
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash
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
        weights = getattr(upper, side), getattr(lower, side)
        width = box_mm(window, upper, side, "compartment_width")
        if any(weight is None or weight.diameter is None for weight in weights) or math.isnan(
            width
        ):
            yield note(
                "turning-unknown",
                missing="compartment width or weight diameters, with no parting slip",
            )
            continue
        swept = [
            one.diameter.mm * (box.DIAGONAL if one.section == "square" else 1.0) for one in weights
        ]
        room = box.passing_room_mm(
            box_width_mm=2.0 * width + assumed("joinery/parting slip/thickness").value,
            first_swept_mm=swept[0],
            second_swept_mm=swept[1],
        )
        runs = []
        for place in ("upper", "lower"):
            inputs, hang = found[place]
            out = getattr(hang, side)
            runs += [out.top_highest_mm - getattr(inputs, side).length_mm, out.top_lowest_mm]
        shared = box.overlap_mm(
            first_low_mm=runs[0],
            first_high_mm=runs[1],
            second_low_mm=runs[2],
            second_high_mm=runs[3],
        )
        if shared > 0.0:
            spoken = {
                "overlap": words.length(float(shared)),
                "room": words.length(max(0.0, float(room))),
            }
            yield note("weights-may-strike", **spoken)
