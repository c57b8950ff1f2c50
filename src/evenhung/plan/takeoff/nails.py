"""The nails that hold the cords in their grooves, as far as the survey states them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed
from evenhung.plan.takeoff.cords import PER_SASH

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.house import HousePlan
    from evenhung.plan.takeoff.cords import CordLine
    from evenhung.survey.sash import Sash


class NailLine(NamedTuple):
    """The cord nails of one sash, both sides."""

    window: str
    place: str
    number: int
    is_number_assumed: bool
    """Whether only their length is stated."""
    length_mm: float | None
    """Of one; None where only their number is stated."""
    is_optional: bool
    """Whether the cords found may stay, and their nails with them."""


class Nails(NamedTuple):
    """The cord nails of a house."""

    lines: tuple[NailLine, ...]
    left_out: tuple[str, ...]
    """Sashes whose cords are nailed and of whose nails the survey states nothing."""


def nails_of(plan: HousePlan, cords: Sequence[CordLine]) -> Nails:
    """Give the nails for some cords.

    Parameters
    ----------
    plan
        The plan of their house.
    cords
        What is fixed; chains, tapes and knotted cords take none of these nails.
    """
    sashes: dict[tuple[str, str], Sash] = {
        (one.window.tag, one.place): one.sash for one in plan.sashes()
    }
    lines, left_out = [], []
    for cord in cords:
        sash = sashes[cord.window, cord.place]
        if cord.line != "cord" or sash.anchorage == "knotted":
            continue
        count, long = sash.nails.count, sash.nails.length
        if count is None and long is None:
            left_out.append(f"{cord.window} {cord.place}")
            continue
        usual = int(assumed("joinery/cord nails/per_side").value)
        lines.append(
            NailLine(
                cord.window,
                cord.place,
                PER_SASH * (usual if count is None else count),
                count is None,
                long.mm if long is not None else None,
                cord.is_optional,
            )
        )
    return Nails(tuple(lines), tuple(left_out))
