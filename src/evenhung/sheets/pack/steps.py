"""The order of work on one window: what is done, in what order, and what to look out for.

The order is common practice, no source; what is to be made, cut and fixed is the plan's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.pack.sash import cord_data
from evenhung.sheets.pack.sides import sides_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.pack.house import PackHouse


def steps_of(house: PackHouse, window: WindowPlan) -> dict[str, list[str]]:
    """Give the steps on a window, in their order: those before it is repaired, and those after."""
    running = [one for one in (window.lower, window.upper) if one and one.sash.is_running]
    if not running:
        still = (
            "No sash of this window runs: nothing is hung. Look over joints, putty and paint, "
            "and note what was found."
        )
        return {"before": [still], "after": []}
    before = list(_apart(running))
    after = [*_weights(house, running), *_cords(house, running)]
    if any(sides_of(house, sash) for sash in running):
        return {"before": before, "after": [*after, *_together(running)]}
    wanting = (
        "When what is wanting is known, put it into the survey and print this card again "
        "before anything is hung. Until then fix or board the opening."
    )
    return {"before": before, "after": [*after, wanting]}


def _apart(running: list[SashPlan]) -> Iterator[str]:
    """Take the window apart: the lower sash comes out first, the upper one after it."""
    yield "Prop every sash. Take off the staff beads and tag them."
    places = [sash.place for sash in running]
    who = {
        ("lower", "upper"): "The lower sash, then the parting beads, tagged, then the upper sash",
        ("lower",): "The lower sash",
        ("upper",): "The parting beads, tagged, then the upper sash",
    }[tuple(places)]
    yield (
        f"{who}: swing it in on its props, tie off each weight, then free its cord; "
        "lift it out and lay it flat."
    )
    yield (
        "Open the pockets. Take each weight out, tag it, weigh it, write its mass beside. "
        "Free and clean every wheel until it turns under a finger."
    )


def _weights(house: PackHouse, running: list[SashPlan]) -> Iterator[str]:
    """Make up the weights, sash by sash; say so where something must be known first."""
    for sash in reversed(running):
        sides, name = sides_of(house, sash), f"{sash.place.capitalize()} sash"
        if not sides:
            yield f"{name}: hang nothing yet, for the reason above."
        elif all(side.is_untouched for side in sides):
            yield f"{name}: both weights hang again as they are."
        else:
            yield f"{name}: make up its weights as above, and weigh them again."


def _cords(house: PackHouse, running: list[SashPlan]) -> Iterator[str]:
    """Cut the cords and bring them over the wheels."""
    lines = []
    for sash in reversed(running):
        cord = cord_data(house, sash, sash.proposal) if sash.proposal else None
        if cord is not None:
            is_cord = cord["line"] == "cord"
            cut = cord["cut"] if is_cord else cord["taut"]
            own = cut["own"] if isinstance(cut, dict) else ""
            lines.append(f"two {cord['line']}s of {own} for the {sash.place} sash")
    if lines:
        yield (
            f"Cut {' and '.join(lines)}. Mark each slack, lead it over its wheel on a string with "
            "a small lead, and knot it to its weight so that the top comes to the mark."
        )


def _together(running: list[SashPlan]) -> Iterator[str]:
    """Put the window together: the upper sash goes in first."""
    both = len(running) > 1
    upper = any(sash.place == "upper" for sash in running)
    first = "The upper sash first, the lower one after the parting beads" if both else "The sash"
    yield (
        f"{first}: fix both cords, the top nail no higher than above. Run it to both ends: "
        "no knot at the wheel, no weight on the box bottom."
    )
    beads = "Parting beads and staff beads" if upper and not both else "Staff beads"
    yield f"Close the pockets. {beads} back, with room for paint."
    yield "Run each sash ten times, read the spring balance, write the readings beside, sign."
