"""Notes on how a sash hangs as found: cord, nails, pocket, room to turn, forces."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.physics import box, travel
from evenhung.plan.assumed import assumed, source_of
from evenhung.plan.catalogue import note
from evenhung.plan.facts import (
    at_least,
    drifts_at,
    known,
    max_known,
    nail_short_mm,
    short_sides,
    side_passes,
)
from evenhung.plan.frame import SIDES, box_mm, is_seized

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan.facts import Facts
    from evenhung.plan.inputs import SashInputs, SideInputs
    from evenhung.plan.solve import Hang, SideHang
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash
    from evenhung.survey.window import Window


def on_the_hang(
    window: Window, sash: Sash, inputs: SashInputs, hang: Hang, facts: Facts, words: Words
) -> Iterator[Note]:
    """Notes on cord, nails, pocket, room and forces."""
    yield from _on_cord(sash, inputs, hang, facts, words)
    yield from _on_nails(sash, inputs, hang, words)
    for name, side, out in (("left", inputs.left, hang.left), ("right", inputs.right, hang.right)):
        yield from _on_pocket(name, side, out, words)
        yield from _on_sill(name, side, out, words)
    missing = [name for field, name in _POCKET if not _knows(inputs, field)]
    if missing:
        yield note("pocket-unknown", missing=", ".join(missing))
    yield from _on_turning(window, sash, words)
    for wheel in SIDES:
        if is_seized(window, sash, wheel):
            yield note("pulley-seized", source_of("friction/cord on wheel/coefficient"), side=wheel)
    usual = assumed("joinery/running clearance/each_side")
    side_mm = (window.box.clear_width.mm - sash.width.mm) / 2.0
    if side_mm < usual.value / 2.0:
        yield note(
            "tight-sash", usual.source, side=words.length(side_mm), usual=words.length(usual.value)
        )


_POCKET = (
    ("piece_mm", "weight length"),
    ("across_mm", "weight diameter"),
    ("wall_mm", "pulley stile thickness"),
    ("depth_mm", "compartment depth"),
    ("pocket_height_mm", "pocket height"),
)


def _knows(inputs: SashInputs, field: str) -> bool:
    return (
        known(getattr(inputs.left, field)) is not None
        and known(getattr(inputs.right, field)) is not None
    )


def _on_cord(
    sash: Sash, inputs: SashInputs, hang: Hang, facts: Facts, words: Words
) -> Iterator[Note]:
    if facts.cord_end_over_mm:
        yield note("cord-end-high", over=words.length(facts.cord_end_over_mm))
        return
    if not _knows(inputs, "length_mm"):
        yield note("length-unknown")
    if facts.band_is_empty:
        short = hang.least_mm - hang.most_mm
        longest = min(side.longest_weight_mm for side in (hang.left, hang.right))
        run = words.length(inputs.travel_mm)
        fits = words.length(max(0.0, longest))
        spoken = {"short": words.length(short), "travel": run, "longest": fits}
        yield note("band-empty", where=short_sides(inputs, hang), **spoken)
    groove = min(
        sash.groove.width.mm if sash.groove.width else assumed("joinery/cord groove/width").value,
        sash.groove.depth.mm if sash.groove.depth else assumed("joinery/cord groove/depth").value,
    )
    if inputs.cord_mm > groove:
        spoken = {
            "cord": words.length(inputs.cord_mm),
            "groove": words.length(groove),
        }
        yield note("cord-proud", **spoken)


def _creep_mm(inputs: SashInputs, hang: Hang) -> float | None:
    """How far a new cord may lengthen in its first weeks; None where it does not."""
    working = known(hang.working_mm)
    if working is None or not inputs.tail_mm:
        return None
    free = working - inputs.nailed_mm
    return (
        free * assumed("cords/cord/creep_pct").value / 100.0
        + assumed("cords/cord/knot_settling").value
    )


def _on_nails(sash: Sash, inputs: SashInputs, hang: Hang, words: Words) -> Iterator[Note]:
    if sash.anchorage == "knotted":
        return
    if sash.top_nail is None:
        yield note("nail-unknown")
    over = max_known(nail_short_mm(inputs, side) for side in (hang.left, hang.right))
    if over > 0.0:
        least = max(side.nail_needed_mm for side in (hang.left, hang.right))
        consequence = "cannot close" if inputs.is_upper else "cannot be fully raised"
        spoken = {"over": words.length(over), "least": words.length(least)}
        yield note("nail-high", consequence=consequence, **spoken)
    if sash.nails.length is None:
        yield note("nail-length-unknown")
        return
    room = travel.nail_room_mm(
        stile_mm=sash.stile.mm if sash.stile else assumed("joinery/assumed sash/stile").value,
        groove_depth_mm=sash.groove.depth.mm
        if sash.groove.depth
        else assumed("joinery/cord groove/depth").value,
        rebate_width_mm=sash.rebate_width.mm
        if sash.rebate_width
        else assumed("joinery/assumed sash/rebate_width").value,
    )
    if sash.nails.length.mm > room:
        yield note(
            "nail-reaches-glass",
            length=words.length(sash.nails.length.mm),
            room=words.length(max(0.0, float(room))),
        )


def _on_pocket(name: str, side: SideInputs, out: SideHang, words: Words) -> Iterator[Note]:
    if side_passes(side, out) is not False:
        return
    across, width = side.across_mm, side.pocket_width_mm
    if across > width:
        yield note(
            "pocket-narrow", side=name, across=words.length(across), width=words.length(width)
        )
    if across > side.depth_mm:
        spoken = {"across": words.length(across), "depth": words.length(side.depth_mm)}
        yield note("too-thick", side=name, **spoken)
        return
    needed, height = max_known((out.pocket_needed_mm, across)), side.pocket_height_mm
    if needed > height:
        yield note(
            "pocket-small", side=name, needed=words.length(needed), height=words.length(height)
        )


def _on_sill(name: str, side: SideInputs, out: SideHang, words: Words) -> Iterator[Note]:
    """A weight tips up on its way in and its tail swings low: it may strike the window's sill."""
    head = side.pocket_above_sill_mm + side.pocket_height_mm
    if at_least(head, out.pocket_head_needed_mm) is False:
        higher = words.length(out.pocket_head_needed_mm - head)
        yield note("pocket-low", side=name, higher=higher)


def _on_turning(window: Window, sash: Sash, words: Words) -> Iterator[Note]:
    for side in SIDES:
        weight = getattr(sash, side)
        if weight is None or weight.diameter is None:
            continue
        width, depth = (
            box_mm(window, sash, side, f"compartment_{way}") for way in ("width", "depth")
        )
        room = box.turning_room_mm(
            across_mm=weight.diameter.mm,
            is_square=weight.section == "square",
            compartment_width_mm=width,
            compartment_depth_mm=depth,
        )
        if math.isnan(float(room)):
            yield note("turning-unknown", missing="compartment width or depth")
        elif room < 0.0:
            yield note("turns-tight", side=side, short=words.length(-float(room)))


def on_running(
    inputs: SashInputs, hang: Hang, facts: Facts, words: Words, *, when: str
) -> Iterator[Note]:
    """Notes on how a sash runs, as found or as it will hang: `when` says which."""
    if facts.rests_shut is None and known(hang.rise_turns_n) is not None:
        closes = hang.drop_turns_n if inputs.is_upper else hang.rise_turns_n
        yield note("depends-on-friction", when=when, what="rests shut", turns=words.force(closes))
    if facts.stays_put is None and known(hang.stays_above_n) is not None:
        needed = words.force(hang.stays_above_n)
        yield note("depends-on-friction", when=when, what="stays put", turns=needed)
    if facts.stays_put is False:
        turns = words.force(hang.stays_above_n)
        yield note("does-not-stay", when=when, turns=turns)
    else:
        for end, name in ((hang.lowest, "bottom"), (hang.highest, "top")):
            if drifts_at(end, inputs):
                yield note("drifts-at-end", when=when, end=name)


def on_the_hand(hang: Hang, words: Words, *, when: str) -> Iterator[Note]:
    """Notes on what a hand must do to move a sash."""
    most = assumed("friction/hand force/class_1_most")
    for way, force_n in (("raise", hang.raise_n), ("lower", hang.lower_n)):
        if force_n > most.value:
            spoken = {"force": words.force(force_n), "most": words.force(most.value)}
            yield note("too-stiff", most.source, when=when, way=way, **spoken)


def on_new_cord(inputs: SashInputs, hang: Hang, words: Words) -> Iterator[Note]:
    """Notes on the cord a sash will hang on: how it settles, and what it bears."""
    creep, left = _creep_mm(inputs, hang), known(hang.bottom_clear_mm)
    if creep is not None and left is not None and creep > left:
        spoken = {"creep": words.length(creep), "left": words.length(left)}
        yield note("creep", source_of("cords/cord/creep_pct"), **spoken)
    heaviest = max_known((inputs.left.weight_kg, inputs.right.weight_kg))
    size = _trade_size(inputs.cord_mm)
    most = assumed(f"cords/{size}/weight_most")
    if inputs.tail_mm and heaviest > most.value:
        spoken = {"mass": words.mass(heaviest), "cord": words.length(inputs.cord_mm)}
        yield note("cord-light", most.source, most=words.mass(most.value), **spoken)


def _trade_size(cord_mm: float) -> str:
    """The thickest old trade size that a cord can pass for, or the thinnest of all."""
    sizes = {size: assumed(f"cords/{size}/diameter").value for size in _TRADE_SIZES}
    fitting = [size for size, mm in sizes.items() if mm <= cord_mm + HALF_A_SIZE_MM]
    return fitting[-1] if fitting else _TRADE_SIZES[0]


_TRADE_SIZES = ("No. 7", "No. 8", "No. 9", "No. 10")
HALF_A_SIZE_MM = 25.4 / 64.0
"""Trade sizes go by 1/32 in: a cord half a size thinner still passes for the size."""
