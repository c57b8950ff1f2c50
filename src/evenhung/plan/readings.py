"""What spring-balance readings tell of a standing window before anything is taken apart."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import operation
from evenhung.plan.assumed import assumed
from evenhung.plan.catalogue import note
from evenhung.plan.estimate import UNIFORM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.ledger import Ledger
    from evenhung.quantities import Force
    from evenhung.survey.sash import Sash

DOUBTFUL_AT = 2.0
"""Readings and weighings that differ by more than so many standard deviations disagree."""


class Pull(NamedTuple):
    """What a balance read one way, on the mean; less than nought where the sash goes by itself."""

    n: float
    sd_n: float
    """Standard deviation of the mean, the balance's step included."""


class Diagnosis(NamedTuple):
    """Excess and friction by the readings, each with its standard deviation."""

    excess_kg: float
    excess_sd_kg: float
    friction_n: float
    friction_sd_n: float
    pulleys_taken_out: bool
    """Whether the pulleys' losses are taken out; if not, friction is the total, excess biased."""


def diagnose(sash: Sash, inputs: SashInputs, mass_sd_kg: float, ledger: Ledger) -> Diagnosis | None:
    """Give what the readings on one standing sash come to; None where there are none to compare."""
    readings = sash.readings
    if readings is None:
        return None
    raising = pull_of(readings.raising, readings.restraining)
    lowering = pull_of(readings.lowering, readings.holding)
    if raising is None or lowering is None:
        return None
    pair = _pair_kg(raising.n, lowering.n, inputs, ledger)
    if pair is not None and pair < 0.0:
        ledger.notes.append(note("readings-impossible"))
        return None
    if pair is None:
        ledger.notes.append(note("readings-uncorrected"))
    result = told_by(raising, lowering, pair, inputs)
    if pair is not None:
        _compare(result, inputs, mass_sd_kg, ledger)
    return result


def pull_of(asked: Sequence[Force] | None, given: Sequence[Force] | None) -> Pull | None:
    """Give the mean pull on a sash one way; None where none was read.

    Parameters
    ----------
    asked
        Pulls that kept it going.
    given
        Where it goes by itself, pulls that held it back: they count as less than nought.
    """
    import statistics  # dear to load, and few surveys have readings

    forces = [reading.n for reading in asked or ()] + [-reading.n for reading in given or ()]
    if not forces:
        return None
    step = assumed("policy/spring balance/resolution").value * UNIFORM
    scatter = statistics.stdev(forces) if len(forces) > 1 else 0.0
    return Pull(statistics.fmean(forces), ((scatter**2 + step**2) / len(forces)) ** 0.5)


def told_by(raising: Pull, lowering: Pull, pair_kg: float | None, inputs: SashInputs) -> Diagnosis:
    """Give the excess and the friction that a pair of pulls tells.

    Parameters
    ----------
    raising, lowering
        The pull either way.
    pair_kg
        What the two weights come to; None where it is not known: the pulleys are then left in.
    inputs
        The sash, with its pulleys.
    """
    apart_sd = math.hypot(raising.sd_n, lowering.sd_n)
    excess_sd = apart_sd / (2.0 * operation.STANDARD_GRAVITY_M_S2)
    if pair_kg is None:
        found = _corrected(raising.n, lowering.n, 0.0, 1.0)
        return Diagnosis(found[0], excess_sd, found[1], apart_sd / 2.0, pulleys_taken_out=False)
    efficiency = (inputs.left.efficiency + inputs.right.efficiency) / 2.0
    found = _corrected(raising.n, lowering.n, pair_kg, efficiency)
    freer = min(1.0, efficiency + efficiency_sd(inputs))
    doubt = _corrected(raising.n, lowering.n, pair_kg, freer)
    return Diagnosis(
        excess_kg=found[0],
        excess_sd_kg=math.hypot(excess_sd, doubt[0] - found[0]),
        friction_n=found[1],
        friction_sd_n=math.hypot(apart_sd / 2.0, doubt[1] - found[1]),
        pulleys_taken_out=True,
    )


def _pair_kg(
    raising: float,
    lowering: float,
    inputs: SashInputs,
    ledger: Ledger,
) -> float | None:
    """Give the pair as weighed, else as the readings and the sash's mass put it, else None."""
    pair = inputs.left.weight_kg + inputs.right.weight_kg
    if not math.isnan(pair):
        return pair
    mass = inputs.mass_kg
    if math.isnan(mass):
        return None
    efficiency = (inputs.left.efficiency + inputs.right.efficiency) / 2.0
    pair = float(
        operation.pair_from_readings_kg(
            raise_n=raising, lower_n=lowering, mass_kg=mass, efficiency=efficiency
        )
    )
    if pair >= 0.0:
        spoken = {"pair": ledger.words.mass(pair), "mass": ledger.words.mass(mass)}
        ledger.notes.append(note("pair-from-readings", **spoken))
    return pair


def _corrected(
    raising: float, lowering: float, pair: float, efficiency: float
) -> tuple[float, float]:
    given = {"raise_n": raising, "lower_n": lowering, "pair_kg": pair, "efficiency": efficiency}
    excess = operation.excess_from_readings_kg(**given)
    return float(excess), float(operation.slide_from_readings_n(**given))


def efficiency_sd(inputs: SashInputs) -> float:
    """How far the pulleys' efficiency may be off, by the spread of axle friction and of bending."""
    bend = assumed("friction/pulley/cord_bend_pct").spread / 100.0
    ratio = assumed("friction/pulley/axle_diameter").value / (2.0 * inputs.left.radius_mm)
    return math.hypot(2.0 * ratio * assumed("friction/pulley/axle").spread, bend)


def _compare(found: Diagnosis, inputs: SashInputs, mass_sd_kg: float, ledger: Ledger) -> None:
    weighed = inputs.mass_kg - inputs.left.weight_kg - inputs.right.weight_kg
    spread = (found.excess_sd_kg**2 + mass_sd_kg**2) ** 0.5
    if abs(weighed - found.excess_kg) > DOUBTFUL_AT * spread:
        mass = ledger.words.mass
        ledger.notes.append(
            note("readings-disagree", read=mass(found.excess_kg), weighed=mass(weighed))
        )
