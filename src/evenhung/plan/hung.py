"""What hangs at a side by now, as the survey has it that it was hung there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from evenhung.survey.names import FoundAt, Names

if TYPE_CHECKING:
    from fractions import Fraction

    from evenhung.survey import Survey
    from evenhung.survey.decision import Decision
    from evenhung.survey.weight import BareWeight

Spot: TypeAlias = "tuple[str, str, str]"
"""Tag of the window, place of the sash, side."""


class Hung(NamedTuple):
    """A weight as it was hung."""

    kg: float
    """Make-weights counted in; nan where not known."""
    length_mm: float
    """Overall; nan where not known."""


def hung_in(survey: Survey) -> dict[Spot, Hung]:
    """Give, by place, what was hung there."""
    names = Names(survey.window, survey.weight)
    found: dict[Spot, Hung] = {}
    for decision in survey.decision:
        if decision.what != "hung" or decision.side is None:
            continue
        at, weight = names.sashes[decision.sash], _weight(survey, names, decision)
        known = weight.weighed.exact if weight is not None and weight.weighed is not None else None
        length = weight.length.mm if weight is not None and weight.length is not None else math.nan
        kg = mass_as_hung(decision, known)
        found[survey.window[at.window].tag, at.place, decision.side] = Hung(
            math.nan if kg is None else float(kg), length_as_hung_mm(decision, length)
        )
    return found


def mass_as_hung(decision: Decision, weight_kg: Fraction | None) -> Fraction | None:
    """Give the mass of a weight as it was hung; None where it is not known.

    Parameters
    ----------
    decision
        That it was hung.
    weight_kg
        The weight by itself; None where it is new or was not weighed.
    """
    if decision.weighed is not None:
        return decision.weighed.exact
    if weight_kg is None:
        return None
    return weight_kg + (decision.added.exact if decision.added else 0)


def length_as_hung_mm(decision: Decision, length_mm: float) -> float:
    """Give the length of a weight as it was hung; nan where it is not known.

    Parameters
    ----------
    decision
        That it was hung.
    length_mm
        The weight by itself; nan where it is not known.
    """
    if decision.length is not None:
        return decision.length.mm
    return math.nan if decision.added else length_mm


def _weight(survey: Survey, names: Names, decision: Decision) -> BareWeight | None:
    """Give the record of the weight that was hung; None for a new one."""
    if decision.weight is None:
        return None
    at = names.weights[decision.weight]
    if isinstance(at, FoundAt):
        weight: BareWeight = getattr(getattr(survey.window[at.window], at.place), at.side)
        return weight
    return survey.weight[at.position]
