"""The repair of a window, and the fabric and take-off of a house, in plain lines."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.overhaul import Overhaul, WindowOverhaul
    from evenhung.plan.repair.diagnosis import SymptomPlan
    from evenhung.plan.repair.fabric import Fabric
    from evenhung.plan.repair.treatment import Treatment
    from evenhung.plan.takeoff.house import TakeOff
    from evenhung.plan.words import Words

TESTS, WORTH_BITS = 3, 0.1
"""So many tests of a symptom are told at most, and those that tell something; --json has all."""

SHARE = 0.1
"""Causes less likely than this are left out."""


def window_lines(window: WindowOverhaul, words: Words) -> Iterator[str]:
    """Give what to do about what was found of one window; nothing where nothing was."""
    for symptom in window.repair.symptoms:
        yield from _symptom(symptom)
    for treatment in window.repair.treatments:
        yield _treatment(treatment, words)
    if window.repair.treatments:
        yield f"of this window {_kept(window.repair.fabric)}"
    for note in window.notes:
        if note.severity != "info":
            yield f"{note.severity}: {note.text}"


def _symptom(one: SymptomPlan) -> Iterator[str]:
    sash = one.symptom.sash
    name = f"{sash} sash {one.symptom.what}" if sash else one.symptom.what
    told = [suspect for suspect in one.suspects if suspect.share >= SHARE]
    causes = [
        f"{suspect.cause} ({100.0 * suspect.share:.0f} %"
        f"{f': {suspect.sign.says}' if suspect.sign.holds and suspect.sign.says else ''})"
        for suspect in told
    ]
    yield f"{name}: likely {'; or '.join(causes)}"
    first, *others = one.tests[:TESTS]
    for test in (first, *(other for other in others if other.bits >= WORTH_BITS)):
        yield f"{name}: ask: {test.ask} Yes: {' or '.join(test.yes)}"


def _treatment(one: Treatment, words: Words) -> str:
    panes = "".join(f" {column}/{row}" for column, row in one.extent.panes)
    line = f"{one.finding.part}{panes}, {one.finding.seen}: {one.what}: {one.why}"
    if one.splice is None:
        return line
    piece, ratio = words.length(one.splice.piece_mm), one.splice.joint_ratio
    return f"{line}; new piece {piece} point to point, joint {ratio:.1f} times the section"


def _kept(fabric: Fabric) -> str:
    """Say what is kept; rounded down, for a hundredth lost is not nothing lost."""
    most = "at most " if fabric.not_reckoned else ""
    parts = [
        f"{most if name == 'timber' else ''}{math.floor(kept.kept_pct + 1e-9)} % of the old {name}"
        for name, kept in (("timber", fabric.timber), ("glass", fabric.glass))
        if kept.kept_pct is not None
    ]
    return f"{' and '.join(parts)} stays" if parts else "nothing old was there to keep"


def house_lines(overhaul: Overhaul, words: Words) -> Iterator[str]:
    """Give what is kept of a house, and what to buy for it."""
    fabric = overhaul.repair.fabric
    yield f"house: {_kept(fabric)}"
    yield from (f"house: to buy: {line}" for line in buying_lines(overhaul.takeoff, words))


def buying_lines(takeoff: TakeOff, words: Words) -> Iterator[str]:
    """Give what to buy for what is repaired; cord and weights stand with each sash."""
    for piece in takeoff.timber:
        section = f"{piece.face_mm:.0f} x {piece.thick_mm:.0f} mm"
        yield f"timber {section}, {words.length(piece.length_mm)}: {piece.window} {piece.part}"
    for line in takeoff.glass:
        thick = f"{line.sheet_mm:g} mm{' old glass' if line.is_historic else ''}"
        size = f"{line.width_mm:.0f} x {line.height_mm:.0f} mm"
        panes = "1 pane" if line.number == 1 else f"{line.number} panes"
        yield f"{panes} {size}, {thick}: {', '.join(line.windows)}"
    if takeoff.putty.mass_kg > 0.0:
        yield f"putty {words.mass(takeoff.putty.mass_kg)}"
    if takeoff.paint.area_m2 > 0.0:
        paint = takeoff.paint
        yield (
            f"paint for {paint.area_m2:.1f} m2, {paint.coats:g} coats: "
            f"{paint.least_l:.1f} to {paint.most_l:.1f} litres"
        )
