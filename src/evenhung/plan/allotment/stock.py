"""What there is to hang a house with besides its own weights: as stated, else as usual."""

from __future__ import annotations

import statistics
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.catalogue import note
from evenhung.plan.house import MAKE_WEIGHT
from evenhung.plan.proposal import NEW_METALS, bar_length_mm
from evenhung.quantities import Length, Mass
from evenhung.survey.stock import Bar, MakeWeight, Stock

if TYPE_CHECKING:
    from evenhung.plan.house import HousePlan
    from evenhung.plan.ledger import Ledger

PIECES = {"imperial": ("1/4 lb", "1/2 lb", "1 lb", "2 lb"), "metric": ("100 g", "200 g", "500 g")}
"""Sizes of make-weight that are taken to be had where no stock is stated."""

ACROSS_MM = 38.0
"""Thickness of what is made new in a house of which no weight's is known: 1 1/2 in [mm]."""

BAR_MM = 1000.0
"""Length of the bars that new weights are taken to be cut from where no stock is stated [mm]."""


class Supplies(NamedTuple):
    """The stock of a house, stated or assumed."""

    stock: Stock
    is_assumed: bool


def supplies_of(plan: HousePlan, ledger: Ledger) -> Supplies:
    """Give the house's stock; where it states none, make-weights and new weights of usual kinds."""
    stated = plan.survey.house.stock
    if stated is not None:
        return Supplies(stated, is_assumed=False)
    across = _usual_across_mm(plan)
    metal = plan.survey.house.policy.make_weight_metal or MAKE_WEIGHT
    pieces = tuple(_piece(text, across, metal) for text in PIECES[plan.words.system])
    thick, long = (Length.parse(f"{mm:g} mm") for mm in (across, BAR_MM))
    bars = tuple(Bar(metal=metal, diameter=thick, length=long) for metal in NEW_METALS)
    sizes = ", ".join(PIECES[plan.words.system])
    ledger.notes.append(
        note(
            "stock-assumed",
            "Evenhung's own assumption",
            sizes=sizes,
            metal=metal,
            metals=" or ".join(NEW_METALS),
            across=ledger.words.length(across),
        )
    )
    return Supplies(Stock(make_weight=pieces, bar=bars), is_assumed=True)


def _usual_across_mm(plan: HousePlan) -> float:
    """Give the middle thickness of the weights found."""
    weights = [weight for sash in plan.sashes() for _, weight in sash.sash.weights()]
    known = [weight.diameter.mm for weight in weights if weight and weight.diameter]
    return round(statistics.median_low(known), 1) if known else ACROSS_MM


def _piece(text: str, across_mm: float, metal: str) -> MakeWeight:
    mass = Mass.parse(text)
    length = bar_length_mm(mass.kg, across_mm, False, metal)
    return MakeWeight(mass=mass, length=Length.parse(f"{length:.1f} mm"))
