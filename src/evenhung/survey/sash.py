"""One sash: its sizes, its parts, how it is corded, how it ran before the work and after it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.reference import keys
from evenhung.survey.box import SashBoxes, SashPulleys
from evenhung.survey.completion import Completion
from evenhung.survey.fields import (
    Record,
    a_choice,
    a_count,
    a_force,
    a_length,
    a_mass,
    a_name,
    a_note,
    a_number,
    assumed,
    either,
    left_out,
    optional_part,
    part,
    plain,
    required,
)
from evenhung.survey.readings import Readings
from evenhung.survey.weight import Weight

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.quantities import Force, Length, Mass
    from evenhung.survey.fields import Refusal


class FrictionRange(Record):
    """Friction of a sash in its runs, both sides together."""

    least: Force = required(a_force("0 N", "1000 N"), "on a good day")
    likely: Force = required(a_force("0 N", "1000 N"), "most days")
    most: Force = required(a_force("0 N", "1000 N"), "on a bad day")

    def contradictions(self) -> Iterable[Refusal]:
        """Give a range that does not rise."""
        if not self.least.exact <= self.likely.exact <= self.most.exact:
            given = f"{self.least.text}, {self.likely.text}, {self.most.text}"
            yield "likely", given, "least, likely and most in rising order"


class Panes(Record):
    """How a sash is divided by its bars."""

    across: int = required(a_count(1, 12), "side by side")
    up: int = required(a_count(1, 12), "one above the other")


class Glass(Record):
    """The glass of a sash."""

    thickness: Length | None = assumed(
        a_length("1.5 mm", "12 mm"),
        "of one sheet, measured where a pane is out or at a chipped edge",
        "glass/assumed pane/thickness",
    )
    sheets: int | None = plain(
        a_count(1, 3), "sheets of that thickness in one pane: 2 in a sealed double unit", "one"
    )


class Groove(Record):
    """The groove for the cord in the edge of each stile."""

    width: Length | None = assumed(
        a_length("3 mm", "30 mm"), "across the thickness of the stile", "joinery/cord groove/width"
    )
    depth: Length | None = assumed(
        a_length("3 mm", "40 mm"), "into the face width of the stile", "joinery/cord groove/depth"
    )


class Nails(Record):
    """The nails that hold the cord in its groove."""

    count: int | None = assumed(a_count(1, 12), "on each side", "joinery/cord nails/per_side")
    length: Length | None = left_out(
        a_length("5 mm", "150 mm"), "of one nail", "whether a nail reaches the glass is not checked"
    )
    spacing: Length | None = plain(a_length("5 mm", "300 mm"), "centre to centre", "not recorded")


def _timbers() -> Iterable[str]:
    return keys("timber")


class Sash(Record):
    """A sash, upper or lower."""

    runs: str | None = plain(a_choice("yes", "no"), '"no" for a fixed sash', "it runs")
    height: Length = required(a_length("100 mm", "2.5 m"), "overall, horns left out")
    width: Length = required(a_length("100 mm", "2.5 m"), "overall")
    thickness: Length | None = assumed(
        a_length("15 mm", "120 mm"), "of stiles and rails", "joinery/assumed sash/thickness"
    )
    horn: Length | None = assumed(
        a_length("0 mm", "300 mm"),
        "length of the horns below an upper sash, or above a lower one",
        "joinery/assumed sash/horn",
    )
    travel: Length | None = plain(
        a_length("10 mm", "3 m"), "how far it runs", "clear height less height less horn"
    )
    meeting_overlap: Length | None = plain(
        a_length("0 mm", "150 mm"),
        "how much of their heights the two sashes share when shut; state it on one of them",
        "one meeting rail's face",
    )
    head: str | None = plain(
        a_choice("square", "segmental", "round"),
        "shape of the top; a curved one is weighed, not estimated",
        "square",
    )
    cord_end: Length | None = plain(
        a_length("10 mm", "2 m"),
        "where the cord stops in its groove, below the top of the sash",
        "required of a sash that runs",
    )
    top_nail: Length | None = left_out(
        a_length("0 mm", "2 m"),
        "the highest cord nail, below the top of the sash",
        "whether a nail meets the pulley is not checked, and all of the cord is taken to stretch",
    )
    anchorage: str | None = plain(
        a_choice("nailed", "knotted"), "how the cord is held in the stile", "nailed"
    )
    slide_friction: FrictionRange | Force | None = assumed(
        either(FrictionRange, a_force("0 N", "1000 N")),
        "friction in the runs, both sides together; one value or least, likely and most",
        "friction/slide/likely",
        FrictionRange,
    )
    weighed: Mass | None = plain(
        a_mass("0.5 kg", "200 kg"),
        "bare sash, glazed, as it will be hung",
        "estimated from its parts",
    )
    timber: str | None = plain(
        a_name(_timbers, "a timber of the reference"),
        "which wood, such as softwood, scots pine, pitch pine or oak",
        "softwood",
    )
    moisture_pct: float | None = plain(
        a_number(0, 60),
        "moisture content read in the timber",
        "what timber comes to in the air of the reference",
    )
    stile: Length | None = assumed(
        a_length("15 mm", "300 mm"), "face width, edge to sight line", "joinery/assumed sash/stile"
    )
    top_rail: Length | None = plain(
        a_length("15 mm", "400 mm"),
        "face width; of a lower sash this is its meeting rail",
        "assumed, from the reference",
    )
    bottom_rail: Length | None = plain(
        a_length("15 mm", "400 mm"),
        "face width; of an upper sash this is its meeting rail",
        "assumed, from the reference",
    )
    bar: Length | None = assumed(
        a_length("5 mm", "120 mm"), "face width of a glazing bar", "joinery/assumed sash/bar"
    )
    panes: Panes | None = optional_part(Panes, "how the bars divide it", "one pane")
    glass: Glass = part(Glass, "the glass")
    rebate_width: Length | None = assumed(
        a_length("2 mm", "40 mm"),
        "how far the glazing rebate reaches into a face",
        "joinery/assumed sash/rebate_width",
    )
    rebate_depth: Length | None = assumed(
        a_length("2 mm", "60 mm"),
        "how deep the glazing rebate is",
        "joinery/assumed sash/rebate_depth",
    )
    fittings: Mass | None = assumed(
        a_mass("0 kg", "5 kg"),
        "fastener, lifts and handles left on",
        "joinery/assumed sash/fittings_mass",
    )
    groove: Groove = part(Groove, "the cord groove")
    nails: Nails = part(Nails, "the cord nails")
    readings: Readings | None = optional_part(
        Readings, "spring-balance readings on the standing window", "none were taken"
    )
    completion: Completion | None = optional_part(
        Completion, "how it ran once the work was done", "it is not proved yet"
    )
    box: SashBoxes = part(SashBoxes, "what differs in the boxes for this sash")
    pulley: SashPulleys = part(SashPulleys, "what differs at the pulleys of this sash")
    left: Weight | None = optional_part(
        Weight, "the weight on the left, seen from inside", "the pair is not known"
    )
    right: Weight | None = optional_part(
        Weight, "the weight on the right, seen from inside", "the pair is not known"
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")

    def contradictions(self) -> Iterable[Refusal]:
        """Give a sash that runs on no cord, and one that does not run but was tried."""
        if not self.is_running and self.completion is not None:
            yield (
                "completion",
                self.completion.says,
                "nothing, for a fixed sash has nothing to prove",
            )
        if self.is_running and self.cord_end is None:
            yield (
                "cord_end",
                "(absent)",
                "required of a sash that runs: where the cord stops, below its top",
            )

    def wants(self, field: str) -> bool:
        """Want sizes only to estimate by, and what it hangs by only of a sash that runs."""
        if field in _TO_ESTIMATE:
            return self.weighed is None
        return super().wants(field) and (self.is_running or field not in _TO_HANG)

    def weights(self) -> tuple[tuple[str, Weight | None], ...]:
        """Give the weight on each side by the side's name, the left one first."""
        return ("left", self.left), ("right", self.right)

    @property
    def is_running(self) -> bool:
        """True unless the sash is fixed."""
        return self.runs != "no"


_TO_ESTIMATE = {"thickness", "stile", "bar", "rebate_width", "rebate_depth", "fittings"}
_TO_HANG = {"top_nail", "slide_friction", "left", "right"}
