"""The sides that ask for a weight: how long it may be, and which weights have no business there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import hang
from evenhung.plan.allotment.candidates import place_name, room_of
from evenhung.plan.facts import goes_in
from evenhung.plan.frame import box_mm
from evenhung.plan.solve import longest_together_mm, pocket_needed_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.allotment.candidates import Candidate
    from evenhung.plan.frame import Side
    from evenhung.plan.house import Found, SashPlan
    from evenhung.plan.inputs import SideInputs
    from evenhung.survey.house import Policy


class Place(NamedTuple):
    """One side of a sash that is to be served."""

    sash: SashPlan
    side: Side
    inputs: SideInputs
    longest_mm: float
    """Longest weight, make-weights included, that travels clear."""
    width_mm: float
    """Width of the compartment for one weight; nan where not known."""

    @property
    def name(self) -> str:
        """What people call it."""
        return place_name(self.sash, self.side)

    @property
    def sash_name(self) -> str:
        """What people call its sash."""
        return place_name(self.sash)

    def is_home_of(self, weight: Candidate) -> bool:
        """Tell whether a weight was found here."""
        home = weight.home
        return home is not None and home.sash is self.sash and home.side == self.side

    def refuses(self, weight: Candidate, policy: Policy) -> str:
        """Say why a weight may not hang here; nothing where it may."""
        if self.is_home_of(weight):
            return "" if weight.is_hung else self.shuts_out(weight.length_mm, weight.across_mm)
        if weight.home is not None and policy.moves == "none":
            return "weights stay at home"
        if weight.home is not None and policy.moves == "room" and not self._is_near(weight):
            return "weights stay in their room"
        if math.isnan(weight.length_mm):
            return "its length is not known"
        return self.shuts_out(weight.length_mm, weight.across_mm)

    def shuts_out(self, length_mm: float, across_mm: float) -> str:
        """Say what keeps a piece of such a size out; nothing where it goes in, as far as known."""
        if across_mm > min_known(self.width_mm, self.inputs.depth_mm):
            return "it is too thick for the box"
        side = self.inputs._replace(piece_mm=length_mm, across_mm=across_mm)
        passes = goes_in(side, pocket_needed_mm(side))
        return "it does not pass the pocket" if passes is False else ""

    def _is_near(self, weight: Candidate) -> bool:
        if weight.home is not None and weight.home.sash.window is self.sash.window:
            return True
        return weight.room is not None and weight.room == room_of(self.sash)


class Asked(NamedTuple):
    """A running sash that asks for a pair of weights."""

    plan: SashPlan
    found: Found

    @property
    def name(self) -> str:
        """What people call it."""
        return place_name(self.plan)


def is_true(found: Found, left_kg: float, right_kg: float) -> bool:
    """Tell whether two weights are within a sash's limits, by their masses alone."""
    made = found.hang
    pair = hang.Band(made.pair_least_kg, made.pair_best_kg, made.pair_most_kg)
    difference = found.inputs.difference_kg
    return bool(
        hang.is_true(left_kg=left_kg, right_kg=right_kg, pair=pair, difference_kg=difference)
    )


def places_of(sash: SashPlan, found: Found) -> tuple[Place, Place]:
    """Give both sides of a running sash, the left one first."""
    left, right = longest_together_mm(found.inputs)
    return (
        Place(sash, "left", found.inputs.left, left, _width_mm(sash, "left")),
        Place(sash, "right", found.inputs.right, right, _width_mm(sash, "right")),
    )


def _width_mm(sash: SashPlan, side: Side) -> float:
    return box_mm(sash.window, sash.sash, side, "compartment_width")


def min_known(one_mm: float, other_mm: float) -> float:
    """Give the lesser of two sizes that are known; nan where neither is."""
    return min((mm for mm in (one_mm, other_mm) if not math.isnan(mm)), default=math.nan)


def refused_at(place: Place, weights: Sequence[Candidate], policy: Policy) -> frozenset[int]:
    """Give the positions of the weights that may not hang at a place."""
    return frozenset(
        number for number, weight in enumerate(weights) if place.refuses(weight, policy)
    )
