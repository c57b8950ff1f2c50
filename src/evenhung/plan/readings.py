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
    up = _signed_n(readings.raising, readings.restraining)
    down = _signed_n(readings.lowering, readings.holding)
    if not up or not down:
        return None
    raising, raising_sd = _mean(up)
    lowering, lowering_sd = _mean(down)
    apart_sd = (raising_sd**2 + lowering_sd**2) ** 0.5
    efficiency = (inputs.left.efficiency + inputs.right.efficiency) / 2.0
    pair = _pair_kg(raising, lowering, efficiency, inputs, ledger)
    if pair is not None and pair < 0.0:
        ledger.notes.append(note("readings-impossible"))
        return None
    excess_sd = apart_sd / (2.0 * operation.STANDARD_GRAVITY_M_S2)
    if pair is None:
        ledger.notes.append(note("readings-uncorrected"))
        plain = {"pair_kg": 0.0, "efficiency": 1.0, "raise_n": raising, "lower_n": lowering}
        return Diagnosis(
            excess_kg=float(operation.excess_from_readings_kg(**plain)),
            excess_sd_kg=excess_sd,
            friction_n=float(operation.slide_from_readings_n(**plain)),
            friction_sd_n=apart_sd / 2.0,
            pulleys_taken_out=False,
        )
    found = _corrected(raising, lowering, pair, efficiency)
    doubt = _corrected(raising, lowering, pair, min(1.0, efficiency + _efficiency_sd(inputs)))
    result = Diagnosis(
        excess_kg=found[0],
        excess_sd_kg=(excess_sd**2 + (doubt[0] - found[0]) ** 2) ** 0.5,
        friction_n=found[1],
        friction_sd_n=((apart_sd / 2.0) ** 2 + (doubt[1] - found[1]) ** 2) ** 0.5,
        pulleys_taken_out=True,
    )
    _compare(result, inputs, mass_sd_kg, ledger)
    return result


def _signed_n(asked: Sequence[Force] | None, given: Sequence[Force] | None) -> list[float]:
    """Give the pulls on a sash; what it gives where it moves by itself is less than nought."""
    return [reading.n for reading in asked or ()] + [-reading.n for reading in given or ()]


def _mean(forces: Sequence[float]) -> tuple[float, float]:
    """Give the mean of some readings and its standard deviation, the balance's step included."""
    import statistics  # dear to load, and few surveys have readings

    step = assumed("policy/spring balance/resolution").value * UNIFORM
    scatter = statistics.stdev(forces) if len(forces) > 1 else 0.0
    return statistics.fmean(forces), ((scatter**2 + step**2) / len(forces)) ** 0.5


def _pair_kg(
    raising: float,
    lowering: float,
    efficiency: float,
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


def _efficiency_sd(inputs: SashInputs) -> float:
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
