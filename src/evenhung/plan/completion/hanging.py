"""What a sash hangs on when it is tried, and the pull that it should then take."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.estimate import UNIFORM
from evenhung.plan.frame import SIDES
from evenhung.plan.readings import efficiency_sd
from evenhung.plan.solve import solve

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from evenhung.plan.frame import Side
    from evenhung.plan.house import Found, SashPlan
    from evenhung.plan.hung import Hung, Spot
    from evenhung.plan.inputs import SashInputs, SideInputs
    from evenhung.plan.solve import Hang


class Hanging(NamedTuple):
    """A sash on what hangs there now, on wheels that turn."""

    inputs: SashInputs
    hang: Hang
    hung_at: frozenset[Side]
    """The sides at which it is what was hung; at the others it is what is proposed."""

    @property
    def is_as_hung(self) -> bool:
        """Whether both sides are as they were hung."""
        return self.hung_at == frozenset(SIDES)


class Reckoned(NamedTuple):
    """The pull that a sash should take one way; nan is not known."""

    least_n: float
    """With the least friction in the runs."""
    likely_n: float
    most_n: float
    """With the most friction in the runs."""
    sd_n: float
    """Standard deviation of each, for all that is not friction in the runs."""


def hanging_of(sash: SashPlan, found: Found, hung: Mapping[Spot, Hung]) -> Hanging:
    """Give what a sash hangs on now.

    Parameters
    ----------
    sash
        The sash.
    found
        It as it was found.
    hung
        What was hung in the house, by place; else it is what is proposed, else what was found.
    """
    base = sash.proposal.inputs if sash.proposal else found.inputs
    left, right = (hung.get((sash.window.tag, sash.place, side)) for side in SIDES)
    inputs = base._replace(left=_with(base.left, left), right=_with(base.right, right))
    there = zip(SIDES, (left, right), strict=True)
    return Hanging(inputs, solve(inputs), frozenset(side for side, one in there if one is not None))


def _with(side: SideInputs, hung: Hung | None) -> SideInputs:
    """Give a side with what was hung there; the wheels have been freed."""
    freed = side._replace(efficiency=side.freed_efficiency)
    if hung is None:
        return freed
    return freed._replace(weight_kg=hung.kg, length_mm=hung.length_mm, piece_mm=hung.length_mm)


def reckoned_pulls(
    hanging: Hanging, *, mass_sd_kg: float, scale_sd_kg: float
) -> tuple[Reckoned, Reckoned]:
    """Give the pull that should raise a sash and the pull that should lower it.

    Parameters
    ----------
    hanging
        What it hangs on.
    mass_sd_kg
        Standard deviation of the mass of the sash.
    scale_sd_kg
        Standard deviation of one weighing of a weight.
    """
    inputs, hang = hanging.inputs, hanging.hang
    apart = [solve(one) for one in _doubted(inputs, mass_sd_kg, scale_sd_kg)]
    ends = (hang.lowest, hang.highest)
    ways = (
        (hang.raise_n, [one.raise_n for one in apart], [end.raise_n for end in ends]),
        (hang.lower_n, [one.lower_n for one in apart], [end.lower_n for end in ends]),
    )
    raising, lowering = (_reckoned(inputs, *way) for way in ways)
    return raising, lowering


def _doubted(inputs: SashInputs, mass_sd_kg: float, scale_sd_kg: float) -> Iterator[SashInputs]:
    """Give a sash with one thing after the other off by its standard deviation."""
    left, right = inputs.left, inputs.right
    yield inputs._replace(mass_kg=inputs.mass_kg + mass_sd_kg)
    yield inputs._replace(left=left._replace(weight_kg=left.weight_kg + scale_sd_kg))
    yield inputs._replace(right=right._replace(weight_kg=right.weight_kg + scale_sd_kg))
    off = efficiency_sd(inputs)  # of both pulleys together: they are alike
    yield inputs._replace(
        left=left._replace(efficiency=left.efficiency - off),
        right=right._replace(efficiency=right.efficiency - off),
    )


def _reckoned(
    inputs: SashInputs, likely_n: float, apart_n: list[float], ends_n: list[float]
) -> Reckoned:
    """At what heights it was read is not known: the cord's own mass may be on either side."""
    cord_n = (max(ends_n) - min(ends_n)) * UNIFORM
    off = [one - likely_n for one in apart_n]
    if not math.isnan(cord_n):
        off.append(cord_n)
    return Reckoned(
        likely_n - inputs.slide_likely_n + inputs.slide_least_n,
        likely_n,
        likely_n - inputs.slide_likely_n + inputs.slide_most_n,
        math.hypot(*off),
    )
