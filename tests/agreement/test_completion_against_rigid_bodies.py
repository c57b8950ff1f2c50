"""Completion: sashes of rigid bodies, let go and pulled in a simulation, judged by what was read.

The simulation of `test_operation_against_rigid_bodies` hangs a sash, lets it go, and reads the
slow and steady pull either way. What it did is typed into a survey, rounded to the step of a
balance, as a joiner would; the plan knows only the survey. It must find what was put in.
"""

import importlib.util
import random
import sys
from pathlib import Path

import numpy as np
import pytest

from evenhung.plan import plan_house
from evenhung.plan.completion import hanging
from evenhung.plan.completion.house import completion_of
from evenhung.survey import survey_from


def _beside(name):
    path = Path(__file__).with_name(f"{name}.py")
    spec = importlib.util.spec_from_file_location(f"beside_{name}", path)
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


bodies = _beside("test_operation_against_rigid_bodies")
MOVED_MM = 2.0


def tried(hang):
    """What a joiner would write down of a sash in the simulation, at half of its travel."""
    _, slid = bodies.simulate(hang)
    did = "stays" if abs(slid) < MOVED_MM else "drops" if slid < 0.0 else "rises"
    up, _ = bodies.simulate(hang, speed=0.05)
    down, _ = bodies.simulate(hang, speed=-0.05)
    pulls = {}
    for pull, asked, given in ((up, "raising", "restraining"), (-down, "lowering", "holding")):
        pulls[asked if pull >= 0.0 else given] = [f"{abs(round(pull))} N"]
    return {"let_go": {"shut": "stays", "half": did, "open": "stays"}, **pulls}


def judged(hang, *, pair_kg):
    """The proof of a sash that was tried so and of which a pair of such a mass was recorded."""
    weight = {"weighed": f"{pair_kg / 2} kg", "length": "300 mm", "diameter": "50 mm"}
    sash = {
        "height": "800 mm",
        "width": "850 mm",
        "cord_end": "260 mm",
        "weighed": f"{hang.sash} kg",
        "slide_friction": {"least": "3 N", "likely": "10 N", "most": "25 N"},
        "left": weight,
        "right": weight,
        "completion": tried(hang),
    }
    window = {
        "tag": "W1",
        "box": {
            "clear_width": "860 mm",
            "clear_height": "1600 mm",
            "weight_space": "1500 mm",
            "pulley_drop": "90 mm",
        },
        "pulley": {
            "wheel": f"{hang.wheel} mm",
            "axle": f"{hang.axle} mm",
            "friction": hang.mu,
            "cord_bend_pct": hang.bend_pct,
        },
        "lower": sash,
    }
    house = {"name": "Alder Row", "scale_step": "1 g", "cord": {"diameter": f"{hang.cord} mm"}}
    # what hangs is what was recorded, not what would be proposed
    hung = [
        {"what": "hung", "sash": "W1 lower", "side": side, "weight": f"W1 lower {side}"}
        for side in ("left", "right")
    ]
    document = {"form": 1, "house": house, "window": [window], "decision": hung}
    plan = plan_house(survey_from(document))
    return completion_of(plan).of(plan.windows[0].lower)


TRUE = bodies.Hang(sash=8.0, pair=7.44, slide=10.0)


def test_a_sash_that_hangs_true_is_proved_and_takes_what_was_reckoned():
    proof = judged(TRUE, pair_kg=TRUE.pair)
    assert proof.verdict == "proved"
    assert proof.reason.endswith("as reckoned")
    assert proof.notes == ()


@pytest.mark.parametrize(
    "hang",
    [
        bodies.Hang(sash=8.0, pair=7.44, slide=10.0),
        bodies.Hang(sash=8.0, pair=6.4, slide=12.0),
        bodies.Hang(sash=8.0, pair=7.44, slide=60.0),
        bodies.Hang(sash=12.0, pair=12.9, slide=4.0, mu=0.25, wheel=38.0, cord=8.0),
    ],
    ids=["true", "light pair", "stiff", "heavy pair"],
)
def test_excess_and_friction_are_found_within_what_they_may_be_out(hang):
    proof = judged(hang, pair_kg=hang.pair)
    told = proof.evidence.told
    assert abs(told.excess_kg - (hang.sash - hang.pair)) < 3 * proof.evidence.excess_sd_kg
    assert abs(told.friction_n - hang.slide) < 3 * told.friction_sd_n


def test_a_sash_that_binds_is_not_proved_though_it_stays():
    proof = judged(bodies.Hang(sash=8.0, pair=7.44, slide=60.0), pair_kg=7.44)
    assert proof.evidence.seen["half"] == "stays"
    assert proof.verdict == "not proved"
    assert "something binds, with 60 N" in proof.reason


def test_a_sash_in_waxed_runs_on_a_light_pair_drops_and_the_reason_is_the_pair():
    hang = bodies.Hang(sash=8.0, pair=6.4, slide=3.0)
    proof = judged(hang, pair_kg=hang.pair)
    assert proof.verdict == "not proved"
    assert proof.reason.startswith("drops when left half open: the pair is 1.6")
    assert not {"proof-moves-against", "proof-excess-differs"} & {one.code for one in proof.notes}


def test_a_pair_that_was_recorded_wrongly_is_noticed():
    """A weight of 800 g less than its record: staying hides it, the pulls do not."""
    hang = bodies.Hang(sash=8.0, pair=6.64, slide=20.0)
    proof = judged(hang, pair_kg=7.44)
    assert proof.evidence.seen["half"] == "stays"
    assert proof.verdict == "not proved"
    assert "proof-excess-differs" in {one.code for one in proof.notes}


DRAWS = 4_000
SPREADS = {"mass": 0.15, "scale": 0.12}


def disagreement(module):
    """Greatest share by which reckoned and drawn spreads of the two pulls differ, over allowed.

    Allowed are three standard errors of a standard deviation from that many draws, and 2 % for
    products of deviations. Masses, efficiencies and the height of the reading are drawn at random.
    """
    proof = judged(TRUE, pair_kg=TRUE.pair)
    held, draws = proof.evidence.hanging, np.random.default_rng(7)
    reckoned = module.reckoned_pulls(held, mass_sd_kg=SPREADS["mass"], scale_sd_kg=SPREADS["scale"])
    off = module.efficiency_sd(held.inputs)
    drawn = []
    for _ in range(DRAWS):
        sides = [
            side._replace(weight_kg=side.weight_kg + draws.normal(0.0, SPREADS["scale"]))
            for side in (held.inputs.left, held.inputs.right)
        ]
        both = draws.normal(0.0, off)
        left, right = (side._replace(efficiency=side.efficiency + both) for side in sides)
        mass = held.inputs.mass_kg + draws.normal(0.0, SPREADS["mass"])
        where = draws.uniform()
        hang = hanging.solve(held.inputs._replace(mass_kg=mass, left=left, right=right))
        up, down = (
            getattr(hang.lowest, way) * where + getattr(hang.highest, way) * (1.0 - where)
            for way in ("raise_n", "lower_n")
        )
        drawn.append((up, down))
    spreads = np.std(drawn, axis=0)
    allowed = 3 / (2 * DRAWS) ** 0.5 + 0.02
    return max(
        abs(way.sd_n / spread - 1) / allowed for way, spread in zip(reckoned, spreads, strict=True)
    )


def test_the_spread_of_the_pulls_that_are_reckoned():
    assert disagreement(hanging) < 1.0


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("right._replace(weight_kg=right.weight_kg + scale_sd_kg)", "right"),
        ("mass_kg=inputs.mass_kg + mass_sd_kg", "mass_kg=inputs.mass_kg"),
        ("off = efficiency_sd(inputs)", "off = 2 * efficiency_sd(inputs)"),
    ],
    ids=["one weight", "the sash is exact", "efficiency twice"],
)
def test_the_draws_notice_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(hanging, true_text, false_text)) > 1.0


def test_readings_of_a_drawn_sash_never_prove_what_drops():
    """Whatever else was read, one drop is not proved: seeds fixed."""
    draws = random.Random(3)
    for _ in range(6):
        excess = draws.uniform(1.0, 2.0)
        hang = bodies.Hang(sash=8.0, pair=8.0 - excess, slide=draws.uniform(0.5, 1.0))
        proof = judged(hang, pair_kg=hang.pair)
        assert proof.evidence.seen["half"] == "drops"
        assert proof.verdict == "not proved"
