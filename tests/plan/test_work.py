"""Each operation is counted in one unit, and every operation has one."""

from __future__ import annotations

from typing import get_args

from evenhung.plan.work import UNITS, Operation, Work
from evenhung.reference import keys


def test_every_operation_has_its_unit() -> None:
    assert list(UNITS) == list(get_args(Operation))


def test_the_labour_table_has_hours_for_each_operation_and_for_nothing_else() -> None:
    assert sorted(keys("labour")) == sorted(get_args(Operation))


def test_paint_is_counted_by_area() -> None:
    work = Work(
        operation="prime and paint", window="W1", part="lower", quantity=0.8, why="bare wood"
    )
    assert work.unit == "m2"
