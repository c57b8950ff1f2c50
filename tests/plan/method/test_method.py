"""The method of a house: every operation in one place, cautions where they bite, who is asked."""

from __future__ import annotations

import copy
import tomllib
from collections import Counter
from typing import get_args

import pytest

from evenhung.plan import plan_house
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.job import job_of
from evenhung.plan.method import method_of
from evenhung.plan.method.order import ORDER
from evenhung.plan.work import Operation, Work
from evenhung.reference import keys
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

DEMO = tomllib.loads(SURVEY.read_text(encoding="utf-8"))


@pytest.fixture
def planned():
    """Give ``planned(**house)``: the plan of the demo house with fields of the house replaced."""

    def make(**house):
        document = copy.deepcopy(DEMO)
        for field in ("built", "protected"):
            document["house"].pop(field, None)
        document["house"] |= house
        return plan_house(survey_from(document))

    return make


def test_every_operation_has_one_place_and_every_hazard_a_rule():
    places = Counter(one for chapter in ORDER for one in chapter.operations)
    assert places == Counter(get_args(Operation))
    assert {hazard for chapter in ORDER for hazard in chapter.hazards} <= set(keys("hazards"))


def test_only_what_is_done_stands_in_it(planned):
    plan = planned()
    done = {one.operation for one in hanging_work(plan)}
    steps = method_of(plan, hanging_work(plan)).steps
    assert {line.partition(":")[0] for step in steps for line in step.does} == done
    assert "Strip" not in {step.title for step in steps}


def test_the_whole_job_stands_in_it_unless_work_is_handed_in(planned):
    plan = planned()
    done = {one.operation for one in job_of(plan).work}
    steps = method_of(plan).steps
    assert {line.partition(":")[0] for step in steps for line in step.does} == done


def test_cautions_bite_where_the_work_does(planned):
    plan = planned()
    strip = Work(operation="strip a sash", window="W1", part="upper", quantity=1, why="putty")
    (step,) = method_of(plan, [strip]).steps
    hazards = [risk.hazard for risk in step.risks]
    for hazard in ("Lead paint", "Asbestos putty", "Heat gun", "Heat of a gun", "Glass"):
        assert hazard in hazards
    assert all("come first" in risk.source for risk in step.risks)
    limits = next(risk.rule for risk in step.risks if risk.hazard == "Heat of a gun")
    assert "1100 °F (593 °C)" in limits
    assert "450 °C" in limits


def test_a_sash_on_one_cord_is_named(planned):
    plan = planned()
    hanging = [one for one in plan.sashes() if "one-cord" in {note.code for note in one.notes}]
    found = {risk.here for step in method_of(plan).steps for risk in step.risks}
    names = ", ".join(f"{one.window.tag} {one.place}" for one in hanging)
    assert f"hangs on one cord or none: {names}" in found


def test_the_rule_of_1978_is_for_houses_built_before(planned):
    def has_it(**house):
        steps = method_of(planned(**house)).steps
        return any("United States" in risk.hazard for step in steps for risk in step.risks)

    assert has_it()
    assert has_it(built=1977)
    assert not has_it(built=1978)


@pytest.mark.parametrize(
    ("protected", "said", "asked"),
    [
        ("yes", "The building is protected", True),
        (None, "Whether the building is protected is not recorded", True),
        ("no", None, False),
    ],
)
def test_consent_is_remembered(planned, protected, said, asked):
    method = method_of(planned(**({"protected": protected} if protected else {})))
    assert any(one.startswith(said or "?") for one in method.before) is (said is not None)
    assert any("conservation" in who for who, _ in method.asked) is asked


def test_nothing_done_has_no_steps(planned):
    assert method_of(planned(), []).steps == ()


def hazards_of(plan, operation, **more):
    fields = {"window": "W1", "part": "upper", "quantity": 1, "why": "old putty"}
    (step,) = method_of(plan, [Work(operation=operation, **{**fields, **more})]).steps
    return [risk.hazard for risk in step.risks]


def test_an_opening_is_guarded_from_the_step_that_opens_it(planned):
    found = hazards_of(planned(), "take out a sash")
    assert found.index("Falling sash") < found.index("Open by day") < found.index("Open at night")


@pytest.mark.parametrize("operation", ["strip a sash", "re-bed a pane", "renew a pane"])
def test_old_putty_is_sampled_before_anything_else_is_done_to_it(planned, operation):
    """A pane that is re-bedded in a sash that is not stripped has its putty taken out, too."""
    found = hazards_of(planned(), operation)
    assert found[0] == "Asbestos putty"
    assert {"Lead paint", "Heat gun", "Glass"} <= set(found)


def test_a_sash_that_is_hung_anew_is_no_longer_on_one_cord(planned):
    plan = planned()
    named = [
        step.title for step in method_of(plan).steps for risk in step.risks if "cord" in risk.here
    ]
    assert named == ["Free and take out"]


def test_new_glass_has_the_local_authority_asked(planned):
    plan = planned()
    pane = Work(operation="renew a pane", window="W1", part="upper", quantity=1, why="cracked")
    asked = dict(method_of(plan, [pane]).asked)
    assert "safety glass" in asked["Local authority, building"]
    assert "Local authority, building" not in dict(method_of(plan, hanging_work(plan)).asked)


def test_rags_and_resin_have_their_cautions(planned):
    assert "Oily rags" in hazards_of(planned(), "prime and paint")
    assert "Resin" in hazards_of(planned(), "consolidate")
