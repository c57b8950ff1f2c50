"""The whole job on a house: the work of its hang and of its overhaul, each piece of it once."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.frame import SIDES
from evenhung.plan.hanging_work import hanging_work
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.work import UNITS, Work

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.plan.house import HousePlan, SashPlan, WindowPlan
    from evenhung.plan.overhaul import Overhaul
    from evenhung.plan.work import Operation

IN_ORDER = {operation: number for number, operation in enumerate(UNITS)}
"""Where an operation comes in the work on one window."""


class Job(NamedTuple):
    """All that is done to a house."""

    plan: HousePlan
    overhaul: Overhaul | None
    """None where nothing was found that asks for one."""
    work: tuple[Work, ...]
    """Window by window in the order of the survey, and in the order it is done."""


def job_of(plan: HousePlan) -> Job:
    """Give the whole job on a house.

    Parameters
    ----------
    plan
        The plan of the house.

    Returns
    -------
    Job
        An operation that both the hang and a repair ask for, on the same part, is there once, for
        both reasons. A sash that comes out is hung on new cord, refitted and proved.
    """
    overhaul = overhaul_of(plan)
    asked = hanging_work(plan)
    if overhaul is not None:
        asked += [work for window in overhaul.windows for work in window.work]
    by_window: dict[str, list[Work]] = {window.window.tag: [] for window in plan.windows}
    for one in asked:
        by_window[one.window].append(one)
    work = [
        one for window in plan.windows for one in _on_window(window, by_window[window.window.tag])
    ]
    return Job(plan, overhaul, tuple(work))


def _on_window(window: WindowPlan, asked: Iterable[Work]) -> list[Work]:
    work = _once(asked)
    if not work:
        return []
    work += _in_the_way(window, work)
    return sorted(
        _once([*work, *_about_what_is_out(window, work)]), key=lambda one: IN_ORDER[one.operation]
    )


def _once(work: Iterable[Work]) -> list[Work]:
    """Give each operation on a part once: as much of it as any reason asks for, for all of them."""
    found: dict[tuple[str, str], Work] = {}
    for one in work:
        known = found.get((one.operation, one.part))
        if known is not None:
            reasons = "; ".join(dict.fromkeys([*known.why.split("; "), *one.why.split("; ")]))
            most = max(known.quantity, one.quantity)
            one = _of(one.operation, one.window, one.part, reasons, most)  # noqa: PLW2901 - the same piece
        found[one.operation, one.part] = one
    return list(found.values())


def _in_the_way(window: WindowPlan, work: Iterable[Work]) -> Iterator[Work]:
    """Take out the lower sash for the upper one: it stands before it."""
    out = {one.part for one in work if one.operation == "take out a sash"}
    tag, lower = window.window.tag, window.lower
    if "upper" in out and "lower" not in out and lower is not None and lower.sash.is_running:
        yield _of("take out a sash", tag, "lower", "it stands before the upper sash")


def _about_what_is_out(window: WindowPlan, work: Iterable[Work]) -> Iterator[Work]:
    """Give what goes with taking a sash out, whatever it is taken out for."""
    tag = window.window.tag
    yield _of("protect a room", tag, "room", "before a bead is touched")
    for one in [one for one in work if one.operation == "take out a sash"]:
        sash: SashPlan | None = getattr(window, one.part)
        if sash is None:
            continue
        yield _of("refit a sash", tag, one.part, one.why)
        yield _of("prove a sash", tag, one.part, "run to both ends and read the spring balance")
        for side in SIDES:
            if sash.sash.is_running and sash.proposal is not None:
                reason = "a sash that is out is hung on new cord"
                yield _of("re-cord a side", tag, f"{one.part} {side}", reason)


def _of(operation: Operation, window: str, part: str, why: str, quantity: float = 1.0) -> Work:
    return Work(operation=operation, window=window, part=part, quantity=quantity, why=why)
