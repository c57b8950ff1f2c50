"""One piece of work on a house: what is priced, and what is set into a programme."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Operation = Literal[
    "protect a room",
    "free a sash",
    "take out a sash",
    "strip a sash",
    "clean and ease a sash",
    "consolidate",
    "splice",
    "renew a part",
    "renew a sash",
    "re-bed a pane",
    "renew a pane",
    "prime and paint",
    "clean and ease a part",
    "overhaul a pulley",
    "renew a pulley",
    "make a pocket",
    "renew a bead",
    "draught-strip",
    "make a weight",
    "change a weight",
    "re-cord a side",
    "refit a sash",
    "prove a sash",
]

Unit = Literal["each", "m", "m2"]

UNITS: dict[Operation, Unit] = {
    "protect a room": "each",
    "free a sash": "each",
    "take out a sash": "each",
    "strip a sash": "each",
    "clean and ease a sash": "each",
    "consolidate": "each",
    "splice": "each",
    "renew a part": "each",
    "renew a sash": "each",
    "re-bed a pane": "each",
    "renew a pane": "each",
    "prime and paint": "m2",
    "clean and ease a part": "each",
    "overhaul a pulley": "each",
    "renew a pulley": "each",
    "make a pocket": "each",
    "renew a bead": "m",
    "draught-strip": "m",
    "make a weight": "each",
    "change a weight": "each",
    "re-cord a side": "each",
    "refit a sash": "each",
    "prove a sash": "each",
}
"""What each operation is counted in."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Work:
    """One operation on one part of one window, and why it is done."""

    operation: Operation
    window: str
    part: str
    quantity: float
    why: str

    @property
    def unit(self) -> Unit:
        """Give what the quantity counts."""
        return UNITS[self.operation]


def counted(quantity: float) -> str:
    """Write a quantity as it is priced: to a hundredth, and no more places than it has.

    Examples
    --------
    >>> counted(3.0), counted(2.93443), counted(1400.0)
    ('3', '2.93', '1400')
    """
    return f"{quantity:.2f}".rstrip("0").rstrip(".")
