"""Memory: what is reckoned beforehand is not less than what a process really takes."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from evenhung.allot.form import problem_of
from evenhung.allot.memory import ALLOWED, needed
from evenhung.allot.solve import allot
from evenhung.errors import InvalidInstance

SOLVE = """
import json, resource, sys
from evenhung.allot.form import problem_of
from evenhung.allot.solve import allot
from evenhung.allot.watch import Watch

allot(problem_of(json.load(sys.stdin)), Watch(), rounds=1)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""
UNIT = 1 if sys.platform == "darwin" else 1024
"""What the system counts memory in [B]."""


@pytest.mark.slow
@pytest.mark.parametrize(("sashes", "pairs"), [(40, 200_000), (250, 90_000)])
def test_no_more_is_taken_than_was_reckoned(make, sashes, pairs):
    instance = make(sashes, 2, True)
    command = [sys.executable, "-c", SOLVE]
    done = subprocess.run(
        command, input=json.dumps(instance), capture_output=True, text=True, check=True
    )
    taken = UNIT * int(done.stdout)
    reckoned = needed(problem_of(instance), pairs, sashes)
    assert 0.03 * reckoned < taken < reckoned


def test_twenty_thousand_sashes_fit_and_two_hundred_thousand_do_not(make):
    problem = problem_of(make(1000, 1))
    of_1000 = needed(problem, 0, 0) - needed(problem_of(make(10, 1)), 0, 0)
    assert 20 * of_1000 < ALLOWED < 200 * of_1000


def test_what_does_not_fit_is_refused_and_says_so(make):
    with pytest.raises(InvalidInstance, match=r"12 sashes and 24 weights, about \d\.\d GiB: what"):
        allot(problem_of(make(12, 1)), memory=1 << 20)


@pytest.mark.slow
def test_where_memory_is_short_prices_go_without_refinement(make, certified):
    instance = make(70, 1)
    short = needed(problem_of(instance), 70 * 61, 70)
    answer = allot(problem_of(instance), rounds=1, memory=short)
    certified(instance, answer)
    refined = allot(problem_of(instance), rounds=1)
    assert answer.price_bound <= refined.price_bound
