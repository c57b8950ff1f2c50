"""The mass of each sash: as weighed, else estimated from its parts, with its spread."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, NamedTuple

from evenhung.physics import mass
from evenhung.physics.elementwise import both, choose
from evenhung.plan.catalogue import note
from evenhung.plan.columns import for_each
from evenhung.plan.parts import Parts, parts_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.physics.elementwise import Real
    from evenhung.plan.ledger import Ledger
    from evenhung.plan.policy import Place
    from evenhung.survey.sash import Sash

UNIFORM = 1.0 / math.sqrt(12.0)
"""Standard deviation of a value anywhere within one step, over the step (JCGM 100:2008, 4.3.7)."""


class SashMass(NamedTuple):
    """The mass of a sash and how far to trust it; `nan` where it cannot be known."""

    kg: float
    deviation_kg: float
    found: Literal["weighed", "estimated"] | None


class _Estimate(NamedTuple):
    kg: Real
    deviation_kg: Real


UNKNOWN = SashMass(math.nan, math.nan, None)


def masses(sashes: Sequence[tuple[Place, Sash, Ledger]], *, scale_step_kg: float) -> list[SashMass]:
    """Give the mass of every sash.

    Parameters
    ----------
    sashes
        Each with its place and the ledger for its notes.
    scale_step_kg
        Smallest step of the scale they were weighed on [kg].
    """
    answers = [UNKNOWN] * len(sashes)
    parts: dict[int, Parts] = {}
    for number, (place, sash, ledger) in enumerate(sashes):
        if sash.weighed is not None:
            answers[number] = SashMass(sash.weighed.kg, scale_step_kg * UNIFORM, "weighed")
        elif sash.head in ("segmental", "round"):
            ledger.notes.append(note("mass-unknown", head=sash.head))
        else:
            parts[number] = parts_of(place, sash, ledger)
    for number, found in zip(parts, for_each(list(parts.values()), _reckon), strict=True):
        answers[number] = _settled(found, sashes[number][2])
    return answers


def _settled(found: _Estimate, ledger: Ledger) -> SashMass:
    kg, deviation_kg = float(found.kg), float(found.deviation_kg)
    if math.isnan(kg):
        ledger.notes.append(note("no-room-for-glass"))
        return UNKNOWN
    words = ledger.words
    ledger.notes.append(note("estimated", mass=words.mass(kg), spread=words.mass(deviation_kg)))
    return SashMass(kg, deviation_kg, "estimated")


def _reckon(parts: Parts) -> _Estimate:
    deviations = {
        name: deviation
        for name, deviation in zip(mass.Sash._fields, parts.deviations, strict=True)
        if not (isinstance(deviation, float) and deviation == 0.0)
    }
    width, height = mass.pane_sight_mm(parts.centre)
    possible = both(width > 0.0, height > 0.0)
    whole = mass.breakdown(parts.centre).whole
    return _Estimate(
        kg=choose(possible, whole, math.nan),
        deviation_kg=choose(possible, mass.spread_kg(parts.centre, deviations), math.nan),
    )
