"""A whole drawing: its groups, what it is called and says, how far it moves."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from evenhung.sheets.scene.groups import Group
    from evenhung.sheets.scene.shapes import Room


class Drawing(NamedTuple):
    """Groups in the order in which they are painted, and what is to be said of them."""

    name: str
    """What sort of drawing it is: a writer makes a class of it."""
    title: str
    description: str
    """The same in words, for whoever cannot see it."""
    groups: tuple[Group, ...]
    margin_mm: float
    travel_mm: float = 0.0
    """How far its moving groups can be moved."""
    assumed: tuple[str, ...] = ()
    """What is drawn as usual, because nobody measured it."""
    facts: Mapping[str, str] | None = None
    """What a page is told besides, by name."""

    def every_group(self) -> Iterator[Group]:
        """Give all groups, the inner ones too."""
        for group in self.groups:
            yield from group.groups()

    def room(self) -> Room:
        """Give the room it takes up through the whole travel, with its margin.

        Raises
        ------
        ValueError
            If nothing is drawn.
        """
        rooms = [room for group in self.groups if (room := group.room(self.travel_mm)) is not None]
        if not rooms:
            raise ValueError(f"{self.title}: a drawing of nothing has no size")
        whole = rooms[0]
        for room in rooms[1:]:
            whole = whole.joined(room)
        return whole.widened(self.margin_mm)

    def mirrored(self) -> Drawing:
        """Give it in a mirror: the left side of a window for the right one."""
        return self._replace(groups=tuple(group.mirrored() for group in self.groups))
