"""The cords of a house: for each sash what it hangs by, how thick, how long to cut."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.facts import known

if TYPE_CHECKING:
    from evenhung.plan.house import HousePlan, SashPlan

PER_SASH = 2

LINES = ("cord", "chain", "tape")
"""What a sash hangs by; where both sides differ, the first of these is cut for both."""


class CordLine(NamedTuple):
    """The two cords of one sash."""

    window: str
    place: str
    line: str
    """``cord``, ``chain`` or ``tape``."""
    across_mm: float
    cut_mm: float
    """Each of them; a chain or a tape without its fixings."""
    is_optional: bool
    """Whether the cords found may stay, as far as the hang goes."""


def cords_of(plan: HousePlan) -> list[CordLine]:
    """Give the cords of a house, sash by sash, in the order of the survey.

    Parameters
    ----------
    plan
        The plan of the house.

    Returns
    -------
    list of CordLine
        None for a sash whose cord cannot be given yet.
    """
    cords = []
    for sash in plan.sashes():
        proposal = sash.proposal
        if proposal is None or known(proposal.hang.cut_mm) is None:
            continue
        line, hang = line_of(sash), proposal.hang
        cords.append(
            CordLine(
                sash.window.tag,
                sash.place,
                line,
                proposal.inputs.cord_mm,
                hang.cut_mm if line == "cord" else hang.working_mm,
                may_stay(sash),
            )
        )
    return cords


def line_of(sash: SashPlan) -> str:
    """Name what a sash hangs by: cord, chain or tape."""
    hung = {weight.hung or "cord" for _, weight in sash.sash.weights() if weight}
    return min(hung & set(LINES), key=LINES.index, default="cord")


def may_stay(sash: SashPlan) -> bool:
    """Tell whether what a sash hangs by may stay: nothing is changed at it, and both are sound."""
    weights = [weight for _, weight in sash.sash.weights() if weight]
    is_as_found = sash.proposal is not None and sash.proposal.is_as_found
    return is_as_found and all((weight.state or "sound") == "sound" for weight in weights)
