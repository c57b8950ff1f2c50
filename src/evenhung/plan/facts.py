"""What a hang comes to in yes, no and not known: what verdicts, notes and documents all read."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.solve import SLACK_MM

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.plan.inputs import SashInputs, SideInputs
    from evenhung.plan.solve import End, Hang, SideHang


class Facts(NamedTuple):
    """Facts of one sash on its weights; None is not known, or depends on the friction."""

    band_is_empty: bool
    """No cord keeps the weight clear at both ends."""
    cord_end_over_mm: float
    """How far the cord's end rises above a pulley's axle; 0 where it does not."""
    nail_short_mm: float
    """How far the top nail is too high; 0 where it is not, or is not known."""
    passes: bool | None
    """The weights go in through their pockets."""
    rests_shut: bool | None
    stays_put: bool | None


def facts_of(sash: SashInputs, hang: Hang) -> Facts:
    """Give the facts of a hang, both in floats."""
    closes = hang.drop_turns_n if sash.is_upper else hang.rise_turns_n
    return Facts(
        band_is_empty=hang.least_mm > hang.most_mm + SLACK_MM,
        cord_end_over_mm=_positive(hang.cord_end_over_mm),
        nail_short_mm=_positive(
            max_known(nail_short_mm(sash, side) for side in (hang.left, hang.right))
        ),
        passes=_all_known([side_passes(side, found) for side, found in sides(sash, hang)]),
        rests_shut=beyond(closes, sash),
        stays_put=beyond(hang.stays_above_n, sash),
    )


def sides(sash: SashInputs, hang: Hang) -> tuple[tuple[SideInputs, SideHang], ...]:
    """Give what went in and what came of each side, the left one first."""
    return (sash.left, hang.left), (sash.right, hang.right)


def short_sides(sash: SashInputs, hang: Hang) -> str:
    """Name the side whose weight no cord can serve, where the other's could be; else nothing."""
    left, right = (
        side.length_mm > out.longest_weight_mm + SLACK_MM for side, out in sides(sash, hang)
    )
    if left == right:
        return ""
    return f" on the {'left' if left else 'right'}"


def nail_short_mm(sash: SashInputs, side: SideHang) -> float:
    """Give how far the top nail is too high for one pulley; nan where it is not known."""
    return side.nail_needed_mm - sash.top_nail_mm


def side_passes(side: SideInputs, found: SideHang) -> bool | None:
    """Tell whether a weight goes in through its pocket; None where that is not known."""
    return goes_in(side, found.pocket_needed_mm)


def goes_in(side: SideInputs, pocket_needed_mm: float) -> bool | None:
    """Tell the same by the height of pocket that the weight needs."""
    rooms = (side.pocket_width_mm, side.pocket_height_mm, side.depth_mm)
    if any(at_least(room, side.across_mm) is False for room in rooms):
        return False  # too thick for one of them, whatever else is not known
    return at_least(side.pocket_height_mm, pocket_needed_mm)


def at_least(given_mm: float, needed_mm: float) -> bool | None:
    """Compare two lengths; None where either is not known."""
    if math.isnan(given_mm) or math.isnan(needed_mm):
        return None
    return given_mm >= needed_mm - SLACK_MM


def beyond(turns_n: float, sash: SashInputs) -> bool | None:
    """Tell whether the slide friction is beyond the point where the sash begins to move by itself.

    True where its least is, False where even its most is not, None where that depends or is not
    known.
    """
    if sash.slide_least_n > turns_n:
        return True
    return False if sash.slide_most_n <= turns_n else None


def drifts_at(end: End, sash: SashInputs) -> bool:
    """Tell whether a sash moves by itself at one end of its travel even with most friction."""
    spare = sash.slide_most_n - sash.slide_likely_n
    return end.raise_n + spare <= 0.0 or end.lower_n + spare <= 0.0


def known(value: float) -> float | None:
    """Give a number, or None where it is nan."""
    return None if math.isnan(value) else value


def max_known(values: Iterable[float]) -> float:
    """Give the greatest of the numbers that are known; nan where none is."""
    return max((value for value in values if not math.isnan(value)), default=math.nan)


def _positive(mm: float) -> float:
    return mm if mm > SLACK_MM else 0.0


def _all_known(answers: list[bool | None]) -> bool | None:
    if False in answers:
        return False
    return None if None in answers else True
