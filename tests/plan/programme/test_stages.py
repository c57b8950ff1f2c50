"""Which stages the work on a window goes through."""

from __future__ import annotations

import pytest

from evenhung.plan.programme.stages import PHASES, Waits, stages_of
from evenhung.plan.work import UNITS, Work


def stages(*pieces):
    work = [
        Work(operation=operation, window="W1", part=part, quantity=1.0, why="")
        for operation, part in pieces
    ]
    found = stages_of(work, dict.fromkeys(UNITS, 0.5), Waits(putty=7, paint=1), coats=2)
    return [(one.name, one.slots, one.wait, one.at_bench) for one in found]


def test_every_operation_has_its_phase():
    assert set(PHASES) == set(UNITS)


@pytest.mark.parametrize(
    "piece",
    [("renew a bead", "staff bead left"), ("splice", "sill"), ("re-cord a side", "lower left")],
    ids=lambda piece: piece[0],
)
def test_what_needs_no_bench_is_done_in_one_visit(piece):
    found = stages(("protect a room", "room"), piece)
    assert found == [("in place", 2, 0, False)]


def test_a_sash_goes_to_the_bench_and_waits_for_its_putty():
    found = stages(
        ("take out a sash", "lower"),
        ("re-bed a pane", "lower pane"),
        ("prime and paint", "lower"),
        ("refit a sash", "lower"),
    )
    assert found == [
        ("take out", 1, 0, False),
        ("bench", 1, 7, True),
        ("coat 1", 1, 1, True),
        ("coat 2", 1, 1, True),
        ("refit", 1, 0, False),
    ]


def test_a_frame_is_repaired_where_it_stands_and_takes_no_bench():
    found = stages(
        ("take out a sash", "lower"),
        ("splice", "sill"),
        ("splice", "lower bottom rail"),
        ("prime and paint", "lower"),
        ("refit a sash", "lower"),
    )
    assert [(name, at_bench) for name, _slots, _wait, at_bench in found] == [
        ("take out", False),
        ("frame", False),
        ("bench", True),
        ("coat 1", True),
        ("coat 2", True),
        ("refit", False),
    ]
