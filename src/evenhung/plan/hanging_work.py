"""The work that hanging a house asks for: what is taken out, re-corded, made, refitted, proved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.frame import SIDES, is_seized
from evenhung.plan.work import Work

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.frame import Side
    from evenhung.plan.house import HousePlan, SashPlan, WindowPlan
    from evenhung.plan.proposal import HungWeight
    from evenhung.plan.work import Operation
    from evenhung.survey.weight import Weight

UNSOUND = ("frayed", "broken", "painted in")
"""States of a cord that is not hung again."""


def hanging_work(plan: HousePlan) -> list[Work]:
    """Give the work that the hang of every sash asks for, window by window.

    Parameters
    ----------
    plan
        The plan of the house.

    Returns
    -------
    list of Work
        None for a window whose sashes hang true on sound cords, or do not run.
    """
    return [one for window in plan.windows for one in _on_window(window)]


def _on_window(window: WindowPlan) -> Iterator[Work]:
    sashes = [
        one for one in (window.lower, window.upper) if one is not None and one.sash.is_running
    ]
    asked = [one for one in sashes if _reason(one)]
    if not asked:
        return
    tag = window.window.tag
    before = "before a bead is touched"
    yield Work(operation="protect a room", window=tag, part="room", quantity=1, why=before)
    upper = any(one.place == "upper" for one in asked)
    for sash in sashes:
        if sash in asked or upper:
            yield from _on_sash(sash, _reason(sash) or "it stands before the upper sash")


def _reason(sash: SashPlan) -> str:
    """Say why a sash is taken out to be hung; empty where it may stay."""
    if sash.proposal and sash.judgement.verdict in ("adjust", "rehang", "cannot run"):
        return sash.judgement.reason
    if sash.proposal and not sash.proposal.keeps_both:
        return "other weights are hung on it"
    worn = [side for side, weight in sash.sash.weights() if weight and _is_unsound(weight)]
    return f"cord {' and '.join(worn)} to be renewed" if worn else ""


def _is_unsound(weight: Weight) -> bool:
    return weight.state in UNSOUND


def _on_sash(sash: SashPlan, why: str) -> Iterator[Work]:
    """Give the work on one sash that comes out."""
    if any(weight and weight.state == "painted in" for _, weight in sash.sash.weights()):
        yield _of(sash, "free a sash", "", "a cord is painted in")
    yield _of(sash, "take out a sash", "", why)
    for side in SIDES:
        yield from _on_side(sash, side)
    yield _of(sash, "refit a sash", "", why)
    yield _of(sash, "prove a sash", "", "run to both ends and read the spring balance")


def _on_side(sash: SashPlan, side: Side) -> Iterator[Work]:
    if is_seized(sash.window, sash.sash, side):
        yield _of(sash, "overhaul a pulley", side, "the wheel is seized")
    proposal = sash.proposal
    if proposal is not None:
        hung: HungWeight = getattr(proposal, side)
        if hung.origin == "new":
            yield _of(sash, "make a weight", side, proposal.instead or "there is none to hang")
        elif hung.origin != "found":
            yield _of(sash, "change a weight", side, "another weight is hung in its place")
        elif hung.add_kg != 0.0:
            yield _of(sash, "change a weight", side, "to bring the pair to its sash")
    yield _of(sash, "re-cord a side", side, "a sash that is out is hung on new cord")


def _of(sash: SashPlan, operation: Operation, side: str, why: str) -> Work:
    part = f"{sash.place} {side}".rstrip()
    return Work(operation=operation, window=sash.window.tag, part=part, quantity=1, why=why)
