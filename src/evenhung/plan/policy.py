"""How far a pair of weights should differ from its sash: as the house states, else by the mass."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Literal, TypeAlias

from evenhung.physics import hang
from evenhung.plan.assumed import assumed

if TYPE_CHECKING:
    from evenhung.survey.house import MassBand, Policy

Place: TypeAlias = Literal["upper", "lower"]


def excess_for(policy: Policy, place: Place, mass_kg: float) -> hang.Band:
    """Give the signed excess a sash should have: negative where its pair is heavier [kg]."""
    margin = _margin(policy, place, mass_kg)
    if place == "upper":
        return hang.Band(-margin.most, -margin.best, -margin.least)
    return margin


def leaves_no_width(policy: Policy, place: Place, excess: hang.Band) -> bool:
    """Tell whether nobody has stated a band, and the usual one has closed to a point."""
    return _stated(policy, place) is None and bool(excess.least == excess.most)


def _stated(policy: Policy, place: Place) -> MassBand | None:
    return policy.upper_deficit if place == "upper" else policy.lower_excess


def _margin(policy: Policy, place: Place, mass_kg: float) -> hang.Band:
    stated = _stated(policy, place)
    if stated is not None:
        return hang.Band(stated.least.kg, stated.best.kg, stated.most.kg)
    light, middle, heavy = _usual(place)
    return hang.usual_margin(
        mass_kg=mass_kg,
        light_below_kg=assumed("policy/bands/light_under").value,
        heavy_above_kg=assumed("policy/bands/heavy_over").value,
        light=light,
        middle=middle,
        heavy_pct=heavy,
        heavy_cap_kg=assumed("policy/heavy sash/difference_most").value,
    )


@cache
def _usual(place: Place) -> tuple[hang.Band, hang.Band, hang.Band]:
    name = "upper_deficit" if place == "upper" else "lower_excess"

    def band(sort: str) -> hang.Band:
        rows = (f"policy/{sort} sash/{name}_{which}" for which in ("least", "best", "most"))
        return hang.Band(*(assumed(row).value for row in rows))

    return band("light"), band("middle"), band("heavy")
