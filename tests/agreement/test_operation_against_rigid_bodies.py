"""Operation: the formulas against a rigid-body simulation in mujoco.

Sash and two weights run on slides, two wheels turn on hinges; each side of each cord ties a body to
the rim of its wheel, so that the cord does not slip. mujoco has no cord that drags its wheel round:
the two ties per wheel stand for it, and their simulated forces are the tensions.
The axle's friction is set step by step from the tensions as simulated (their sum is what the axle
bears), never from the formula. A hand that moves the sash at a slow steady speed reads the force.
"""

from dataclasses import dataclass, replace

import mujoco
import numpy as np
import pytest

from evenhung.physics import operation

STEP_S = 1e-3
TIE = 'solref="0.004 1" solimp="0.999 0.9999 0.0001"'
RUB = 'frictionloss="0.001" solreffriction="0.004 1" solimpfriction="0.9999 0.9999 0.001"'


@dataclass(frozen=True)
class Hang:
    sash: float  # kg
    pair: float  # kg
    slide: float  # N
    mu: float = 0.15
    axle: float = 8.0  # mm
    wheel: float = 44.0  # mm
    cord: float = 6.0  # mm
    bend_pct: float = 0.0


HANGS = (
    Hang(sash=5.0, pair=4.5, slide=10.0),
    Hang(sash=5.0, pair=5.6, slide=10.0),
    Hang(sash=9.0, pair=8.4, slide=0.5),
    Hang(sash=20.0, pair=19.0, slide=25.0, mu=0.4, axle=10.0),
    Hang(sash=8.0, pair=7.4, slide=6.0, bend_pct=3.0),
    Hang(sash=14.0, pair=15.0, slide=3.0, mu=0.25, wheel=38.0, cord=8.0, bend_pct=5.0),
)


def model(hang):
    radius = (hang.wheel + hang.cord) / 2000.0

    def side(name):
        return f"""
        <body><joint name="wheel {name}" type="hinge" axis="0 1 0" {RUB}/>
          <geom type="cylinder" size=".02 .01" mass=".5"/></body>
        <body><joint name="weight {name}" type="slide" axis="0 0 1"/>
          <geom type="box" size=".02 .02 .2" mass="{hang.pair / 2}"/></body>"""

    def cord(name):
        return f"""
        <fixed name="inside {name}"><joint joint="sash" coef="1"/>
          <joint joint="wheel {name}" coef="{-radius}"/></fixed>
        <fixed name="in box {name}"><joint joint="weight {name}" coef="1"/>
          <joint joint="wheel {name}" coef="{radius}"/></fixed>"""

    ties = "".join(
        f'<tendon tendon1="{part} {name}" {TIE}/>' for name in "lr" for part in ("inside", "in box")
    )
    return mujoco.MjModel.from_xml_string(f"""
    <mujoco>
      <option timestep="{STEP_S}" gravity="0 0 -9.80665" integrator="implicitfast">
        <flag contact="disable"/></option>
      <worldbody>
        <body><joint name="sash" type="slide" axis="0 0 1" {RUB}/>
          <geom type="box" size=".4 .02 .4" mass="{hang.sash}"/></body>
        {side("l")}{side("r")}
      </worldbody>
      <tendon>{cord("l")}{cord("r")}</tendon>
      <equality>{ties}</equality>
      <actuator><velocity joint="sash" kv="20000"/></actuator>
    </mujoco>""")


def simulate(hang, *, speed=None, seconds=2.0):
    """Mean upward force of the hand over the second half, N, and how far the sash has moved, mm.

    Without a speed there is no hand. The bending of the cord takes its share of the pull that comes
    to the wheel, as a moment beside the axle's.
    """
    bodies = model(hang)
    state = mujoco.MjData(bodies)
    sash = bodies.joint("sash").dofadr[0]
    wheels = [bodies.joint(f"wheel {name}").dofadr[0] for name in "lr"]
    radius = (hang.wheel + hang.cord) / 2000.0
    bodies.dof_frictionloss[sash] = hang.slide
    if speed is None:
        bodies.actuator_gainprm[:] = bodies.actuator_biasprm[:] = 0.0
    forces = []
    for _ in range(int(seconds / STEP_S)):
        state.ctrl[0] = (speed or 0.0) * min(1.0, state.time / (seconds / 4))
        mujoco.mj_step(bodies, state)
        tensions = state.efc_force[:4].reshape(2, 2)  # of each wheel: sash side, weight side
        assert (tensions > 0.0).all(), "a cord cannot push"
        rising = state.qvel[sash] > 0.0
        for wheel, (sash_side, weight_side) in zip(wheels, tensions, strict=True):
            incoming = weight_side if rising else sash_side
            on_axle = (sash_side + weight_side) * hang.mu * hang.axle / 2000.0
            in_cord = incoming * hang.bend_pct / 100.0 * radius
            bodies.dof_frictionloss[wheel] = on_axle + in_cord
        forces.append(state.actuator_force[0])
    return float(np.mean(forces[len(forces) // 2 :])), state.qpos[sash] * 1000.0


def efficiency(module, hang):
    return module.pulley_efficiency(
        axle_friction=hang.mu,
        axle_mm=hang.axle,
        wheel_mm=hang.wheel,
        cord_mm=hang.cord,
        cord_bend_pct=hang.bend_pct,
    )


def disagreement(module):
    """Greatest distance of the two forces from the simulated ones, over what is allowed.

    Allowed is a ten thousandth of the pair's pull where the cord bends freely. Where it does not,
    the formula multiplies the two losses and the simulation lets them act side by side: three
    thousandths.
    """
    apart = []
    for hang in HANGS:
        known = {
            "mass_kg": hang.sash,
            "pair_kg": hang.pair,
            "efficiency": efficiency(module, hang),
            "slide_n": hang.slide,
        }
        up, _ = simulate(hang, speed=0.05)
        down, _ = simulate(hang, speed=-0.05)
        allowed = hang.pair * 9.80665 * (0.003 if hang.bend_pct else 0.0001)
        apart.append((module.raise_n(**known) - up) / allowed)
        apart.append((module.lower_n(**known) + down) / allowed)
    return max(abs(np.array(apart)))


def test_force_to_raise_and_to_lower():
    assert disagreement(operation) < 1.0


@pytest.mark.parametrize("hang", HANGS[:4], ids=["lower", "upper", "nearly even", "worn axle"])
def test_moves_by_itself_just_below_stays_above_and_stays_just_above(hang):
    needed = operation.stays_above_n(
        mass_kg=hang.sash, pair_kg=hang.pair, efficiency=efficiency(operation, hang)
    )
    if needed > 0.0:
        _, slid = simulate(replace(hang, slide=0.9 * needed))
        assert abs(slid) > 2.0
        assert (slid < 0.0) == (hang.sash > hang.pair)
    _, stayed = simulate(replace(hang, slide=max(1.1 * needed, 0.01)))
    assert abs(stayed) < 0.1


@pytest.mark.parametrize("hang", HANGS[:4], ids=["lower", "upper", "nearly even", "worn axle"])
def test_readings_taken_in_the_simulation_give_back_what_was_put_in(hang):
    up, _ = simulate(hang, speed=0.05)
    down, _ = simulate(hang, speed=-0.05)
    readings = {"raise_n": up, "lower_n": -down, "efficiency": efficiency(operation, hang)}
    excess = operation.excess_from_readings_kg(pair_kg=hang.pair, **readings)
    assert excess == pytest.approx(hang.sash - hang.pair, abs=0.001)
    slide = operation.slide_from_readings_n(pair_kg=hang.pair, **readings)
    assert slide == pytest.approx(hang.slide, abs=0.01)
    pair = operation.pair_from_readings_kg(mass_kg=hang.sash, **readings)
    assert pair == pytest.approx(hang.pair, abs=0.001)


def test_mu_stands_for_the_sine_of_the_friction_angle_within_two_per_cent():
    """A dry axle climbs its bearing to the friction angle, where the arm is r sin(phi)."""
    for mu in (0.05, 0.1, 0.2):
        assert np.sin(np.arctan(mu)) == pytest.approx(mu, rel=0.02)


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("(1.0 - rho) / (1.0 + rho) *", "(1.0 - rho) *"),
        ("/ (wheel_mm + cord_mm)", "/ (2.0 * (wheel_mm + cord_mm))"),
        ("(mass_kg - efficiency * pair_kg) + slide_n", "(mass_kg - pair_kg) + slide_n"),
        (
            "(pair_kg / efficiency - mass_kg)",
            "(pair_kg * efficiency - mass_kg)",
        ),
    ],
    ids=["half the axle's load", "radius for diameter", "no loss rising", "loss helps lowering"],
)
def test_the_simulation_notices_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(operation, true_text, false_text)) > 1.0
