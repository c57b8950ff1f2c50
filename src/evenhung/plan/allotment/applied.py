"""The plan of a house once its weights are allotted: every sash on what was allotted to it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.plan.allotment.house import HouseAllotment
    from evenhung.plan.allotment.outcome import Served
    from evenhung.plan.house import HousePlan, SashPlan, WindowPlan


OF_ITS_OWN_WEIGHTS = ("made-lighter", "make-weight-length-unknown")
"""Notes on what was proposed for a sash alone, which no longer hold."""


def on_what_is_allotted(plan: HousePlan, allotment: HouseAllotment) -> HousePlan:
    """Give a plan with every sash hung on what is allotted to it.

    Parameters
    ----------
    plan
        The plan of the house on its weights as found.
    allotment
        What hangs where.

    Returns
    -------
    HousePlan
        A sash that nothing could be allotted to hangs on nothing; one that was not asked about
        stays as it was.
    """
    served = {key_of(one.asked.plan): one for one in allotment.served}
    unserved = {key_of(one.sash) for one in allotment.unserved if one.is_asked}

    def hung(sash: SashPlan | None) -> SashPlan | None:
        return _hung(sash, served, unserved)

    def window_on(window: WindowPlan) -> WindowPlan:
        return window._replace(upper=hung(window.upper), lower=hung(window.lower))

    return plan._replace(windows=tuple(window_on(window) for window in plan.windows))


def key_of(sash: SashPlan) -> tuple[str, str]:
    """Give what names a sash in its house: the tag of its window, and its place."""
    return sash.window.tag, sash.place


def _hung(
    sash: SashPlan | None,
    served: Mapping[tuple[str, str], Served],
    unserved: set[tuple[str, str]],
) -> SashPlan | None:
    if sash is None:
        return None
    if key_of(sash) not in served and key_of(sash) not in unserved:
        return sash
    notes = [note for note in sash.ledger.notes if note.code not in OF_ITS_OWN_WEIGHTS]
    proposal = served[key_of(sash)].proposal if key_of(sash) in served else None
    return replace(sash, proposal=proposal, ledger=sash.ledger._replace(notes=notes))
