"""From a symptom to its causes, and the tests that tell them apart."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import entropy

from evenhung.plan import plan_house
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.repair import causes, telling
from evenhung.plan.repair.signs import _SIGNS
from evenhung.survey import survey_from
from evenhung.survey.finding import SYMPTOMS

WEIGHT = {"weighed": "4 lb 14 oz", "length": "300 mm", "diameter": "38 mm"}
SASH = {
    "height": "840 mm",
    "width": "857 mm",
    "travel": "780 mm",
    "cord_end": "260 mm",
    "weighed": "11 lb",
    "left": WEIGHT,
    "right": WEIGHT,
}
WINDOW = {
    "tag": "W1",
    "box": {
        "clear_width": "860 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
        "parting_slip": "present",
    },
    "pulley": {"wheel": "44 mm"},
}


def symptom(what, *, when=None, findings=(), box=None, pulley=None, upper=False, **sash):
    """Give the plan of one symptom of a lower sash, changed as a test needs."""
    window = {**WINDOW, "box": {**WINDOW["box"], **(box or {})}, "lower": {**SASH, **sash}}
    window |= {"pulley": {**WINDOW["pulley"], **(pulley or {})}, "finding": list(findings)}
    window |= {"upper": SASH} if upper else {}
    stated = {"what": what} if upper else {"what": what, "sash": "lower"}
    window["symptom"] = [{**stated, **({"when": when} if when else {})}]
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
    (found,) = overhaul_of(plan_house(survey_from(survey))).windows[0].repair.symptoms
    return found


def likeliest(what, **changes):
    return symptom(what, **changes).suspects[0].cause


def test_every_symptom_of_the_form_has_causes_and_tests_that_hang_together():
    assert set(causes.SYMPTOMS) == set(SYMPTOMS)
    for entry in causes.SYMPTOMS.values():
        names = [cause.name for cause in entry.causes]
        assert len(set(names)) == len(names)
        assert all(cause.sign in _SIGNS for cause in entry.causes)
        for test in entry.tests:
            assert test.yes
            assert set(test.yes) < set(names)
        patterns = {tuple(name in test.yes for test in entry.tests) for name in names}
        assert len(patterns) == len(names), "some two causes answer every test alike"


LIKELY = [
    ("drops", {"left": {**WEIGHT, "state": "broken"}}, "a cord has gone"),
    ("drops", {"findings": [{"part": "lower left cord", "seen": "broken"}]}, "a cord has gone"),
    ("drops", {"weighed": "15 lb"}, "its pair is too light"),
    ("drops", {"when": "since reglazed", "weighed": "15 lb"}, "its pair is too light"),
    (
        "drops",
        {
            "left": {**WEIGHT, "length": "700 mm"},
            "right": {**WEIGHT, "length": "700 mm"},
        },
        "a weight is caught",
    ),
    ("drifts", {"weighed": "15 lb"}, "its pair is off"),
    ("drifts", {"slide_friction": "0 N"}, "its runs are too easy"),
    ("stuck", {"when": "since it was painted", "width": "850 mm"}, "paint holds it"),
    ("stuck", {"when": "in wet weather"}, "it is swollen"),
    ("stuck", {"width": "859.5 mm"}, "it is swollen"),
    ("stuck", {"pulley": {"turns": "seized"}, "width": "850 mm"}, "a wheel is seized"),
    (
        "stuck",
        {"findings": [{"part": "lower left stile", "seen": "painted over"}], "width": "850 mm"},
        "paint holds it",
    ),
    ("stuck", {"left": {**WEIGHT, "state": "painted in"}, "width": "850 mm"}, "paint holds it"),
    (
        "rattles",
        {"findings": [{"part": "left staff bead", "seen": "worn"}]},
        "its beads stand off",
    ),
    ("rattles", {"width": "845 mm"}, "it is too narrow"),
    ("rattles", {"box": {"parting_slip": "missing"}}, "weights knock together"),
    ("rattles", {"findings": [{"part": "lower glass", "seen": "loose"}]}, "panes are loose"),
    ("racks", {"left": {**WEIGHT, "weighed": "7 lb"}}, "its weights differ"),
    (
        "racks",
        {"findings": [{"part": "lower bottom rail", "seen": "open joint"}]},
        "its joints are open",
    ),
    ("sweats", {"findings": [{"part": "lower putty", "seen": "perished"}]}, "putty lets water in"),
]


@pytest.mark.parametrize(("what", "changes", "cause"), LIKELY, ids=range(len(LIKELY)))
def test_what_the_survey_says_makes_a_cause_likely(what, changes, cause):
    assert likeliest(what, **changes) == cause


def test_stiff_readings_speak_for_a_tight_bead():
    readings = {"raising": ["90 N"], "lowering": ["80 N"]}
    found = symptom("stuck", readings=readings)
    (tight,) = [one for one in found.suspects if one.cause == "a bead is set too tight"]
    assert tight.sign.holds
    assert "friction at" in tight.sign.says


def test_readings_stand_in_where_a_weight_is_not_known():
    readings = {"raising": ["60 N"], "lowering": ["5 N"]}
    found = symptom("drops", readings=readings, left={"length": "300 mm"})
    (light,) = [one for one in found.suspects if one.cause == "its pair is too light"]
    assert light.sign.holds


def test_what_speaks_against_a_cause_makes_it_less_likely():
    found = {one.cause: one for one in symptom("racks").suspects}
    assert found["its weights differ"].sign.holds is False
    assert found["its weights differ"].share < found["a wheel is seized"].share


def test_a_fixed_sash_and_an_unweighed_one_give_no_signs_and_no_error():
    fixed = symptom("drops", runs="no")
    assert sum(one.share for one in fixed.suspects) == pytest.approx(1.0)
    unknown = symptom("racks", left={"length": "300 mm"})
    assert unknown.suspects[0].sign.holds is None


def test_a_symptom_of_the_whole_window_hears_both_sashes():
    broken = {**WEIGHT, "state": "broken"}
    assert likeliest("drops", upper=True, left=broken) == "a cord has gone"
    found = {one.cause: one for one in symptom("racks", upper=True).suspects}
    assert found["its weights differ"].sign.holds is False


def test_shares_add_up_and_tests_come_most_telling_first():
    for what in SYMPTOMS:
        found = symptom(what)
        assert sum(one.share for one in found.suspects) == pytest.approx(1.0)
        bits = [one.bits for one in found.tests]
        assert bits == sorted(bits, reverse=True)


def test_bits_told_against_entropy_by_another_library():
    """Mutual information as H(answer) - H(answer given the cause), by scipy's entropy."""
    draws = np.random.default_rng(3)
    for _ in range(200):
        count = int(draws.integers(2, 7))
        shares = dict(zip("abcdefg", draws.dirichlet(np.ones(count)).tolist(), strict=False))
        says_yes = [name for name in shares if draws.random() < 0.5]
        reliable = draws.uniform(0.5, 1.0)
        yes = sum(
            share * (reliable if name in says_yes else 1 - reliable)
            for name, share in shares.items()
        )
        told = entropy([yes, 1 - yes], base=2) - entropy([reliable, 1 - reliable], base=2)
        ours = telling.bits_told(shares, says_yes, reliable=reliable)
        assert ours == pytest.approx(told, abs=1e-9)


def test_a_test_that_answers_at_random_tells_nothing():
    assert telling.bits_told({"a": 0.5, "b": 0.5}, ["a"], reliable=0.5) == pytest.approx(0.0)
