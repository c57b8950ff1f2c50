"""Operation: what a hand must do to raise and lower a sash, and whether it stays where it is put.

A wheel that turns on its axle, and a cord that bends round it, always take a little from the pull
that the weights give: they help less when the sash rises, and hold it up more when it comes down.
Both are one number, the efficiency of the pulley: the pull that leaves the wheel over the pull that
came to it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.physics.elementwise import larger

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real

STANDARD_GRAVITY_M_S2 = 9.80665
"""Standard acceleration of free fall (3rd CGPM, 1901; exact by definition)."""


def pulley_efficiency(
    *, axle_friction: Real, axle_mm: Real, wheel_mm: Real, cord_mm: Real, cord_bend_pct: Real
) -> Real:
    """Give the pull that leaves a wheel over the pull that comes to it [1].

    Parameters
    ----------
    axle_friction
        Coefficient of friction of the axle in its bearing [1].
    axle_mm
        Diameter of the axle [mm].
    wheel_mm
        Diameter of the wheel at the bottom of its groove [mm].
    cord_mm
        Diameter of the cord [mm].
    cord_bend_pct
        Pull lost in bending the cord round the wheel and straight again [pct].

    Returns
    -------
    Real
        Efficiency, 0 to 1 [1].

    Notes
    -----
    Two parallel pulls T1 > T2 load the axle with T1 + T2. Its friction, at half the axle's
    diameter, balances their difference, at the cord's radius: ``T2/T1 = (1 - rho)/(1 + rho)``,
    ``rho = mu axle/(wheel + cord)``.
    A dry axle bears at the friction angle, where sin(phi) stands for mu; below mu = 0.2 that is 2 %
    of rho.

    Examples
    --------
    >>> eta = pulley_efficiency(
    ...     axle_friction=0.15, axle_mm=8.0, wheel_mm=44.0, cord_mm=6.0, cord_bend_pct=3.0
    ... )
    >>> round(eta, 4)
    0.9245
    """
    rho = axle_friction * axle_mm / (wheel_mm + cord_mm)
    return (1.0 - rho) / (1.0 + rho) * (1.0 - cord_bend_pct / 100.0)


def seized_efficiency(*, cord_friction: Real) -> Real:
    """Give the efficiency of a wheel that does not turn, the cord sliding half round it [1].

    Parameters
    ----------
    cord_friction
        Coefficient of friction of the cord on the wheel [1].

    Returns
    -------
    Real
        Efficiency [1].

    Notes
    -----
    Euler and Eytelwein: ``T2/T1 = exp(-mu pi)`` over half a turn.

    Examples
    --------
    >>> round(seized_efficiency(cord_friction=0.3), 2)
    0.39
    """
    return math.e ** (-cord_friction * math.pi)


def raise_n(*, mass_kg: Real, pair_kg: Real, efficiency: Real, slide_n: Real) -> Real:
    """Give the force to keep a sash rising slowly [N].

    Parameters
    ----------
    mass_kg, pair_kg
        Mass of the sash, and of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].
    slide_n
        Friction of the sash in its runs, both sides together [N].

    Returns
    -------
    Real
        Upward force by hand; negative where the sash rises by itself [N].

    Notes
    -----
    ``g (W - eta C) + F``: the weights' pull reaches the sash less what the pulleys take.

    Examples
    --------
    >>> round(raise_n(mass_kg=5.0, pair_kg=4.5, efficiency=0.92, slide_n=10.0), 1)
    18.4
    """
    return STANDARD_GRAVITY_M_S2 * (mass_kg - efficiency * pair_kg) + slide_n


def lower_n(*, mass_kg: Real, pair_kg: Real, efficiency: Real, slide_n: Real) -> Real:
    """Give the force to keep a sash coming down slowly [N].

    Parameters
    ----------
    mass_kg, pair_kg
        Mass of the sash, and of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].
    slide_n
        Friction of the sash in its runs, both sides together [N].

    Returns
    -------
    Real
        Downward force by hand; negative where the sash comes down by itself [N].

    Notes
    -----
    ``g (C / eta - W) + F``: to lift its weights the sash must overcome what the pulleys take.

    Examples
    --------
    >>> round(lower_n(mass_kg=5.0, pair_kg=4.5, efficiency=0.92, slide_n=10.0), 1)
    8.9
    """
    return STANDARD_GRAVITY_M_S2 * (pair_kg / efficiency - mass_kg) + slide_n


def rise_turns_at_n(*, mass_kg: Real, pair_kg: Real, efficiency: Real) -> Real:
    """Give the slide friction above which a sash does not rise by itself [N].

    Parameters
    ----------
    mass_kg, pair_kg
        Mass of the sash, and of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].

    Returns
    -------
    Real
        Friction at which the force to raise is nought; negative where it never rises by itself [N].

    Examples
    --------
    >>> round(rise_turns_at_n(mass_kg=4.0, pair_kg=5.0, efficiency=0.92), 1)
    5.9
    """
    return -raise_n(mass_kg=mass_kg, pair_kg=pair_kg, efficiency=efficiency, slide_n=0.0)


def drop_turns_at_n(*, mass_kg: Real, pair_kg: Real, efficiency: Real) -> Real:
    """Give the slide friction above which a sash does not come down by itself [N].

    Parameters
    ----------
    mass_kg, pair_kg
        Mass of the sash, and of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].

    Returns
    -------
    Real
        Friction at which the force to lower is nought; negative where it never comes down by itself
        [N].

    Examples
    --------
    >>> round(drop_turns_at_n(mass_kg=5.0, pair_kg=4.5, efficiency=0.92), 1)
    1.1
    """
    return -lower_n(mass_kg=mass_kg, pair_kg=pair_kg, efficiency=efficiency, slide_n=0.0)


def stays_above_n(*, mass_kg: Real, pair_kg: Real, efficiency: Real) -> Real:
    """Give the slide friction above which a sash stays wherever it is put [N].

    Parameters
    ----------
    mass_kg, pair_kg
        Mass of the sash, and of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].

    Returns
    -------
    Real
        The greater of the two frictions at which it begins to move; negative where the pulleys
        alone hold it [N].

    Examples
    --------
    >>> round(stays_above_n(mass_kg=5.0, pair_kg=4.5, efficiency=0.92), 1)
    1.1
    """
    hang = {"mass_kg": mass_kg, "pair_kg": pair_kg, "efficiency": efficiency}
    return larger(rise_turns_at_n(**hang), drop_turns_at_n(**hang))


def cord_shift_kg(*, mass_per_length_kg_m: Real, travel_mm: Real) -> Real:
    """Give how much the excess changes over the travel as two cords pass from side to side [kg].

    Parameters
    ----------
    mass_per_length_kg_m
        Mass of the cord over its length [kg/m].
    travel_mm
        How far the sash runs [mm].

    Returns
    -------
    Real
        Excess with the sash at its lowest less excess at its highest [kg].

    Notes
    -----
    Each cord loses its length of travel on one side and gains it on the other: ``2 x 2 x m x t``.

    Examples
    --------
    >>> round(cord_shift_kg(mass_per_length_kg_m=0.025, travel_mm=800.0), 3)
    0.08
    """
    return 4.0 * mass_per_length_kg_m * travel_mm / 1000.0


def excess_from_readings_kg(
    *, raise_n: Real, lower_n: Real, pair_kg: Real, efficiency: Real
) -> Real:
    """Give the excess of a standing sash from what a spring balance reads [kg].

    Parameters
    ----------
    raise_n, lower_n
        Force to keep it rising, and coming down, slowly [N].
    pair_kg
        Mass of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].

    Returns
    -------
    Real
        Mass of the sash less that of its pair [kg].

    Notes
    -----
    Half the difference of the two readings, and ``C ((eta + 1/eta)/2 - 1)`` for what the pulleys
    take unevenly.

    Examples
    --------
    >>> excess = excess_from_readings_kg(
    ...     raise_n=18.433, lower_n=8.935, pair_kg=4.5, efficiency=0.92
    ... )
    >>> round(excess, 2)
    0.5
    """
    uneven = (efficiency + 1.0 / efficiency) / 2.0 - 1.0
    return (raise_n - lower_n) / (2.0 * STANDARD_GRAVITY_M_S2) + pair_kg * uneven


def slide_from_readings_n(*, raise_n: Real, lower_n: Real, pair_kg: Real, efficiency: Real) -> Real:
    """Give the friction of the sash in its runs from what a spring balance reads [N].

    Parameters
    ----------
    raise_n, lower_n
        Force to keep it rising, and coming down, slowly [N].
    pair_kg
        Mass of its two weights together [kg].
    efficiency
        Efficiency of the pulleys [1].

    Returns
    -------
    Real
        Friction of both sides together, the pulleys' share taken out [N].

    Notes
    -----
    Half the sum of the two readings, less ``g C (1/eta - eta)/2``.

    Examples
    --------
    >>> round(slide_from_readings_n(raise_n=18.433, lower_n=8.935, pair_kg=4.5, efficiency=0.92), 1)
    10.0
    """
    pulleys = STANDARD_GRAVITY_M_S2 * pair_kg * (1.0 / efficiency - efficiency) / 2.0
    return (raise_n + lower_n) / 2.0 - pulleys


def pair_from_readings_kg(*, raise_n: Real, lower_n: Real, mass_kg: Real, efficiency: Real) -> Real:
    """Give the pair that a sash of known mass hangs on, its weights still in their boxes [kg].

    Parameters
    ----------
    raise_n, lower_n
        Force to keep it rising, and coming down, slowly [N].
    mass_kg
        Mass of the sash [kg].
    efficiency
        Efficiency of the pulleys [1].

    Returns
    -------
    Real
        Mass of its two weights together [kg].

    Notes
    -----
    The difference of the two readings is ``g (2 W - C (eta + 1/eta))``; solved for C.

    Examples
    --------
    >>> round(pair_from_readings_kg(raise_n=18.433, lower_n=8.935, mass_kg=5.0, efficiency=0.92), 2)
    4.5
    """
    apart = (raise_n - lower_n) / STANDARD_GRAVITY_M_S2
    return (2.0 * mass_kg - apart) / (efficiency + 1.0 / efficiency)
