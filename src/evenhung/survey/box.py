"""The boxes that weights hang in and the pulleys they hang by: a window's, and what differs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_length,
    a_number,
    assumed,
    left_out,
    part,
    plain,
    required,
)

if TYPE_CHECKING:
    from evenhung.quantities import Length


class BoxSide(Record):
    """What differs in one box."""

    weight_space: Length | None = plain(
        a_length("200 mm", "6 m"), "box bottom up to the pulley axle", "as the window's"
    )
    pulley_drop: Length | None = plain(
        a_length("10 mm", "1 m"), "head down to the pulley axle", "as the window's"
    )
    compartment_width: Length | None = plain(
        a_length("15 mm", "300 mm"), "across, for one weight", "as the window's"
    )
    compartment_depth: Length | None = plain(
        a_length("15 mm", "300 mm"), "pulley stile to back lining", "as the window's"
    )
    stile_thickness: Length | None = plain(
        a_length("6 mm", "100 mm"), "of the pulley stile", "as the window's"
    )
    pocket_height: Length | None = plain(
        a_length("50 mm", "1500 mm"), "of the opening", "as the window's"
    )
    pocket_above_sill: Length | None = plain(
        a_length("0 mm", "2 m"), "bottom of the opening above the sill", "as the window's"
    )
    pocket_width: Length | None = plain(
        a_length("10 mm", "300 mm"), "of the opening", "as the window's"
    )


class SashBoxes(BoxSide):
    """What differs in the boxes for one sash."""

    left: BoxSide = part(BoxSide, "what differs on the left")
    right: BoxSide = part(BoxSide, "what differs on the right")


class Box(Record):
    """The frame of a window and the boxes its weights hang in."""

    clear_width: Length = required(a_length("150 mm", "3 m"), "between the pulley stiles")
    clear_height: Length = required(a_length("250 mm", "5 m"), "sill to head, at the sashes")
    weight_space: Length = required(a_length("200 mm", "6 m"), "box bottom up to the pulley axle")
    pulley_drop: Length = required(a_length("10 mm", "1 m"), "head down to the pulley axle")
    compartment_width: Length | None = left_out(
        a_length("15 mm", "300 mm"),
        "across, for one weight",
        "whether a weight can turn or pass is not checked",
    )
    compartment_depth: Length | None = left_out(
        a_length("15 mm", "300 mm"),
        "pulley stile to back lining",
        "pocket and turning are not checked",
    )
    stile_thickness: Length | None = left_out(
        a_length("6 mm", "100 mm"), "of the pulley stile", "the pocket is not checked"
    )
    pocket_height: Length | None = left_out(
        a_length("50 mm", "1500 mm"), "of the opening", "whether a weight passes is not checked"
    )
    pocket_above_sill: Length | None = left_out(
        a_length("0 mm", "2 m"),
        "bottom of the opening above the sill",
        "whether the tail of a weight clears the sill on its way in is not checked",
    )
    pocket_width: Length | None = left_out(
        a_length("10 mm", "300 mm"), "of the opening", "the width of the pocket is not checked"
    )
    parting_slip: str | None = left_out(
        a_choice("present", "missing"),
        "what divides the box for two weights",
        "whether two weights can strike each other is not checked",
    )
    left: BoxSide = part(BoxSide, "what differs on the left, seen from inside")
    right: BoxSide = part(BoxSide, "what differs on the right, seen from inside")


class PulleySide(Record):
    """What differs at one pulley."""

    wheel: Length | None = plain(
        a_length("15 mm", "150 mm"), "diameter in the groove", "as the window's"
    )
    axle: Length | None = plain(a_length("2 mm", "40 mm"), "diameter", "as the window's")
    friction: float | None = plain(
        a_number(0, 1), "axle in its bearing, coefficient", "as the window's"
    )
    cord_bend_pct: float | None = plain(
        a_number(0, 50), "pull lost in bending the cord", "as the window's"
    )
    case_below_axle: Length | None = plain(
        a_length("5 mm", "300 mm"), "lowest point of the case", "as the window's"
    )
    turns: str | None = plain(
        a_choice("freely", "seized"), "whether the wheel turns", "as the window's"
    )


class SashPulleys(PulleySide):
    """What differs at the pulleys of one sash."""

    left: PulleySide = part(PulleySide, "what differs on the left")
    right: PulleySide = part(PulleySide, "what differs on the right")


class Pulley(Record):
    """The pulleys of a window."""

    wheel: Length = required(a_length("15 mm", "150 mm"), "diameter at the bottom of the groove")
    axle: Length | None = assumed(
        a_length("2 mm", "40 mm"), "diameter of the axle", "friction/pulley/axle_diameter"
    )
    friction: float | None = assumed(
        a_number(0, 1), "axle in its bearing, coefficient", "friction/pulley/axle"
    )
    cord_bend_pct: float | None = assumed(
        a_number(0, 50),
        "pull lost in bending the cord over the wheel",
        "friction/pulley/cord_bend_pct",
    )
    case_below_axle: Length | None = plain(
        a_length("5 mm", "300 mm"),
        "lowest point of the pulley case",
        "half the wheel and the reference's margin below it",
    )
    turns: str | None = plain(a_choice("freely", "seized"), "whether the wheel turns", "freely")
    left: PulleySide = part(PulleySide, "what differs on the left, seen from inside")
    right: PulleySide = part(PulleySide, "what differs on the right, seen from inside")
