"""What the house can be hung with besides the weights in it: pieces, bars, ready-made weights."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_count,
    a_length,
    a_mass,
    a_text,
    assumed,
    parts,
    plain,
    required,
)
from evenhung.survey.money import a_price
from evenhung.survey.weight import METALS

if TYPE_CHECKING:
    from evenhung.quantities import Length, Mass
    from evenhung.survey.money import Money


class MakeWeight(Record):
    """A size of make-weight, of which there are enough."""

    mass: Mass = required(a_mass("0.01 kg", "5 kg"), "of one piece")
    length: Length = required(a_length("1 mm", "300 mm"), "what it adds to the hanging length")
    price: Money | None = plain(a_price(), "of one piece", "not reckoned")


class Bar(Record):
    """Bar stock that new weights are cut from."""

    metal: str = required(a_choice(*METALS), "what it is made of")
    diameter: Length = required(a_length("10 mm", "150 mm"), "diameter if round, side if square")
    section: str | None = plain(a_choice("round", "square"), "shape across", "round")
    length: Length = required(a_length("100 mm", "10 m"), "of one bar as it is sold")
    price: Money | None = plain(a_price(), "of one bar", "not reckoned")
    making: Money | None = plain(
        a_price(), "of cutting, drilling and eyeing one weight", "not reckoned"
    )
    eye: Length | None = plain(
        a_length("0 mm", "150 mm"), "what an eye adds to the hanging length", "it has none"
    )


class ReadyMade(Record):
    """A new weight that can be bought as it is."""

    name: str = required(a_text(), "what it is sold as")
    mass: Mass = required(a_mass("0.2 kg", "60 kg"), "of one")
    length: Length = required(a_length("50 mm", "1500 mm"), "overall, as it hangs")
    diameter: Length | None = plain(
        a_length("10 mm", "150 mm"),
        "diameter if round, side if square",
        "whether it fits box and pocket is not checked",
    )
    price: Money | None = plain(a_price(), "of one", "not reckoned")
    count: int | None = plain(a_count(0, 10_000), "how many there are", "as many as are wanted")


class Stock(Record):
    """What there is to hang the house with, besides its own weights."""

    make_weight: tuple[MakeWeight, ...] = parts(MakeWeight, "sizes of make-weight", "none")
    bar: tuple[Bar, ...] = parts(Bar, "bars for new weights", "none")
    ready_made: tuple[ReadyMade, ...] = parts(ReadyMade, "ready-made weights", "none")
    most_pieces: int | None = assumed(
        a_count(0, 6), "make-weights on one weight, at most", "policy/stock/most_pieces"
    )
    kerf: Length | None = assumed(
        a_length("0 mm", "10 mm"), "width of the saw's cut", "policy/stock/kerf"
    )
