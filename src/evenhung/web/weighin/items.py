"""What of a house can be put on a scale, in the order it is walked."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils.translation import gettext as _

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.web.records.latest import Standing

_POUNDS_AND = re.compile(
    r"\s*\d+\s*(?:lbs?|pounds?)\.?\s*\d+(?:[.,]\d+|\s+\d+/\d+|[¼½¾])?\s*", re.I
)
_NOT_THERE = "none"


class Item(NamedTuple):
    """One thing to weigh."""

    window: str
    """The id of its window."""
    base: int
    """The revision of the window."""
    tag: str
    place: str
    """``upper`` or ``lower``."""
    side: str
    """``left`` or ``right``; empty for the sash itself."""
    weighed: str
    """What it weighed, as it was typed; empty where it has not been weighed."""
    is_wanted: bool
    """Whether anything hangs on its mass: of a fixed sash it is only good to know."""

    @property
    def path(self) -> str:
        """The field that its mass is kept in."""
        return ".".join(part for part in (self.place, self.side, "weighed") if part)

    @property
    def name(self) -> str:
        """Its address in the list: one word."""
        return f"{self.window}:{self.path}"

    @property
    def says(self) -> str:
        """What it is called at the bench."""
        names = {
            "upper": _("upper sash"),
            "lower": _("lower sash"),
            "upper.left": _("upper sash, left weight"),
            "upper.right": _("upper sash, right weight"),
            "lower.left": _("lower sash, left weight"),
            "lower.right": _("lower sash, right weight"),
        }
        return names[self.path.removesuffix(".weighed")]


def items_of(parts: Sequence[Standing]) -> list[Item]:
    """Give everything that can be weighed: each sash, then its left and its right weight."""
    return [item for part in parts if part.key.kind == "window" for item in _of_window(part)]


def _of_window(part: Standing) -> Iterator[Item]:
    for place in ("upper", "lower"):
        sash: dict[str, Any] | None = part.body.get(place)
        if sash is None:
            continue
        yield _item(part, place, "", sash)
        for side in ("left", "right"):
            weight = sash.get(side, {})
            if sash.get("runs") != "no" and weight.get("hung") != _NOT_THERE:
                yield _item(part, place, side, weight)


def _item(part: Standing, place: str, side: str, body: dict[str, Any]) -> Item:
    weighed = str(body.get("weighed", ""))
    runs = part.body[place].get("runs") != "no"
    return Item(part.key.ident, part.number, part.body["tag"], place, side, weighed, runs)


def next_to_weigh(items: Sequence[Item], after: str = "") -> Item | None:
    """Give the next thing that has not been weighed, beginning again at the top if need be."""
    names = [item.name for item in items]
    start = names.index(after) + 1 if after in names else 0
    waiting = (item for item in [*items[start:], *items[:start]] if item.is_wanted)
    return next((item for item in waiting if not item.weighed), None)


def as_read_off(text: str) -> str:
    """Give what was typed at the scale with the ounces that go without saying after pounds.

    Examples
    --------
    >>> as_read_off("5 lb 2"), as_read_off("5 lb 2 oz"), as_read_off("2.3 kg")
    ('5 lb 2 oz', '5 lb 2 oz', '2.3 kg')
    """
    return f"{text.strip()} oz" if _POUNDS_AND.fullmatch(text) else text.strip()
