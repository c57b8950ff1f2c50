"""Groups of shapes: a layer that says how they look, a part they stand for, a way they move."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from evenhung.plan.positions import Run
    from evenhung.sheets.scene.shapes import Room, Shape

Layer: TypeAlias = Literal[
    "frame",
    "box",
    "bead",
    "pocket",
    "slip",
    "sash",
    "glass",
    "putty",
    "sheen",
    "groove",
    "nail",
    "pulley",
    "wheel",
    "axle",
    "cord",
    "knot",
    "weight",
    "make-weight",
    "hidden",
    "hatch",
    "dimension",
    "limit",
    "label",
    "mark",
    "ticket",
    "alarm",
]
"""What a group shows; a writer gives each layer its look, and a drawing exchange file its name."""


class Shift(NamedTuple):
    """Moves up as a whole, so far for each mm of travel."""

    per_mm: float

    def up_mm(self, travel_mm: float) -> float:
        """Give how far up it has moved [mm]."""
        return self.per_mm * travel_mm


class Stretch(NamedTuple):
    """Grows and shrinks from one height that stays, as a cord does that runs over a wheel."""

    fixed_mm: float
    """The height that stays."""
    drawn_mm: float
    """The length that is drawn."""
    length: Run
    """The length that it has."""

    def scale(self, travel_mm: float) -> float:
        """Give what to multiply the drawn length by [1]."""
        return self.length.at_mm(travel_mm) / self.drawn_mm


Motion: TypeAlias = Shift | Stretch


class Group(NamedTuple):
    """Shapes and groups that belong together."""

    layer: Layer | None
    """None takes that of the group around it."""
    members: tuple[Shape | Group, ...]
    part: str = ""
    """Path of the part of the window it stands for, as in the survey: ``lower.left``."""
    title: str = ""
    """What that part is called."""
    is_assumed: bool = False
    """Drawn as usual, because nobody measured it."""
    motion: Motion | None = None
    facts: Mapping[str, str] | None = None
    """What a page is told besides, by name."""

    def groups(self) -> Iterator[Group]:
        """Give this group and all within it."""
        yield self
        for member in self.members:
            if isinstance(member, Group):
                yield from member.groups()

    def shapes(self) -> Iterator[Shape]:
        """Give all shapes, those of inner groups too."""
        for member in self.members:
            if isinstance(member, Group):
                yield from member.shapes()
            else:
                yield member

    def room(self, travel_mm: float) -> Room | None:
        """Give the room it takes up through the whole travel; None if it is empty."""
        rooms = [room for member in self.members if (room := _room(member, travel_mm)) is not None]
        if not rooms:
            return None
        whole = rooms[0]
        for room in rooms[1:]:
            whole = whole.joined(room)
        if isinstance(self.motion, Shift):
            whole = whole.joined(whole.moved(self.motion.up_mm(travel_mm)))
        return whole

    def raised(self, up: float) -> Group:
        """Give it so far up; only before it has been given a motion."""
        return self._replace(members=tuple(member.raised(up) for member in self.members))

    def mirrored(self) -> Group:
        """Give it in a mirror that stands at x = 0."""
        return self._replace(members=tuple(member.mirrored() for member in self.members))


def _room(member: Shape | Group, travel_mm: float) -> Room | None:
    return member.room(travel_mm) if isinstance(member, Group) else member.room()
