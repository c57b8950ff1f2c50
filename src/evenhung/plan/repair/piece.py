"""What a window is made of, as its repair is reckoned: pieces of timber and panes of glass."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from evenhung.survey.members import Kind


class Piece(NamedTuple):
    """One piece of timber."""

    name: str
    """As in the survey's list of parts."""
    kind: Kind
    place: str
    """``upper`` or ``lower``; empty for the frame."""
    length_mm: float
    """Overall, as a new one is cut."""
    face_mm: float
    """The larger way through it that is seen, edge to sight line."""
    thick_mm: float
    """The other way."""
    volume_mm3: float
    """Rebates, mouldings and grooves taken off."""
    kg_m3: float
    hidden_mm: float = 0.0
    """What of it lies, at each end, beyond where it is measured: over the boxes."""

    @property
    def section_mm2(self) -> float:
        """The section before anything is cut from it [mm2]."""
        return self.face_mm * self.thick_mm

    @property
    def thin_mm(self) -> float:
        """The thinnest way through it [mm]."""
        return min(self.face_mm, self.thick_mm)

    @property
    def painted_m2(self) -> float:
        """What of it is painted: a face and an edge; the rest is hidden or slides [m2]."""
        return self.length_mm * (self.face_mm + self.thick_mm) * 1e-6


class Panes(NamedTuple):
    """The panes of one sash, all alike."""

    place: str
    across: int
    up: int
    width_mm: float
    """Of one pane, to order; 0 where the members leave no glass."""
    height_mm: float
    glass_mm: float
    """Thickness of all sheets of one pane together."""
    sheets: int
    bottom_mm: float
    """Sight line of the lowest pane above the bottom of the sash."""
    sight_width_mm: float
    sight_height_mm: float
    bar_mm: float
    putty_mm2: float
    """Section of putty."""
    kg_m3: float

    @property
    def number(self) -> int:
        """How many."""
        return self.across * self.up if self.width_mm > 0.0 else 0

    @property
    def volume_mm3(self) -> float:
        """Glass in one pane [mm3]."""
        return self.width_mm * self.height_mm * self.glass_mm


class Sorts(NamedTuple):
    """All of a window."""

    pieces: dict[str, Piece]
    """By name, sashes first."""
    panes: dict[str, Panes]
    """By place."""
    painted_m2: dict[str, float]
    """Painted area of each sash by place, and of the frame under the empty name."""
