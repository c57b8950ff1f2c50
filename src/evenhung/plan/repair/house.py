"""The repair of a house: what was found in, what to do about it and what is kept out."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.repair.cautions import on_the_repair
from evenhung.plan.repair.diagnosis import diagnosis_of
from evenhung.plan.repair.fabric import fabric_of, of_all
from evenhung.plan.repair.sorts import sorts_of
from evenhung.plan.repair.treatment import treatment_of

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan.house import HousePlan, WindowPlan
    from evenhung.plan.repair.diagnosis import SymptomPlan
    from evenhung.plan.repair.fabric import Fabric
    from evenhung.plan.repair.piece import Sorts
    from evenhung.plan.repair.treatment import Treatment
    from evenhung.plan.words import Words
    from evenhung.survey.sash import Sash
    from evenhung.survey.window import Window


class WindowRepair(NamedTuple):
    """The repair of one window."""

    window: Window
    sorts: Sorts
    """What it is made of."""
    treatments: tuple[Treatment, ...]
    """One for each finding, in their order."""
    symptoms: tuple[SymptomPlan, ...]
    fabric: Fabric
    notes: tuple[Note, ...]

    @property
    def is_asked_for(self) -> bool:
        """True where anything was found or complained of."""
        return bool(self.treatments or self.symptoms)


class HouseRepair(NamedTuple):
    """The repair of a house."""

    words: Words
    windows: tuple[WindowRepair, ...]
    """Every window, in the order of the survey: what is not touched is kept, too."""
    fabric: Fabric


def says_anything(plan: HousePlan) -> bool:
    """Tell whether any window of a house has a finding, a symptom or a place."""
    windows = (one.window for one in plan.windows)
    return any(one.finding or one.symptom or one.place for one in windows)


def repair_house(plan: HousePlan) -> HouseRepair:
    """Give the repair of a house.

    Parameters
    ----------
    plan
        The plan of its hanging, which the signs behind a symptom are taken from.
    """
    windows = tuple(_repair_window(window, plan.words) for window in plan.windows)
    return HouseRepair(plan.words, windows, of_all([window.fabric for window in windows]))


def _repair_window(plan: WindowPlan, words: Words) -> WindowRepair:
    window = plan.window
    sorts = sorts_of(window, words)
    sashes: dict[str, Sash] = dict(window.sashes())
    treatments = tuple(
        treatment_of(one, sashes.get(one.member.place), sorts, words) for one in window.finding
    )
    plans = [sash for sash in (plan.upper, plan.lower) if sash is not None]
    symptoms = tuple(diagnosis_of(one, plans) for one in window.symptom)
    fabric = fabric_of(treatments, sorts)
    notes = tuple(on_the_repair(window, treatments, fabric, sorts, words))
    return WindowRepair(window, sorts, treatments, symptoms, fabric, notes)
