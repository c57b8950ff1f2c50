"""The price of a house as its page shows it, kept by what it was made from."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan import plan_house
from evenhung.plan.job import job_of
from evenhung.web.plans import survey_made_of, surveyed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.job import Job
    from evenhung.plan.price import HousePrice
    from evenhung.plan.price.house import LabourLine
    from evenhung.plan.price.materials import Needed
    from evenhung.web.plans import Surveyed
    from evenhung.web.records.latest import Standing

KEPT = 8
"""Prices that each process keeps."""

KEPT_JOBS = 2
"""Jobs that each process keeps: that of 500 windows takes seconds to plan."""

CONFIDENCES = (50, 60, 70, 80, 90, 95)
"""Chances in per cent that can be looked at."""


class Line(NamedTuple):
    """All work of one operation, as a page shows it."""

    labour: LabourLine
    windows: tuple[str, ...]
    own: int | None
    """Which of the house's own hours it goes by; None where it has none."""


def price_of(parts: Sequence[Standing], confidence_pct: float | None) -> HousePrice:
    """Give the price of a house at a confidence; kept for a while.

    Parameters
    ----------
    parts
        The parts of the house as they stand.
    confidence_pct
        Chance that the work costs no more [pct]; None takes the house's own.
    """
    return _price(surveyed(parts), confidence_pct)


@lru_cache(maxsize=KEPT)
def _price(parts: Surveyed, confidence_pct: float | None) -> HousePrice:
    from evenhung.plan.price import price_house  # numpy's transforms are dear to load

    job = _job(parts)
    return price_house(
        job.plan,
        work=job.work,
        materials=used_up(job),
        confidence_pct=confidence_pct,
    )


@lru_cache(maxsize=KEPT_JOBS)
def _job(parts: Surveyed) -> Job:
    """Give all that is done to a house: what takes long, and is the same however sure one is."""
    return job_of(plan_house(survey_made_of(parts)))


def used_up(job: Job) -> list[Needed]:
    """Give the materials that a whole job uses up: hang and overhaul."""
    from evenhung.plan.price.materials import hanging_materials, overhaul_materials

    needed = hanging_materials(job.plan, job.work)
    if job.overhaul is not None:
        needed += overhaul_materials(job.overhaul)
    return needed


def lines_of(price: HousePrice) -> list[Line]:
    """Give the lines of labour, each with its windows and the own hours it goes by."""
    own = {one.operation: number for number, one in enumerate(price.plan.survey.house.rate)}
    return [
        Line(
            line,
            tuple(dict.fromkeys(one.window for one in line.work)),
            own.get(line.operation),
        )
        for line in price.labour
    ]
