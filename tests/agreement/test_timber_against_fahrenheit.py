"""Timber: the equations against a second set of coefficients and a balance of masses."""

import numpy as np
import pytest

from evenhung.physics import timber

ALLOWED_PCT = 0.05  # the two sets were each fitted and rounded; both print the same table


def equilibrium_by_fahrenheit(temperature_c, humidity_pct):
    """Equation 4-5 of the Wood Handbook with its coefficients for degrees Fahrenheit.

    The coefficients are from memory; they reproduce the 171 printed values of table 4-2.
    """
    t = temperature_c * 9 / 5 + 32
    h = humidity_pct / 100
    w = np.polynomial.Polynomial([330, 0.452, 0.00415])(t)
    k = np.polynomial.Polynomial([0.791, 0.000463, -0.000000844])(t)
    k1 = np.polynomial.Polynomial([6.34, 0.000775, -0.0000935])(t)
    k2 = np.polynomial.Polynomial([1.09, 0.0284, -0.0000904])(t)
    dissolved = k * h / (1 - k * h)
    first, both = k1 * k * h, k1 * k2 * (k * h) ** 2
    return 1800 / w * (dissolved + (first + 2 * both) / (1 + first + both))


def density_by_balance(green, moisture_pct):
    """One cubic metre of green timber, dried: its mass with its water, over what it shrank to."""
    dry_kg = 1000 * green
    water_kg = dry_kg * moisture_pct / 100
    lost = 0.265 * green * np.clip(30 - moisture_pct, 0, None) / 30
    return (dry_kg + water_kg) / (1 - lost)


def disagreement(module):
    """Worst of moisture content and density, each over what is allowed."""
    temperature, humidity = np.meshgrid(np.arange(-1.0, 61.0), np.arange(0.0, 96.0))
    ours = module.equilibrium_moisture_pct(temperature_c=temperature, humidity_pct=humidity)
    damp = abs(ours - equilibrium_by_fahrenheit(temperature, humidity)).max() / ALLOWED_PCT
    green, moisture = np.meshgrid(np.arange(0.3, 0.8, 0.02), np.arange(0.0, 40.0))
    gravity = module.specific_gravity(green=green, moisture_pct=moisture)
    ours = module.density_kg_m3(specific_gravity=gravity, moisture_pct=moisture)
    dense = abs(ours / density_by_balance(green, moisture) - 1).max() / 1e-12
    back = module.green_specific_gravity(density_kg_m3=ours, moisture_pct=moisture)
    return max(damp, dense, abs(back / green - 1).max() / 1e-12)


def test_moisture_and_density():
    assert disagreement(timber) < 1.0


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("6.27 - 0.00938", "6.72 - 0.00938"),
        ("FIBRE_SATURATION_PCT = 30.0", "FIBRE_SATURATION_PCT = 28.0"),
        ("at_moisture / (1.0 +", "at_moisture / (1.0 -"),
    ],
    ids=["digits swapped", "saturation", "sign"],
)
def test_the_second_set_notices_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(timber, true_text, false_text)) > 1.0
