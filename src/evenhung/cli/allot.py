"""``evenhung allot``: the best use of every weight in a house."""

from __future__ import annotations

import json
import os
import signal
import sys
import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING, Annotated, Optional

import typer

from evenhung.cli.files import survey_in
from evenhung.cli.options import AsJson, SurveyFile, Units, number_from
from evenhung.plan import plan_house

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from types import FrameType

    from evenhung.allot.watch import Progress
    from evenhung.plan import HousePlan
    from evenhung.plan.allotment import HouseAllotment
    from evenhung.quantities import System

EXAMPLES = """\b
Examples:
  evenhung allot house.toml
  evenhung allot house.toml --seconds 30
  evenhung allot house.json --json > allotment.json
"""


def allot(
    survey: SurveyFile,
    seconds: Annotated[
        Optional[float],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            metavar="SECONDS",
            parser=number_from(0.0),
            help="Time allowed; unset, a set effort: the same answer always.",
        ),
    ] = None,
    units: Units = None,
    as_json: AsJson = False,
) -> None:
    """Allot all the weights of a house to its sashes.

    Which hangs where, what to add, make and buy, and in what order to move them. Nothing that is
    decided or done already is changed. Progress goes to standard error; Ctrl-C
    gives the best answer so far, with how far it may be from the best there is.
    """
    found = allotted(plan_house(survey_in(survey), shown_in=units), seconds)
    if as_json:
        from evenhung.plan.allotment import allotment_document  # the solver is dear to load

        _print_json(allotment_document(found))
    else:
        _print_lines(found)


def show_with_plan(plan: HousePlan, *, as_json: bool) -> None:
    """Print a plan whose sashes hang on what is allotted to them."""
    found = allotted(plan, None)
    if as_json:
        from evenhung.plan.allotment import allotted_plan_document  # the solver is dear to load

        _print_json(allotted_plan_document(found))
    else:
        from evenhung.cli.lines import plan_lines  # not needed for JSON
        from evenhung.plan.allotment.applied import on_what_is_allotted

        now = on_what_is_allotted(plan, found)
        for sash in plan.sashes():
            sash.proposal = None  # what each would hang on by itself is not what is done
        print("as found, each sash by itself:")
        print("\n".join(plan_lines(plan, now=now)))
        print("\nas allotted, the house as one:")
        _print_lines(found)


def planned(survey: str, units: System | None, *, is_allotted: bool) -> HousePlan:
    """Plan a house on its weights as found, or where it is asked for, on the best use of them."""
    return plan_and_allotment(survey, units, is_allotted=is_allotted)[0]


def plan_and_allotment(
    survey: str, units: System | None, *, is_allotted: bool
) -> tuple[HousePlan, HouseAllotment | None]:
    """Plan a house as `planned` does, and give the allotment that it is planned on, if any."""
    plan = plan_house(survey_in(survey), shown_in=units)
    if not is_allotted:
        return plan, None
    from evenhung.plan.allotment.applied import on_what_is_allotted

    allotment = allotted(plan, None)
    return on_what_is_allotted(plan, allotment), allotment


def allotted(plan: HousePlan, seconds: float | None) -> HouseAllotment:
    """Allot the weights of a house under a watch: Ctrl-C stops it, progress is told."""
    from evenhung.allot.watch import Watch  # the solver is dear to load
    from evenhung.plan.allotment import allot_house

    with _stopping_at_interrupt() as is_stopped, _solver_kept_off_our_output():
        return allot_house(plan, Watch(seconds, is_stopped, Teller().tell))


@contextmanager
def _stopping_at_interrupt() -> Iterator[Callable[[], bool]]:
    """Let the first Ctrl-C ask for a stop, and a second one interrupt as ever."""
    stopped = threading.Event()
    before = signal.getsignal(signal.SIGINT)

    def stop(_number: int, _frame: FrameType | None) -> None:
        stopped.set()
        signal.signal(signal.SIGINT, before)

    signal.signal(signal.SIGINT, stop)
    try:
        yield stopped.is_set
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def _solver_kept_off_our_output() -> Iterator[None]:
    """Send what compiled code prints to standard error: some releases of the solver let a line out.

    Python's own prints go where they always do.
    """
    try:
        ours = os.dup(1)
    except OSError:  # there is no standard output to keep clean
        yield
        return
    try:
        os.dup2(2, 1)
        yield
    finally:
        os.dup2(ours, 1)
        os.close(ours)


class Teller:
    """Tells of progress on standard error, a line a second at most, where it takes that long."""

    def __init__(self) -> None:
        self._last = 1.0

    def tell(self, progress: Progress) -> None:
        """Print one line."""
        if progress.cost is None or progress.bound is None or progress.seconds - self._last < 1.0:
            return
        self._last = progress.seconds
        gap = 100.0 * (progress.cost - progress.bound) / max(1.0, abs(progress.cost))
        print(
            f"{progress.seconds:6.0f} s: within {max(0.0, gap):.2f} % of the best there can be",
            file=sys.stderr,
        )


def _print_json(document: object) -> None:
    print(json.dumps(document, ensure_ascii=False, allow_nan=False))


def _print_lines(found: HouseAllotment) -> None:
    from evenhung.cli.allotment_lines import allotment_lines  # not needed for JSON

    print("\n".join(allotment_lines(found)))
