"""What was tried of one sash, beside what should come of what hangs there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.completion.hanging import reckoned_pulls
from evenhung.plan.estimate import UNIFORM
from evenhung.plan.facts import known
from evenhung.plan.readings import DOUBTFUL_AT, pull_of, told_by

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.plan.completion.hanging import Hanging, Reckoned
    from evenhung.plan.readings import Diagnosis, Pull
    from evenhung.survey.completion import Completion


class Way(NamedTuple):
    """The pull one way: as it was read, and as it was reckoned."""

    name: str
    """``raising`` or ``lowering``."""
    read: Pull | None
    """None where it was not read."""
    reckoned: Reckoned

    @property
    def over_n(self) -> float:
        """How much more it took than reckoned, for all that spread leaves open; nan if unknown."""
        return self._beyond(1.0, self.reckoned.most_n)

    @property
    def under_n(self) -> float:
        """How much less it took than reckoned, for all that spread leaves open; nan if unknown."""
        return self._beyond(-1.0, self.reckoned.least_n)

    def _beyond(self, sign: float, limit_n: float) -> float:
        if self.read is None:
            return math.nan
        beyond = sign * (self.read.n - limit_n)
        in_doubt = DOUBTFUL_AT * math.hypot(self.read.sd_n, self.reckoned.sd_n)
        return beyond if beyond > in_doubt or math.isnan(beyond) else 0.0

    @property
    def goes_by_itself(self) -> bool:
        """Whether by the balance it goes that way by itself, for all that spread leaves open."""
        return self.read is not None and self.read.n < -DOUBTFUL_AT * self.read.sd_n


class Evidence(NamedTuple):
    """All that speaks for and against one sash."""

    hanging: Hanging
    mass_sd_kg: float
    """Standard deviation of sash and pair as weighed, together."""
    seen: Mapping[str, str]
    """What it did, by the place it was let go at."""
    raising: Way
    lowering: Way
    told: Diagnosis | None
    """Excess and friction by the two pulls; None where one of them was not read."""

    @property
    def excess_kg(self) -> float:
        """The excess by the pulls where they tell it, else by weighing; nan where not known."""
        if self.told is not None and self.told.pulleys_taken_out:
            return self.told.excess_kg
        return self.hanging.hang.excess_kg

    @property
    def excess_sd_kg(self) -> float:
        """How far the excess by the pulls may be out, the cord's own mass included; nan without."""
        if self.told is None:
            return math.nan
        hang = self.hanging.hang  # at what heights the pulls were read is not known
        cord = known((hang.lowest.excess_kg - hang.highest.excess_kg) * UNIFORM) or 0.0
        return math.hypot(self.told.excess_sd_kg, cord)

    @property
    def ways(self) -> tuple[Way, Way]:
        """Both ways, raising first."""
        return self.raising, self.lowering


def evidence_of(
    tried: Completion, hanging: Hanging, *, mass_sd_kg: float, scale_sd_kg: float
) -> Evidence:
    """Put what was tried beside what was reckoned.

    Parameters
    ----------
    tried
        What was tried.
    hanging
        What the sash hangs on.
    mass_sd_kg
        Standard deviation of the mass of the sash.
    scale_sd_kg
        Standard deviation of one weighing of a weight.
    """
    raising = pull_of(tried.raising, tried.restraining)
    lowering = pull_of(tried.lowering, tried.holding)
    up, down = reckoned_pulls(hanging, mass_sd_kg=mass_sd_kg, scale_sd_kg=scale_sd_kg)
    pair = hanging.hang.pair_kg
    told = None
    if raising is not None and lowering is not None:
        told = told_by(raising, lowering, None if math.isnan(pair) else pair, hanging.inputs)
    return Evidence(
        hanging,
        math.hypot(mass_sd_kg, scale_sd_kg, scale_sd_kg),
        tried.let_go.seen(),
        Way("raising", raising, up),
        Way("lowering", lowering, down),
        told,
    )
