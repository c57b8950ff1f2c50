"""The order of work: which operations belong together, and what may hurt in each.

The order is common practice, no source; the rules on hazards are the reference's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from evenhung.plan.work import Operation


class Chapter(NamedTuple):
    """Operations that are done at one time, in one place."""

    title: str
    operations: tuple[Operation, ...]
    how: str
    """How it is gone about, whatever the house."""
    hazards: tuple[str, ...]
    """Keys of the reference on hazards."""


ORDER: tuple[Chapter, ...] = (
    Chapter(
        "Protect the room",
        ("protect a room",),
        "Move what can be moved, cover what stays, close doors and vents. Lay a sheet under the "
        "window that can be taken up with what falls on it.",
        ("lead paint",),
    ),
    Chapter(
        "Free and take out",
        ("free a sash", "take out a sash"),
        "Prop every sash. Score the paint line wet. Beads off and tagged, the lower sash first; "
        "tie off each weight before its cord is freed.",
        (
            "falling sash",
            "falling weight",
            "lead paint",
            "glass",
            "manual handling",
            "height",
            "open by day",
            "open at night",
        ),
    ),
    Chapter(
        "Strip",
        ("strip a sash",),
        "Putty and paint off wet; a scraper only on what is kept damp. Extraction that catches "
        "fine dust. What comes off is bagged and kept apart.",
        ("asbestos putty", "lead paint", "heat gun", "heat", "glass"),
    ),
    Chapter(
        "Ease and repair timber",
        (
            "clean and ease a sash",
            "clean and ease a part",
            "consolidate",
            "splice",
            "renew a part",
            "renew a sash",
        ),
        "Take away no more than is rotten. Old wood that is sound stays. Old paint comes off where "
        "a saw or a plane will pass.",
        ("lead paint", "glass", "resin", "manual handling"),
    ),
    Chapter(
        "Glaze",
        ("re-bed a pane", "renew a pane"),
        "Old putty out only when it is known to be free of asbestos. Old panes go back where they "
        "were. Bed, sprig, putty, and leave the putty to skin.",
        ("asbestos putty", "lead paint", "heat gun", "glass", "oily rags"),
    ),
    Chapter(
        "Paint",
        ("prime and paint",),
        "Prime bare wood the same day. Keep paint off cords, wheels and the faces that slide.",
        ("lead paint", "oily rags"),
    ),
    Chapter(
        "Boxes, pulleys, weights",
        (
            "overhaul a pulley",
            "renew a pulley",
            "make a pocket",
            "make a weight",
            "change a weight",
            "re-cord a side",
        ),
        "Weights out through their pockets and tagged; what lies in the box is old dust and paint. "
        "Weigh each again before it is changed.",
        ("falling weight", "lead paint", "lead weights", "open by day", "manual handling"),
    ),
    Chapter(
        "Refit and prove",
        ("renew a bead", "draught-strip", "refit a sash", "prove a sash"),
        "The upper sash first. Run each to both ends, read the spring balance, sign the record.",
        ("falling sash", "falling weight", "glass", "manual handling", "height", "open at night"),
    ),
)
"""In which every operation has one place."""
