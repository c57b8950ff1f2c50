"""The price of a house as its page shows it, kept by what it was made from.

The job on a window hangs on that window and on what is common to the house, prices left out: so
after a change of one window only its job is worked out again, and after a change of prices none is.
"""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.house import HousePlan
from evenhung.plan.job import job_of
from evenhung.plan.words import Words
from evenhung.web.plans import common_to_windows, new_house_of_one, survey_made_of, surveyed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.price import HousePrice
    from evenhung.plan.price.house import LabourLine
    from evenhung.plan.price.materials import UsedUp
    from evenhung.plan.work import Work
    from evenhung.web.plans import Surveyed
    from evenhung.web.records.latest import Standing

KEPT = 8
"""Prices that each process keeps."""

KEPT_JOBS = 4096
"""Jobs on a window that each process keeps: about 6 kB each."""

PRICED_BY = ("price", "rate", "material", "programme", "currency")
"""Tables and fields of a house that no work depends on."""

CONFIDENCES = (50, 60, 70, 80, 90, 95)
"""Chances in per cent that can be looked at."""


class Line(NamedTuple):
    """All work of one operation, as a page shows it."""

    labour: LabourLine
    windows: tuple[str, ...]
    own: int | None
    """Which of the house's own hours it goes by; None where it has none."""


class WindowJob(NamedTuple):
    """What is done to one window, and what that uses up."""

    work: tuple[Work, ...]
    used: UsedUp


def price_of(parts: Sequence[Standing], confidence_pct: float | None) -> HousePrice:
    """Give the price of a house at a confidence; kept for a while.

    Parameters
    ----------
    parts
        The parts of the house as they stand.
    confidence_pct
        Chance that the work costs no more [pct]; None takes the house's own.
    """
    return _price(surveyed(parts), without_prices(common_to_windows(parts)), confidence_pct)


def without_prices(common: str) -> str:
    """Give what is common to the windows of a house without what its work does not depend on.

    Examples
    --------
    >>> without_prices('{"form": 1, "house": {"name": "Alder Row", "currency": "GBP"}}')
    '{"form": 1, "house": {"name": "Alder Row"}}'
    """
    document = json.loads(common)
    house = {name: one for name, one in document["house"].items() if name not in PRICED_BY}
    return json.dumps({**document, "house": house})


@lru_cache(maxsize=KEPT)
def _price(parts: Surveyed, common: str, confidence_pct: float | None) -> HousePrice:
    from evenhung.plan.price import price_house  # numpy's transforms are dear to load
    from evenhung.plan.price.materials import in_order  # as above

    survey = survey_made_of(parts)
    jobs = [window_job(common, text) for key, text in parts if key.kind == "window"]
    return price_house(
        HousePlan(survey, Words(survey.house.shown_in or "metric"), (), ()),
        work=[one for job in jobs for one in job.work],
        materials=in_order(job.used for job in jobs),
        confidence_pct=confidence_pct,
    )


@lru_cache(maxsize=KEPT_JOBS)
def window_job(common: str, window: str) -> WindowJob:
    """Give what is done to a window, from what it is made from; kept for a while."""
    from evenhung.plan.price.materials import used_up_in  # numpy's transforms are dear to load

    job = job_of(new_house_of_one(common, window))
    return WindowJob(job.work, used_up_in(job))


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
