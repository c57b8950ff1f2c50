"""The overhaul of a house beside its hanging: repair, glazing and take-off put together."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.glazing.window import glazing_of
from evenhung.plan.repair.house import repair_house, says_anything
from evenhung.plan.repair.work import work_on
from evenhung.plan.takeoff.house import take_off

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan.glazing.window import WindowGlazing
    from evenhung.plan.house import HousePlan
    from evenhung.plan.repair.house import HouseRepair, WindowRepair
    from evenhung.plan.takeoff.house import TakeOff
    from evenhung.plan.work import Work


class WindowOverhaul(NamedTuple):
    """What is done to one window, and what it rests on."""

    repair: WindowRepair
    glazing: WindowGlazing
    work: tuple[Work, ...]

    @property
    def notes(self) -> tuple[Note, ...]:
        """The notes on it, each said once."""
        return tuple(dict.fromkeys((*self.repair.notes, *self.glazing.notes)))

    @property
    def is_asked_for(self) -> bool:
        """True where anything was found of it, or there is anything to say of its opening."""
        return self.repair.is_asked_for or bool(self.glazing.guarding)


class Overhaul(NamedTuple):
    """What is done to a house beside its hanging."""

    repair: HouseRepair
    windows: tuple[WindowOverhaul, ...]
    """Every window, in the order of the survey."""
    takeoff: TakeOff


def overhaul_of(plan: HousePlan) -> Overhaul | None:
    """Give the overhaul of a house; None where no window says anything to go by."""
    return overhaul_in_full(plan) if says_anything(plan) else None


def overhaul_in_full(plan: HousePlan) -> Overhaul:
    """Give the overhaul of a house, also where nothing was found: it is hung all the same."""
    repair = repair_house(plan)
    rules = plan.survey.house.glass_rules
    glazing = [glazing_of(one, plan.words, rules=rules) for one in repair.windows]
    windows = tuple(
        WindowOverhaul(one, glass, tuple(work_on(one)))
        for one, glass in zip(repair.windows, glazing, strict=True)
    )
    return Overhaul(repair, windows, take_off(plan, repair, glazing))
