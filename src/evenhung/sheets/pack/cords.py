"""The cords of a house as the sheets have them: the take-off's, and those that must be new."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.takeoff import cords as taken_off

if TYPE_CHECKING:
    from evenhung.plan import SashPlan
    from evenhung.plan.takeoff.cords import CordLine
    from evenhung.sheets.pack.house import PackHouse


def cords_of(house: PackHouse) -> list[CordLine]:
    """Give the cords of a house, sash by sash; a sash that comes out is hung on new ones."""
    renewed = _renewed(house)
    return [
        one._replace(is_optional=one.is_optional and (one.window, one.place) not in renewed)
        for one in taken_off.cords_of(house.plan)
    ]


def may_stay(house: PackHouse, sash: SashPlan) -> bool:
    """Tell whether the cords that were found may stay."""
    return taken_off.may_stay(sash) and (sash.window.tag, sash.place) not in _renewed(house)


def _renewed(house: PackHouse) -> set[tuple[str, str]]:
    """Give the sashes whose cords the job renews, by window and place."""
    return {
        (one.window, one.part.partition(" ")[0])
        for one in house.job.work
        if one.operation == "re-cord a side"
    }
