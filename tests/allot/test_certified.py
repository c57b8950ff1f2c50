"""The formal problem by size: every answer and its prices through the independent checker.

A price bound can stay below the best cost there is, however good the prices: where three sashes
contend for three weights, the prices let each be half served. The bounds here are by instance.
"""

from __future__ import annotations

import pytest

from evenhung.allot.form import problem_of
from evenhung.allot.solve import allot

BOTH = pytest.mark.parametrize("scarce", [False, True], ids=["plain", "scarce"])


@BOTH
@pytest.mark.parametrize("seed", [1, 2])
def test_10_sashes(make, certified, seed, scarce):
    instance = make(10, seed, scarce)
    answer = allot(problem_of(instance))
    assert answer.status == "optimal"
    assert certified(instance, answer) <= 0.4


@BOTH
def test_40_sashes(make, certified, scarce):
    instance = make(40, 3, scarce)
    answer = allot(problem_of(instance))
    assert answer.status == "optimal"
    assert certified(instance, answer) <= 0.2


@pytest.mark.parametrize(
    "scarce",
    [
        pytest.param(False, marks=pytest.mark.slow, id="plain"),
        pytest.param(True, marks=pytest.mark.long, id="scarce"),
    ],
)
def test_200_sashes(make, certified, scarce):
    instance = make(200, 3, scarce)
    assert certified(instance, allot(problem_of(instance), rounds=30)) <= 0.2


@pytest.mark.long
def test_1000_sashes(make, certified):
    instance = make(1000, 1)
    assert certified(instance, allot(problem_of(instance), rounds=30)) <= 0.5
