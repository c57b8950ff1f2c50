"""How long each operation takes: the survey's own hours, else the reference's."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import source_of
from evenhung.plan.price.three_point import ThreePoint
from evenhung.reference import look_up
from evenhung.survey.hours import Hours

if TYPE_CHECKING:
    from evenhung.plan.work import Operation
    from evenhung.survey.house import House

OWN = "this survey"
"""Source of hours that the survey states."""

EXAMPLE = "an example of Evenhung's own: put your hours in its place"


class Taken(NamedTuple):
    """The hours of one operation and where they come from."""

    hours: ThreePoint
    source: str
    is_example: bool
    """Whether any of the three is an example of ours."""


def hours_of(house: House, operation: Operation) -> Taken:
    """Give the hours of an operation in a house.

    Parameters
    ----------
    house
        Its own hours come first.
    operation
        The operation.
    """
    for rate in house.rate:
        if rate.operation == operation:
            return Taken(_three(rate.hours), OWN, is_example=False)
    rows = [look_up("labour", operation, f"hours_{which}") for which in ("least", "likely", "most")]
    published = next((row for row in rows if row.source != "ours"), None)
    if published is None:
        source = EXAMPLE
    else:
        path = f"labour/{operation}/{published.property}"
        source = f"likely: {source_of(path)}; least and most: {EXAMPLE}"
    return Taken(ThreePoint(*(row.si for row in rows)), source, is_example=True)


def _three(hours: float | Hours) -> ThreePoint:
    if isinstance(hours, Hours):
        return ThreePoint(float(hours.least), float(hours.likely), float(hours.most))
    return ThreePoint(float(hours), float(hours), float(hours))
