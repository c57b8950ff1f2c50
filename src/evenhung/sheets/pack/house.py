"""What a pack is made of: the plan of a house, on the weights allotted to it if they are."""

from __future__ import annotations

import hashlib
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.job import job_of
from evenhung.survey.writing import written_survey

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from evenhung.plan import HousePlan, WindowPlan
    from evenhung.plan.allotment import HouseAllotment
    from evenhung.plan.allotment.outcome import Served
    from evenhung.plan.job import Job
    from evenhung.plan.overhaul import WindowOverhaul
    from evenhung.plan.words import Words
    from evenhung.survey import Survey
    from evenhung.survey.window import Window

FIGURES_OF_REVISION = 8


class Edition(NamedTuple):
    """What tells one pack of a house from another: it stands on every page."""

    revision: str
    """Of the survey."""
    on: date
    paper: str
    """`a4` or `letter`."""
    address_of: Callable[[Window], str] | None = None
    """Gives the address of a window in the app; None where there is no app."""


class PackHouse(NamedTuple):
    """A house as its sheets have it."""

    plan: HousePlan
    edition: Edition
    allotment: HouseAllotment | None
    served: Mapping[tuple[str, str], Served]
    """What is allotted to a sash, by its window's tag and its place."""
    unserved: Mapping[tuple[str, str], str]
    """Why nothing is allotted to a sash."""
    job: Job
    """All that is done to it, hang and overhaul."""

    def overhaul_of(self, window: WindowPlan) -> WindowOverhaul | None:
        """Give the overhaul of a window; None where nothing was found of it."""
        windows = self.job.overhaul.windows if self.job.overhaul is not None else ()
        tag = window.window.tag
        found = next((one for one in windows if one.repair.window.tag == tag), None)
        return found if found is not None and found.is_asked_for else None

    @property
    def words(self) -> Words:
        """How quantities are written for the house."""
        return self.plan.words

    @property
    def name(self) -> str:
        """What the house is called."""
        return self.plan.survey.house.name


def pack_house(
    plan: HousePlan, edition: Edition, allotment: HouseAllotment | None = None
) -> PackHouse:
    """Gather what a pack is made of.

    Parameters
    ----------
    plan
        The plan of the house on its weights as found.
    edition
        What stands on every page.
    allotment
        Where given, every sash hangs on what is allotted to it.
    """
    if allotment is None:
        return PackHouse(plan, edition, None, {}, {}, job_of(plan))
    from evenhung.plan.allotment.applied import key_of, on_what_is_allotted

    served = {key_of(one.asked.plan): one for one in allotment.served}
    unserved = {key_of(one.sash): one.reason for one in allotment.unserved if one.is_asked}
    plan = on_what_is_allotted(plan, allotment)
    return PackHouse(plan, edition, allotment, served, unserved, job_of(plan))


def revision_of(survey: Survey) -> str:
    """Give a short name for a survey as it stands: another survey has another.

    Examples
    --------
    >>> from evenhung.survey import survey_from
    >>> revision_of(survey_from({"form": 1, "house": {"name": "Alder Row"}}))
    '55a9-4e2f'
    """
    figures = hashlib.sha256(written_survey(survey, "json")).hexdigest()[:FIGURES_OF_REVISION]
    return f"{figures[:4]}-{figures[4:]}"
