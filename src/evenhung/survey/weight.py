"""One weight as it was found, on its side of its box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_length,
    a_mass,
    a_note,
    a_text,
    left_out,
    plain,
)

if TYPE_CHECKING:
    from evenhung.quantities import Length, Mass


METALS = ("cast iron", "lead", "mild steel", "wrought iron", "zinc")
"""What weights are made of."""


class BareWeight(Record):
    """A weight by itself, wherever it is."""

    id: str | None = plain(a_text(), "given on the first save and never changed", "not yet saved")
    weighed: Mass | None = left_out(
        a_mass("0.2 kg", "60 kg"), "its mass on a scale", "the pair is not known"
    )
    marked: str | None = plain(a_text(), "what is cast or painted on it; never trusted", "no mark")
    length: Length | None = left_out(
        a_length("50 mm", "1500 mm"),
        "overall, as it hangs",
        "cord, clearances and pocket are not checked",
    )
    diameter: Length | None = left_out(
        a_length("10 mm", "150 mm"),
        "diameter if round, side if square",
        "pocket, turning and density are not checked",
    )
    section: str | None = plain(a_choice("round", "square"), "shape across", "round")
    metal: str | None = left_out(
        a_choice(*METALS),
        "what it is made of",
        "only that it is no denser than lead is checked",
    )
    eye_depth: Length | None = plain(
        a_length("0 mm", "150 mm"), "the cord's hole, below the top of the weight", "not recorded"
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")


class Weight(BareWeight):
    """A weight found on one side of a sash."""

    hung: str | None = plain(
        a_choice("cord", "chain", "tape", "none"),
        'what it hangs on; "none" where the weight is missing',
        "cord",
    )
    state: str | None = plain(
        a_choice("sound", "frayed", "broken", "painted in"), "state of what it hangs on", "sound"
    )
    shared_with: str | None = plain(
        a_text(), "tag of the other window this weight serves", "it serves this one alone"
    )

    def wants(self, field: str) -> bool:
        """Want nothing more of a weight that is not there."""
        return super().wants(field) and not self.is_missing

    @property
    def is_missing(self) -> bool:
        """True where there is no weight on this side."""
        return self.hung == "none"

    @property
    def is_attached(self) -> bool:
        """True where the weight still pulls on the sash."""
        return not self.is_missing and self.state != "broken"
