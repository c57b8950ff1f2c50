"""Spread of an estimated mass: propagation against drawing two hundred thousand sashes."""

import numpy as np
import pytest

from evenhung.physics import mass

DRAWS = 200_000

CASES = {
    "timber and glass": {"timber_kg_m3": 50.0, "glass_mm": 0.3},
    "what a tape measure leaves": {"height_mm": 2.0, "width_mm": 2.0, "thickness_mm": 1.0},
    "everything assumed": {
        "thickness_mm": 2.0,
        "stile_mm": 4.0,
        "bottom_rail_mm": 8.0,
        "bar_mm": 4.0,
        "rebate_depth_mm": 1.5,
        "moulding_area_mm2": 20.0,
        "glass_mm": 0.4,
        "edge_clearance_mm": 0.5,
        "timber_kg_m3": 75.0,
        "glass_kg_m3": 20.0,
        "putty_kg_m3": 50.0,
        "paint_mm": 0.1,
        "fittings_kg": 0.15,
    },
}


def disagreement(module):
    """Greatest share by which propagated and drawn spread differ, over what is allowed.

    Allowed are three standard errors of a standard deviation from that many draws, and half a per
    cent for the products of two deviations, which first order leaves out.
    """
    draws = np.random.default_rng(11)
    worst = 0.0
    for deviations in CASES.values():
        drawn = {
            field: draws.normal(getattr(mass.EXAMPLE, field), deviation, DRAWS)
            for field, deviation in deviations.items()
        }
        theirs = module.breakdown(mass.EXAMPLE._replace(**drawn)).whole.std()
        ours = module.spread_kg(mass.EXAMPLE, deviations)
        allowed = 3 / (2 * DRAWS) ** 0.5 + 0.005
        worst = max(worst, abs(ours / theirs - 1) / allowed)
    return worst


def test_spread():
    assert disagreement(mass) < 1.0


def test_a_spread_of_many_sashes_at_once():
    heights = np.array([600.0, 800.0, 1000.0])
    together = mass.spread_kg(mass.EXAMPLE._replace(height_mm=heights), CASES["timber and glass"])
    apart = [
        mass.spread_kg(mass.EXAMPLE._replace(height_mm=height), CASES["timber and glass"])
        for height in heights
    ]
    assert together == pytest.approx(apart)


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [("- below) / 2.0", "- below)"), ("centre - deviation}", "centre}")],
    ids=["twice", "one-sided"],
)
def test_the_draws_notice_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(mass, true_text, false_text)) > 1.0
