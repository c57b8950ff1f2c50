"""From the work on one window to the stages that it goes through."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias, get_args

from evenhung.allot.schedule.problem import Stage
from evenhung.plan.assumed import assumed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from evenhung.plan.work import Operation, Work
    from evenhung.survey.programme import Programme as Stated
    from evenhung.survey.programme import Wait

Phase: TypeAlias = Literal["take out", "frame", "bench", "paint", "refit"]
Guess: TypeAlias = Literal["least", "likely", "most"]

SLOT_HOURS = 0.5
"""Half an hour: what a programme counts in."""

PHASES: dict[Operation, Phase] = {
    "protect a room": "take out",
    "free a sash": "take out",
    "take out a sash": "take out",
    "strip a sash": "bench",
    "clean and ease a sash": "bench",
    "consolidate": "bench",
    "splice": "bench",
    "renew a part": "bench",
    "renew a sash": "bench",
    "re-bed a pane": "bench",
    "renew a pane": "bench",
    "prime and paint": "paint",
    "clean and ease a part": "refit",
    "overhaul a pulley": "refit",
    "renew a pulley": "refit",
    "make a pocket": "refit",
    "renew a bead": "refit",
    "draught-strip": "refit",
    "make a weight": "refit",
    "change a weight": "refit",
    "re-cord a side": "refit",
    "refit a sash": "refit",
    "prove a sash": "refit",
}
"""When each operation is done: common practice, no source."""

ON_A_FRAME: tuple[Operation, ...] = ("consolidate", "splice", "renew a part", "strip a sash")
"""What is done at the bench, but to a part of the frame where it stands."""

WITH_PUTTY: tuple[Operation, ...] = ("re-bed a pane", "renew a pane")

AT_ONCE = "in place"
"""The one stage of a window from which nothing goes to a bench."""


class Waits(NamedTuple):
    """Days that something is left alone."""

    putty: int
    """From glazing to the first coat."""
    paint: int
    """From a coat to whatever follows."""


def waits_of(stated: Stated, guess: Guess) -> Waits:
    """Give the days that putty and paint are left alone: as stated, else the reference's."""
    rows = {
        "least": ("putty/linseed/paint_after_least", "paint/recoat/days_least"),
        "likely": ("putty/linseed/paint_after", "paint/recoat/days"),
        "most": ("putty/linseed/paint_after_most", "paint/recoat/days_most"),
    }[guess]
    return Waits(*map(_days, (stated.putty_skin, stated.recoat), rows, (guess, guess)))


def _days(stated: Wait | None, row: str, guess: Guess) -> int:
    return int(assumed(row).value) if stated is None else int(getattr(stated, guess))


def stages_of(
    work: Sequence[Work], factors: Mapping[Operation, float], waits: Waits, coats: int
) -> tuple[Stage, ...]:
    """Give the stages of one window, in their order.

    Parameters
    ----------
    work
        All work on it.
    factors
        Hours to be expected for one of each operation [h].
    waits
        How long putty and paint are left alone.
    coats
        Into how many days painting is divided.
    """
    hours: dict[Phase, float] = dict.fromkeys(get_args(Phase), 0.0)
    for one in work:
        hours[_phase(one)] += factors[one.operation] * one.quantity
    if not hours["bench"] and not hours["paint"]:
        return (Stage(name=AT_ONCE, slots=_slots(sum(hours.values()))),)
    has_putty = any(one.operation in WITH_PUTTY for one in work)
    is_painted = hours["paint"] > 0.0
    stages = []
    if hours["take out"]:
        stages.append(Stage(name="take out", slots=_slots(hours["take out"])))
    if hours["frame"]:
        stages.append(Stage(name="frame", slots=_slots(hours["frame"])))
    if hours["bench"]:
        wait = waits.putty if has_putty and is_painted else 0
        slots = _slots(hours["bench"])
        stages.append(Stage(name="bench", slots=slots, wait=wait, at_bench=True))
    for coat in range(1, coats + 1 if is_painted else 1):
        slots = _slots(hours["paint"] / coats)
        stages.append(Stage(name=f"coat {coat}", slots=slots, wait=waits.paint, at_bench=True))
    if hours["refit"]:
        stages.append(Stage(name="refit", slots=_slots(hours["refit"])))
    return tuple(stages)


def _phase(work: Work) -> Phase:
    is_of_frame = not work.part.startswith(("upper", "lower"))
    return "frame" if is_of_frame and work.operation in ON_A_FRAME else PHASES[work.operation]


def _slots(hours: float) -> int:
    return max(1, math.ceil(hours / SLOT_HOURS - 1e-9))
