"""Paint for what is painted, of a window and of a house: area by coats over coverage."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import coating
from evenhung.plan.assumed import assumed
from evenhung.plan.repair.work import work_on

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.plan.repair.house import WindowRepair

COVERAGES = ("primer", "oil paint, new wood")
"""Rows of the reference that one coat is reckoned by: the range between them is shown."""


class Paint(NamedTuple):
    """Paint for all that is painted."""

    area_m2: float
    coats: float
    least_l: float
    """By the best coverage in print, all coats."""
    most_l: float
    """By the worst."""


def painted_in(windows: Iterable[WindowRepair]) -> Iterator[tuple[str, Paint]]:
    """Give the paint of each window that any of is painted, by its tag."""
    for window in windows:
        work = work_on(window)
        area = sum(one.quantity for one in work if one.operation == "prime and paint")
        if area > 0.0:
            yield window.window.tag, paint_for(area)


def paint_for(area_m2: float) -> Paint:
    """Give the paint for an area, all coats.

    Parameters
    ----------
    area_m2
        The area, once [m2].
    """
    coats = assumed("repair/paint/coats").value
    coverages = sorted(assumed(f"paint/{row}/coverage").value for row in COVERAGES)
    most, least = (
        float(coating.paint_l(area_m2=area_m2, coats=coats, coverage_m2_l=each))
        for each in coverages
    )
    return Paint(area_m2, coats, least, most)
