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
    kg: float
    deviation_kg: float


DOUBTFUL_AT = 3.0
"""A weighing further from the estimate than so many of its standard deviations is questioned."""

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
    parts: dict[int, Parts] = {}
    for number, (place, sash, ledger) in enumerate(sashes):
        if sash.head in ("segmental", "round"):
            if sash.weighed is None:
                ledger.notes.append(note("mass-unknown", head=sash.head))
        else:
            silent = ledger if sash.weighed is None else ledger._replace(notes=[])
            parts[number] = parts_of(place, sash, silent)
    reckoned = dict(zip(parts, for_each(list(parts.values()), _reckon), strict=True))
    return [
        _settled(sash, reckoned.get(number), scale_step_kg * UNIFORM, ledger)
        for number, (_, sash, ledger) in enumerate(sashes)
    ]


def _settled(sash: Sash, found: _Estimate | None, scale_sd_kg: float, ledger: Ledger) -> SashMass:
    """A weighing wins; where it is far from what its parts come to, that is a caution."""
    words = ledger.words
    if sash.weighed is not None:
        weighed = sash.weighed.kg
        if found and abs(weighed - found.kg) > DOUBTFUL_AT * found.deviation_kg:
            spoken = {"weighed": words.mass(weighed), "parts": words.mass(found.kg)}
            ledger.notes.append(note("weighing-odd", **spoken))
        return SashMass(weighed, scale_sd_kg, "weighed")
    if found is None:
        return UNKNOWN
    if math.isnan(found.kg):
        ledger.notes.append(note("no-room-for-glass"))
        return UNKNOWN
    mass, spread = words.mass(found.kg), words.mass(found.deviation_kg)
    ledger.notes.append(note("estimated", mass=mass, spread=spread))
    return SashMass(found.kg, found.deviation_kg, "estimated")


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
        kg=choose(possible, whole, math.nan),  # type: ignore[arg-type] # columns, while it is one
        deviation_kg=choose(possible, mass.spread_kg(parts.centre, deviations), math.nan),  # type: ignore[arg-type]
    )
