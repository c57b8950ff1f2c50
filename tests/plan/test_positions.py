"""Where everything is through the travel, held against the clearances of the plan itself."""

import importlib.util
import json
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenhung.plan import plan_house
from evenhung.plan.positions import Run, data_of, positions_of
from evenhung.survey import survey_from

DRAWN = Path(__file__).parents[1] / "agreement" / "drawn_surveys.py"
RUNS = ("weight_cord", "knot_top", "weight_top", "weight_foot", "top_clear", "bottom_clear")


def drawn_surveys():
    """The random surveys, which lie beside the tests of agreement: tests are no package."""
    spec = importlib.util.spec_from_file_location("drawn_surveys", DRAWN)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


Draw = drawn_surveys().Draw
seeds = st.integers(0, 10**9)
on_surveys = settings(max_examples=40, deadline=None)  # each plans a few windows


def running(survey):
    """Give the plan of every running sash of a survey with its positions."""
    for plan in plan_house(survey_from(survey)).sashes():
        positions = positions_of(plan)
        assert (positions is None) == (not plan.sash.is_running)
        if positions is not None:
            yield plan, positions


def hangings(plan, positions):
    """Give each hanging with the hang of the plan that it is drawn from."""
    yield positions.found, plan.found.inputs, plan.found.hang
    assert (positions.hung is None) == (plan.proposal is None)
    if positions.hung is not None:
        yield positions.hung, plan.proposal.inputs, plan.proposal.hang


def least(hanging, clearance, travel_mm):
    """Give the lesser clearance of the two sides; nan where one is not known."""
    runs = [getattr(side, clearance) for side in (hanging.left, hanging.right)]
    return math.nan if None in runs else min(run.at_mm(travel_mm) for run in runs)


@on_surveys
@given(seeds)
def test_clearances_at_both_ends_are_those_of_the_plan(seed):
    for plan, positions in running(Draw(seed).survey(3)):
        lowest, highest = (
            (positions.travel_mm, 0.0) if plan.place == "upper" else (0.0, positions.travel_mm)
        )
        for hanging, _, hang in hangings(plan, positions):
            if hanging.cord != "as planned":
                assert math.isnan(hang.top_clear_mm)
                assert math.isnan(hang.bottom_clear_mm)
                continue
            assert hanging.cord_mm == hang.working_mm
            tops, bottoms = hang.top_clear_mm, hang.bottom_clear_mm
            found_top = least(hanging, "top_clear", lowest)
            found_bottom = least(hanging, "bottom_clear", highest)
            assert found_top == pytest.approx(tops, abs=1e-6, nan_ok=True)
            assert found_bottom == pytest.approx(bottoms, abs=1e-6, nan_ok=True)


@on_surveys
@given(seeds, st.floats(0, 1))
def test_no_cord_is_lost_on_the_way(seed, part):
    for plan, positions in running(Draw(seed).survey(2)):
        at = part * positions.travel_mm
        for hanging, _, _ in hangings(plan, positions):
            for side in (hanging.left, hanging.right):
                if side.weight_cord is None:
                    continue
                over = side.sash_cord.at_mm(at) + side.weight_cord.at_mm(at)
                assert over + math.pi * side.radius_mm == pytest.approx(hanging.cord_mm)
                assert side.sash_cord.at_mm(at) >= -1e-6
                height = side.axle_mm - side.weight_cord.at_mm(at)
                assert height == pytest.approx(side.weight_top.at_mm(at))


@on_surveys
@given(seeds, st.floats(0, 1))
def test_the_sash_stays_in_its_frame(seed, part):
    for plan, positions in running(Draw(seed).survey(2)):
        at = part * positions.travel_mm
        assert positions.sash_top.at_mm(at) <= plan.window.box.clear_height.mm + 1e-6
        assert positions.sash_foot.at_mm(at) >= -1e-6
        tall = positions.sash_top.at_mm(at) - positions.sash_foot.at_mm(at)
        assert tall == pytest.approx(plan.sash.height.mm)
        shut = positions.sash_top if plan.place == "upper" else positions.sash_foot
        edge = plan.window.box.clear_height.mm if plan.place == "upper" else 0.0
        assert shut.at_mm(0.0) == pytest.approx(edge)


@on_surveys
@given(seeds)
def test_what_is_not_known_has_its_reason_and_the_rest_has_none(seed):
    for plan, positions in running(Draw(seed).survey(3)):
        for hanging, _, _ in hangings(plan, positions):
            for side in (hanging.left, hanging.right):
                names = (*RUNS, "weight_length_mm", "weight_across_mm")
                silent = {name for name in names if getattr(side, name) is None}
                assert silent == {one.what for one in side.unknown}
                assert all(one.reason for one in side.unknown)


@on_surveys
@given(seeds)
def test_a_weight_strikes_exactly_where_no_cord_serves_or_a_clearance_is_not_kept(seed):
    for plan, positions in running(Draw(seed).survey(3)):
        for hanging, inputs, hang in hangings(plan, positions):
            for side in (hanging.left, hanging.right):
                end = side.clear_to_mm(positions.travel_mm)
                if end is None:
                    continue
                # one length unknown, and the other too long: the plan's band is not known either
                assert hang.least_mm > hang.most_mm or math.isnan(hang.most_mm)
                assert 0.0 <= end <= positions.travel_mm
                runs = [run for run in (side.top_clear, side.bottom_clear) if run is not None]
                if end > 0.0:
                    assert min(run.at_mm(end) for run in runs) == pytest.approx(0.0, abs=1e-6)
                assert min(run.at_mm(inputs.travel_mm) for run in runs) < 0.0


@on_surveys
@given(seeds)
def test_positions_are_plain_data(seed):
    for _, positions in running(Draw(seed).survey(2)):
        data = data_of(positions)
        assert json.loads(json.dumps(data, allow_nan=False)) == data


def sash(cast, place="lower", **changes):
    plan = plan_house(survey_from(cast.survey(place, **changes))).sashes()[0]
    return positions_of(plan)


def test_a_lower_sash_opens_up_and_its_weight_comes_down(cast):
    found = sash(cast).found.left
    assert sash(cast).sash_top == Run(840.0, 1.0)
    assert found.weight_top == Run(pytest.approx(1560.0 - 37.0 - 40.0 - 40.0), -1.0)
    assert found.top_clear == Run(pytest.approx(40.0), 1.0)


def test_an_upper_sash_opens_down_and_its_weight_goes_up(cast):
    found = sash(cast, "upper").found.left
    assert sash(cast, "upper").sash_top == Run(1650.0, -1.0)
    assert found.weight_foot == Run(pytest.approx(15.0 + 55.0), 1.0)
    assert found.bottom_clear == Run(pytest.approx(55.0), 1.0)


def test_a_weight_too_long_is_shown_striking_where_it_strikes(cast):
    changes = {f"{side}__length": "720 mm" for side in ("left", "right")}
    lower = sash(cast, **changes)
    assert lower.found.cord == "shortest"
    # the knot 40 mm below the case, the foot 1443 - 720 above the sill, the box bottom at 15
    assert lower.found.left.clear_to_mm(lower.travel_mm) == pytest.approx(1443.0 - 720.0 - 15.0)
    upper = sash(cast, "upper", **changes)
    assert upper.found.cord == "longest"
    # the foot 55 mm above the box bottom, so the knot 1523 - 70 - 720 - 40 below the case
    assert upper.found.left.clear_to_mm(upper.travel_mm) == pytest.approx(1523 - 70 - 720 - 40)


def test_a_side_says_how_its_weight_is_there(cast):
    gone = sash(cast, left={"hung": "none"}, right__state="broken").found
    assert (gone.left.hangs, gone.right.hangs) == ("missing", "loose")
    assert sash(cast, left=None).found.left.hangs == "not recorded"
    assert sash(cast).found.left.hangs == "free"


def test_a_cord_end_above_the_pulley_is_the_reason(cast):
    found = sash(cast, cord_end="60 mm", top_nail="20 mm", travel="805 mm").found
    assert found.cord is None
    reasons = {one.reason for one in found.left.unknown}
    assert reasons == {"the cord's end comes above the pulley"}


def test_an_upper_sash_without_a_weights_length_says_which(cast):
    found = sash(cast, "upper", right__length=None).found
    assert found.cord is None
    assert found.left.unknown[0].reason.endswith("no length of the right")


def test_a_fixed_sash_has_no_positions(cast):
    assert sash(cast, runs="no") is None
