"""The form of an instance: what is wrong with it is named."""

from __future__ import annotations

import pytest

from evenhung.allot.form import problem_of
from evenhung.errors import InvalidInstance


def test_a_sash_is_read_as_it_is_written(make):
    instance = make(3, 1)
    problem = problem_of(instance)
    for read, written in zip(problem.sashes, instance["sashes"], strict=True):
        assert (read.mass, read.longest) == (written["W"], (written["Lmax"],) * 2)
    for read, written in zip(problem.weights, instance["weights"], strict=True):
        assert (read.mass, read.length) == (written["m"], written["len"])
        assert read.home == (tuple(written["home"]) if written["home"] else None)


@pytest.mark.parametrize(
    ("place", "value", "message"),
    [
        (("rules", "move"), -5, r"rules\.move: -5: a whole number from 0"),
        (("rules", "move"), 2.5, r"rules\.move: 2\.5: a whole number"),
        (("rules", "move"), True, r"rules\.move: True: a whole number"),
        (("rules", "pieces"), [[1, 2]], r"rules\.pieces: \[1, 2\]: a list of 3"),
        (("rules", "window", "top", "ideal"), [9, 1], r"top\.ideal: \[9, 1\]: the lesser first"),
        (("sashes", 1, "kind"), "side", r"sashes\[1\]\.kind: 'side': one of bottom, top"),
        (("sashes", 0, "W"), 0, r"sashes\[0\]\.W: 0: a whole number from 1"),
        (("sashes",), [], r"sashes: \[\]: at least one"),
        (("sashes",), 7, r"sashes: 7: a list"),
        (("weights", 2, "home"), [9, 0], r"weights\[2\]\.home: \(9, 0\): a sash and a side"),
        (("weights", 2), None, r"weights\[2\]: None: a table"),
    ],
    ids=lambda value: str(value)[:20],
)
def test_a_fault_is_named(make, place, value, message):
    instance = make(3, 1)
    part = instance
    for key in place[:-1]:
        part = part[key]
    part[place[-1]] = value
    with pytest.raises(InvalidInstance, match=message):
        problem_of(instance)


def test_a_missing_key_is_named(make):
    instance = make(2, 1)
    del instance["rules"]["trim"]
    with pytest.raises(InvalidInstance, match=r"rules\.trim: nothing: a value"):
        problem_of(instance)


def test_two_weights_share_no_home(make):
    instance = make(2, 1)
    instance["weights"][0]["home"] = instance["weights"][1]["home"] = [0, 0]
    with pytest.raises(InvalidInstance, match="a home of one weight only"):
        problem_of(instance)
