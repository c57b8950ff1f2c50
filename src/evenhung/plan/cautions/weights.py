"""Notes on each weight, its cord and its fixing, as found."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.cautions.house import rule, source_of_rule
from evenhung.quantities import Mass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan.estimate import SashMass
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash
    from evenhung.survey.weight import Weight


def on_the_weights(sash: Sash, mass: SashMass, words: Words) -> Iterator[Note]:
    """Notes on each weight, its cord and its fixing, as found."""
    for side, weight in sash.weights():
        if weight is None:
            yield note("weight-unrecorded", side=side)
        else:
            yield from _on_weight(side, weight, words)
    both = (sash.left, sash.right)
    if any(weight is not None and not weight.is_attached for weight in both):
        yield note("one-cord", source_of_rule("falling sash"))
    if any(weight is not None and weight.metal == "lead" for weight in both):
        yield note("lead-weight", source_of_rule("lead weights"), rule=rule("lead weights"))
    two, hoist = assumed("policy/lifting/two_people_over"), assumed("policy/lifting/hoist_over")
    if mass.kg > hoist.value:
        yield note("hoist", hoist.source, mass=words.mass(mass.kg))
    elif mass.kg > two.value:
        yield note("two-people", two.source, mass=words.mass(mass.kg))


def _on_weight(side: str, weight: Weight, words: Words) -> Iterator[Note]:
    if weight.is_missing:
        return
    if weight.weighed is None:
        yield note("weight-unweighed", side=side, guess=_guess(weight, words))
    else:
        if weight.marked is not None and not _agrees(weight.marked, weight.weighed.kg):
            yield note(
                "mark-differs", "common practice, no source", side=side, marked=weight.marked
            )
        yield from _density(side, weight)
    state = weight.state
    if state in ("frayed", "broken"):
        yield note(f"cord-{state}", side=side)
    elif state == "painted in":
        yield note("painted-in", side=side)
    if weight.section == "square":
        yield note("square-runs-worse", "common practice, no source")
    if weight.shared_with is not None:
        yield note("shared", what=f"{side} weight", other=weight.shared_with)


def _agrees(marked: str, weighed_kg: float) -> bool:
    """Tell whether a mark reads as the weighing, in pounds or in kilograms."""
    number = re.search(r"[0-9]{1,4}(?:\.[0-9]{1,3})?", marked)
    if number is None:
        return False
    readings = (Mass.parse(f"{number.group()} {unit}").kg for unit in ("lb", "kg"))
    return any(abs(reading - weighed_kg) <= HALF_A_POUND_KG for reading in readings)


HALF_A_POUND_KG = Mass.parse("1/2 lb").kg
"""Weights are cast to the pound: a mark within half of one says the same as the weighing."""


def _volume_m3(weight: Weight) -> float:
    if weight.length is None or weight.diameter is None:
        return math.nan
    shape = 1.0 if weight.section == "square" else math.pi / 4.0
    return weight.length.mm * weight.diameter.mm**2 * shape * 1e-9


def _guess(weight: Weight, words: Words) -> str:
    volume = _volume_m3(weight)
    if weight.metal is None or math.isnan(volume):
        return ""
    kg = volume * assumed(f"metals/{weight.metal}/density").value
    return f"; by its size about {words.mass(kg)}, which is no weighing"


def _density(side: str, weight: Weight) -> Iterator[Note]:
    """Question a mass its size cannot have: by its metal, or where that is not stated by lead."""
    volume = _volume_m3(weight)
    if weight.weighed is None or math.isnan(volume):
        return
    expected = assumed(f"metals/{weight.metal or 'lead'}/density")
    found = weight.weighed.kg / volume
    numbers = {"found": f"{found:.0f}", "expected": f"{expected.value:.0f}"}
    off = found / expected.value - 1.0
    most = assumed("policy/weight metal/density_tolerance_pct").value / 100.0
    if weight.metal is not None and abs(off) > most:
        yield note("density-odd", expected.source, side=side, metal=weight.metal, **numbers)
    elif weight.metal is None and off > most:
        yield note("denser-than-lead", expected.source, side=side, **numbers)
