"""The house as a whole: how it is shown, what hangs true in it, what cord it is hung on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_count,
    a_length,
    a_linear_density,
    a_mass,
    a_note,
    a_number,
    a_text,
    assumed,
    optional_part,
    part,
    parts,
    plain,
    required,
)
from evenhung.survey.hours import Rate
from evenhung.survey.money import a_currency, a_price
from evenhung.survey.price import Material, Price
from evenhung.survey.programme import Programme
from evenhung.survey.stock import Stock

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.quantities import Length, LinearDensity, Mass
    from evenhung.survey.fields import Refusal
    from evenhung.survey.money import Money


class MassBand(Record):
    """Least, best and most of a difference between sash and pair."""

    least: Mass = required(a_mass("0 kg", "5 kg"), "the least that will do")
    best: Mass = required(a_mass("0 kg", "5 kg"), "what to aim at")
    most: Mass = required(a_mass("0 kg", "5 kg"), "the most that will do")

    def contradictions(self) -> Iterable[Refusal]:
        """Give a band that does not rise."""
        if not self.least.exact <= self.best.exact <= self.most.exact:
            given = f"{self.least.text}, {self.best.text}, {self.most.text}"
            yield "best", given, "least, best and most in rising order"


class Worth(Record):
    """What it is worth to have things one way, in the house's money: it settles what gives way."""

    serve: Money | None = assumed(a_price(), "that one sash more hangs true", "policy/worth/serve")
    whole: Money | None = assumed(
        a_price(), "that a weight found is neither cut nor drilled", "policy/worth/whole"
    )
    home: Money | None = assumed(
        a_price(), "that a weight found stays where it was found", "policy/worth/home"
    )
    new: Money | None = assumed(
        a_price(), "that a new weight need not be found, besides its price", "policy/worth/new"
    )
    make_weight: Money | None = assumed(
        a_price(),
        "that a make-weight need not be added, besides its price",
        "policy/worth/make_weight",
    )
    near: Money | None = assumed(
        a_price(), "that a pair is nearer its best by a kilogram", "policy/worth/near"
    )

    def wants(self, field: str) -> bool:  # noqa: ARG002 - whichever it is
        """Want nothing: what is assumed here is said where weights are allotted."""
        return False


class Policy(Record):
    """What it is to hang true in this house; a band stated here applies to every sash."""

    lower_excess: MassBand | None = optional_part(
        MassBand,
        "lower sash heavier than its pair by",
        "the band for the sash's mass, from the reference",
    )
    upper_deficit: MassBand | None = optional_part(
        MassBand,
        "pair heavier than its upper sash by",
        "the band for the sash's mass, from the reference",
    )
    pair_difference: Mass | None = assumed(
        a_mass("0 kg", "2 kg"), "left weight against right, at most", "policy/pair/difference_most"
    )
    stretch_allowance: Length | None = assumed(
        a_length("0 mm", "300 mm"),
        "upper sash shut: its weights hang this far above the box bottom",
        "policy/clearance/stretch_allowance",
    )
    pulley_clearance: Length | None = assumed(
        a_length("0 mm", "300 mm"),
        "highest weight: its knot stays this far below the pulley case",
        "policy/clearance/pulley_clearance",
    )
    bottom_clearance: Length | None = assumed(
        a_length("0 mm", "300 mm"),
        "lower sash fully raised: its weights stay this far above the box bottom",
        "policy/clearance/bottom_clearance",
    )
    nail_margin: Length | None = assumed(
        a_length("0 mm", "100 mm"),
        "sash at its highest: its top cord nail stays this far below the axle",
        "policy/clearance/nail_margin",
    )
    make_weight_metal: str | None = plain(
        a_choice("lead", "cast iron", "mild steel", "wrought iron", "zinc"),
        "metal of the pieces added to a weight",
        "mild steel",
    )
    trim: str | None = plain(
        a_choice("no", "yes"), "whether weights found may be made lighter", "no"
    )
    moves: str | None = plain(
        a_choice("house", "room", "none"),
        "how far a weight found may move; a room is named before the first comma",
        "anywhere in the house",
    )
    allow_for_error: str | None = plain(
        a_choice("no", "yes"),
        "whether a pair must stay within its limits for all that scale and estimate may be out",
        "no",
    )
    worth: Worth = part(Worth, "what gives way to what, where weights are allotted")


class Cord(Record):
    """The cord the house is hung on."""

    diameter: Length | None = assumed(
        a_length("3 mm", "14 mm"), "thickness of the cord", "cords/cord/diameter"
    )
    mass_per_length: LinearDensity | None = assumed(
        a_linear_density("1 g/m", "500 g/m"),
        "weigh a cut length to find it",
        "cords/cord/apparent_density",
    )
    knot: Length | None = assumed(
        a_length("0 mm", "150 mm"),
        "height of the settled knot above the top of the weight",
        "cords/cord/knot",
    )
    tail: Length | None = assumed(
        a_length("0 mm", "500 mm"), "cord spent on the knot at the weight", "cords/cord/tail"
    )
    stretch_pct: float | None = assumed(
        a_number(0, 10),
        "elastic stretch of the free cord under its working load",
        "cords/cord/stretch_pct",
    )


class House(Record):
    """A house of windows."""

    name: str = required(a_text(), "what the house is called")
    shown_in: Literal["imperial", "metric"] | None = plain(
        a_choice("imperial", "metric"), "the system shown first; both are always shown", "metric"
    )
    scale_step: Mass | None = assumed(
        a_mass("0.001 kg", "1 kg"),
        "smallest step of the scale the sashes were weighed on",
        "policy/scale/resolution",
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")
    currency: str | None = plain(
        a_currency(), "of all prices, by its code in ISO 4217", "prices have none"
    )
    stock: Stock | None = optional_part(
        Stock,
        "what there is to hang the house with besides its own weights",
        "make-weights and new weights of the usual metals are taken to be had",
    )
    built: int | None = plain(a_count(1400, 2100), "the year, or near it", "taken to be old")
    protected: str | None = plain(
        a_choice("no", "yes"), "whether consent may be needed to change it", "not known: ask"
    )
    price: Price = part(Price, "how hours and materials become a price")
    rate: tuple[Rate, ...] = parts(Rate, "hours of this firm", "the reference's examples")
    material: tuple[Material, ...] = parts(Material, "prices of materials", "no material is priced")
    programme: Programme = part(Programme, "when and by how many the work is done")
    glass_rules: Literal["england", "united states"] | None = plain(
        a_choice("england", "united states"),
        "whose rules on safety glass and guarding new panes are held against",
        "those of both are told",
    )
    policy: Policy = part(Policy, "what it is to hang true here")
    cord: Cord = part(Cord, "the cord")

    def contradictions(self) -> Iterable[Refusal]:
        """Give operations and materials that are priced twice."""
        for field, names in (
            ("rate", [one.operation for one in self.rate]),
            ("material", [one.name for one in self.material]),
        ):
            for number, name in enumerate(names):
                if name in names[:number]:
                    place = "operation" if field == "rate" else "name"
                    first = f"{field}[{names.index(name)}]"
                    path = f"{field}[{number}].{place}"
                    yield path, repr(name), f"one that {first} does not state already"
