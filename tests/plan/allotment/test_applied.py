"""A plan on what was allotted: every sash on the pair that the allotment gives it."""

from __future__ import annotations

import pytest

from evenhung.plan import plan_house
from evenhung.plan.allotment import allot_house
from evenhung.plan.allotment.applied import key_of, on_what_is_allotted
from evenhung.plan.job import job_of
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey


@pytest.fixture(scope="module")
def demo():
    plan = plan_house(read_survey(SURVEY.read_bytes()))
    return plan, allot_house(plan)


def test_every_sash_that_is_served_hangs_on_what_it_was_given(demo):
    plan, allotment = demo
    sashes = {key_of(sash): sash for sash in on_what_is_allotted(plan, allotment).sashes()}
    assert allotment.served
    for one in allotment.served:
        assert sashes[key_of(one.asked.plan)].proposal is one.proposal


def test_what_was_found_stays_what_was_found(demo):
    plan, allotment = demo
    before, after = plan.sashes(), on_what_is_allotted(plan, allotment).sashes()
    assert [one.judgement for one in before] == [one.judgement for one in after]


def test_a_sash_that_gets_another_weight_is_worked_on(demo):
    plan, allotment = demo
    work = job_of(on_what_is_allotted(plan, allotment)).work
    out = {(one.window, one.part) for one in work if one.operation == "take out a sash"}
    changed = {key_of(one.asked.plan) for one in allotment.served if not one.proposal.keeps_both}
    assert changed
    assert changed <= out
