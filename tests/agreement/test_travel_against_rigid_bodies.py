"""Travel: the formulas against a rigid-body model in mujoco.

A sash on a slide and a weight on a slide hang on one cord: a spatial tendon that runs from a site
in the sash over a cylinder of the cord's radius to a site at the top of the weight, and cannot grow
longer than the working length. The sash is held at a place, the weight falls and comes to rest. The
pulley's case and the box bottom are solid, each grown by its clearance: the engine tells what
touches.
"""

from dataclasses import dataclass
from functools import partial

import mujoco
import numpy as np
import pytest

from evenhung.physics import travel

MM = 1e-3
STEP_S = 1e-3


@dataclass(frozen=True)
class Box:
    axle: float = 1560.0
    radius: float = 25.0
    bottom: float = 15.0
    case_below: float = 37.0
    pulley_clearance: float = 40.0
    bottom_clearance: float = 55.0
    knot: float = 40.0
    weight: float = 542.0
    lowest: float = 580.0
    highest: float = 1390.0


BOXES = (
    Box(),
    Box(axle=2005.0, bottom=-40.0, radius=29.0, weight=610.0, lowest=870.0, highest=1905.0),
    Box(weight=300.0, radius=20.0, knot=25.0, bottom_clearance=25.0, lowest=400.0, highest=1300.0),
)

STIFF = 'solref="0.002 1" solimp="0.99 0.999 0.0001"'
TAUT = 'solreflimit="0.002 1" solimplimit="0.999 0.9999 0.0001"'
HELD = 'solref="0.002 1" solimp="0.9999 0.9999 0.0001"'


def model(box, working):
    b = box
    case = (b.axle - b.case_below - b.pulley_clearance) * MM
    bottom = (b.bottom + b.bottom_clearance) * MM
    radius, half, knot = b.radius * MM, b.weight * MM / 2, b.knot * MM / 2
    case_at = f"{radius} 0 {case + 0.01}"
    fixed = 'contype="1" conaffinity="2"'
    hangs = 'contype="2" conaffinity="1"'
    return mujoco.MjModel.from_xml_string(f"""
    <mujoco>
      <option timestep="{STEP_S}" gravity="0 0 -9.80665" integrator="implicitfast"/>
      <default><geom {STIFF}/></default>
      <worldbody>
        <geom name="wheel" type="cylinder" size="{radius} 0.01" pos="0 0 {b.axle * MM}"
              euler="90 0 0" contype="0" conaffinity="0"/>
        <site name="above" pos="0 0 {b.axle * MM + 2 * radius}"/>
        <geom name="case" type="box" size="{radius} .02 .01" pos="{case_at}" {fixed}/>
        <geom name="bottom" type="box" size=".1 .1 .01" pos="{radius} 0 {bottom - 0.01}" {fixed}/>
        <body name="sash">
          <joint name="sash" type="slide" axis="0 0 1"/>
          <geom type="box" size=".01 .01 .01" pos="-.5 0 0" mass="5" contype="0" conaffinity="0"/>
          <site name="end" pos="{-radius} 0 0"/>
        </body>
        <body name="weight">
          <joint name="weight" type="slide" axis="0 0 1" damping="30"/>
          <geom name="iron" type="box" size=".019 .019 {half}" pos="{radius} 0 {-half}"
                mass="4.5" {hangs}/>
          <geom name="knot" type="box" size=".008 .008 {knot}" pos="{radius} 0 {knot}"
                mass=".001" {hangs}/>
          <site name="eye" pos="{radius} 0 0"/>
        </body>
      </worldbody>
      <tendon>
        <spatial limited="true" range="0 {working * MM}" {TAUT}>
          <site site="end"/><geom geom="wheel" sidesite="above"/><site site="eye"/>
        </spatial>
      </tendon>
      <equality><joint joint1="sash" {HELD}/></equality>
    </mujoco>""")


def come_to_rest(box, *, working, cord_end):
    """Height of the weight's top at rest, mm, and whether anything touches."""
    bodies = model(box, working)
    state = mujoco.MjData(bodies)
    highest = box.axle - box.case_below - box.pulley_clearance - box.knot - 0.5
    bodies.eq_data[0, 0] = cord_end * MM
    state.qpos[:] = cord_end * MM, highest * MM
    for _ in range(int(3.0 / STEP_S)):
        mujoco.mj_step(bodies, state)
    assert abs(state.qvel).max() < 1e-4, "not at rest yet"
    return state.qpos[1] / MM, state.ncon > 0


def turning_point(touches, low, high):
    """Working length between two at which touching begins or ends, to a fiftieth of a mm."""
    at_low = touches(low)
    if at_low == touches(high):
        return np.inf
    while high - low > 0.02:
        middle = (low + high) / 2
        low, high = (middle, high) if touches(middle) == at_low else (low, middle)
    return (low + high) / 2


def band(module, box):
    """Least and most working length by the formulas."""
    pulley = {"axle_mm": box.axle, "radius_mm": box.radius}
    least = module.least_working_mm(
        cord_end_lowest_mm=box.lowest,
        case_below_axle_mm=box.case_below,
        pulley_clearance_mm=box.pulley_clearance,
        knot_mm=box.knot,
        **pulley,
    )
    most = module.most_working_mm(
        cord_end_highest_mm=box.highest,
        box_bottom_mm=box.bottom,
        bottom_clearance_mm=box.bottom_clearance,
        weight_length_mm=box.weight,
        **pulley,
    )
    return least, most


def top(module, box, *, working, cord_end):
    """Height of the weight's top by the formula."""
    return module.weight_top_mm(
        axle_mm=box.axle, radius_mm=box.radius, cord_end_mm=cord_end, working_mm=working
    )


def disagreement(module):
    """Greatest distance between formulas and model over the boxes, mm."""
    apart = []
    for box in BOXES:
        least, most = band(module, box)

        def touches(working, cord_end, box=box):
            return come_to_rest(box, working=working, cord_end=cord_end)[1]

        jams = partial(touches, cord_end=box.lowest)
        bottoms_out = partial(touches, cord_end=box.highest)
        apart.append(least - turning_point(jams, least - 15.0, least + 15.0))
        apart.append(most - turning_point(bottoms_out, most - 15.0, most + 15.0))
        for cord_end in (box.lowest, box.highest):
            place = {"working": (least + most) / 2, "cord_end": cord_end}
            apart.append(top(module, box, **place) - come_to_rest(box, **place)[0])
    return max(abs(np.array(apart)))


@pytest.mark.slow
def test_where_the_weight_comes_to_and_what_it_touches():
    """Within a twentieth of a millimetre; the cord of the model gives by a few micrometres."""
    assert disagreement(travel) < 0.05


@pytest.mark.parametrize("box", BOXES, ids=["shallow", "tall", "short weight"])
def test_clearances_are_what_the_model_leaves(box):
    working = sum(band(travel, box)) / 2
    highest, _ = come_to_rest(box, working=working, cord_end=box.lowest)
    under_pulley = travel.pulley_clear_mm(
        axle_mm=box.axle,
        case_below_axle_mm=box.case_below,
        weight_top_mm=top(travel, box, working=working, cord_end=box.lowest),
        knot_mm=box.knot,
    )
    assert under_pulley == pytest.approx(box.axle - box.case_below - (highest + box.knot), abs=0.1)
    lowest, _ = come_to_rest(box, working=working, cord_end=box.highest)
    over_bottom = travel.bottom_clear_mm(
        weight_top_mm=top(travel, box, working=working, cord_end=box.highest),
        weight_length_mm=box.weight,
        box_bottom_mm=box.bottom,
    )
    assert over_bottom == pytest.approx(lowest - box.weight - box.bottom, abs=0.1)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("2.0 * axle_mm + math.pi * radius_mm - cord_end_mm", "2.0 * axle_mm - cord_end_mm"),
        ("reach + case_below_axle_mm", "reach - case_below_axle_mm"),
        ("reach - box_bottom_mm - bottom", "reach + box_bottom_mm - bottom"),
    ],
    ids=["half turn left out", "case upside down", "bottom above the sill"],
)
def test_the_model_notices_a_planted_error(planted, true_text, false_text):
    wrong = planted(travel, true_text, false_text)
    assert disagreement(wrong) > 0.1
