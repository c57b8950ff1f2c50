"""Timber: how dense it is, how damp it comes to be, and how far it moves.

Specific gravity is always oven-dry mass over a volume, against water.
Three volumes are in circulation (green, at 12 %, oven-dry); the functions here start from the green
one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.physics.elementwise import smaller

if TYPE_CHECKING:
    from evenhung.physics.elementwise import Real

WATER_KG_M3 = 1000.0
"""Density of water that specific gravity refers to (Wood Handbook, FPL-GTR-190, eq. 4-12)."""

FIBRE_SATURATION_PCT = 30.0
"""Moisture content above which timber no longer swells (FPL-GTR-190, eq. 4-7)."""

SHRINKAGE_PER_GRAVITY = 0.265
"""Shrinkage in volume, green to oven-dry, over green specific gravity.

FPL-GTR-190, eq. 4-11; from memory.
"""


def specific_gravity(*, green: Real, moisture_pct: Real) -> Real:
    """Give specific gravity with the volume taken at a moisture content [1].

    Parameters
    ----------
    green
        Oven-dry mass over green volume, against water [1].
    moisture_pct
        Moisture content, of oven-dry mass [pct].

    Returns
    -------
    Real
        Oven-dry mass over the volume at that moisture, against water [1].

    Notes
    -----
    ``Gx = Gb / (1 - 0.265 Gb (1 - x/30))``; at and above 30 % the volume is the green one.

    Sources
    -------
    FPL-GTR-190 : eq. 4-9 and 4-11.

    Examples
    --------
    >>> round(specific_gravity(green=0.55, moisture_pct=12.0), 3)
    0.603
    """
    dryness = 1.0 - smaller(moisture_pct, FIBRE_SATURATION_PCT) / FIBRE_SATURATION_PCT
    return green / (1.0 - SHRINKAGE_PER_GRAVITY * green * dryness)


def density_kg_m3(*, specific_gravity: Real, moisture_pct: Real) -> Real:
    """Give density, water included [kg/m3].

    Parameters
    ----------
    specific_gravity
        Oven-dry mass over the volume at this same moisture content, against water [1].
    moisture_pct
        Moisture content, of oven-dry mass [pct].

    Returns
    -------
    Real
        Mass with its water over volume [kg/m3].

    Notes
    -----
    ``rho = 1000 Gx (1 + x/100)``.

    Sources
    -------
    FPL-GTR-190 : eq. 4-12.

    Examples
    --------
    >>> round(density_kg_m3(specific_gravity=0.40, moisture_pct=12.0))
    448
    """
    return WATER_KG_M3 * specific_gravity * (1.0 + moisture_pct / 100.0)


def green_specific_gravity(*, density_kg_m3: Real, moisture_pct: Real) -> Real:
    """Give the green specific gravity of a timber known by its density at a moisture content [1].

    Parameters
    ----------
    density_kg_m3
        Mass with its water over volume [kg/m3].
    moisture_pct
        Moisture content at which that density holds [pct].

    Returns
    -------
    Real
        Oven-dry mass over green volume, against water [1].

    Notes
    -----
    The inverse of `density_kg_m3` after `specific_gravity`.

    Sources
    -------
    FPL-GTR-190 : eq. 4-11 and 4-12, solved for the green specific gravity.

    Examples
    --------
    >>> round(green_specific_gravity(density_kg_m3=675.0, moisture_pct=12.0), 2)
    0.55
    """
    at_moisture = density_kg_m3 / (WATER_KG_M3 * (1.0 + moisture_pct / 100.0))
    dryness = 1.0 - smaller(moisture_pct, FIBRE_SATURATION_PCT) / FIBRE_SATURATION_PCT
    return at_moisture / (1.0 + SHRINKAGE_PER_GRAVITY * at_moisture * dryness)


def equilibrium_moisture_pct(*, temperature_c: Real, humidity_pct: Real) -> Real:
    """Give the moisture content timber comes to in steady air [pct].

    Parameters
    ----------
    temperature_c
        Air temperature, -1 to 60 [C].
    humidity_pct
        Relative humidity of the air, 0 to 95 [pct].

    Returns
    -------
    Real
        Moisture content, of oven-dry mass [pct].

    Notes
    -----
    The adsorption model of two hydrates with the Handbook's coefficients in degrees Celsius.
    It knows neither species nor history of the timber; read it as within about one per cent
    moisture.

    Sources
    -------
    FPL-GTR-190 : eq. 4-5 and table 4-2.
    FPL-RN-0268 : Simpson 1998, the same equation.

    Examples
    --------
    >>> round(float(equilibrium_moisture_pct(temperature_c=20.0, humidity_pct=65.0)), 1)
    12.0
    """
    t = temperature_c
    h = humidity_pct / 100.0
    w = 349.0 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * h
    hydrates = (k1 * kh + 2.0 * k1 * k2 * kh**2) / (1.0 + k1 * kh + k1 * k2 * kh**2)
    return 1800.0 / w * (kh / (1.0 - kh) + hydrates)


def change_of_width_mm(
    *, width_mm: Real, coefficient: Real, moisture_from_pct: Real, moisture_to_pct: Real
) -> Real:
    """Give how far a board's width grows as its moisture changes [mm].

    Parameters
    ----------
    width_mm
        Width across the grain at the first moisture content [mm].
    coefficient
        Dimensional change coefficient of the species, tangential or radial [1/pct].
    moisture_from_pct, moisture_to_pct
        Moisture content before and after, both between 6 and 14 [pct].

    Returns
    -------
    Real
        Growth; negative where it shrinks [mm].

    Notes
    -----
    ``dD = D C (to - from)``. Say "about" of the result: the coefficients bear no more than two
    figures.

    Sources
    -------
    FPL-GTR-190 : eq. 13-2 and table 13-5.

    Examples
    --------
    >>> grown = change_of_width_mm(
    ...     width_mm=232.0, coefficient=0.00245, moisture_from_pct=8.0, moisture_to_pct=11.0
    ... )
    >>> round(grown, 4)
    1.7052
    """
    return width_mm * coefficient * (moisture_to_pct - moisture_from_pct)
