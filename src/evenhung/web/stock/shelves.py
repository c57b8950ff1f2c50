"""The lists of a stock, and an item put into one of them, changed or taken out.

An item has no id: it is known by what it said when the page was made. So two people can work on
one list, and only what both have touched is asked about.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils.translation import gettext_lazy as _

from evenhung.survey.stock import Bar, MakeWeight, ReadyMade

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.utils.functional import _StrPromise

    from evenhung.survey.fields import Record


class Shelf(NamedTuple):
    """One list of a stock."""

    slug: str
    field: str
    """Its name in the survey, below ``stock``."""
    record: type[Record]
    title: _StrPromise
    one: _StrPromise
    """What one item of it is called."""

    @property
    def path(self) -> str:
        """Where it is in the house."""
        return f"stock.{self.field}"

    @property
    def paths(self) -> list[str]:
        """The fields of an item, as paths of the house."""
        return [f"{self.path}.{name}" for name in self.record.entries]

    def items(self, house: Mapping[str, Any]) -> list[dict[str, Any]]:
        """Give the items as plain data; none where the list is not stated."""
        found: list[dict[str, Any]] = house.get("stock", {}).get(self.field, [])
        return found

    def item(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Give an item as plain data, from values by the paths of the house."""
        return {
            name: values[f"{self.path}.{name}"]
            for name in self.record.entries
            if values.get(f"{self.path}.{name}") is not None
        }


SHELVES = {
    shelf.slug: shelf
    for shelf in (
        Shelf("make-weights", "make_weight", MakeWeight, _("Make-weights"), _("a make-weight")),
        Shelf("bars", "bar", Bar, _("Bars for new weights"), _("a bar")),
        Shelf(
            "ready-made", "ready_made", ReadyMade, _("Ready-made weights"), _("a ready-made weight")
        ),
    )
}


class Gone(Exception):
    """The item is not there any more as the page showed it: somebody has changed the list."""


def put(
    items: Sequence[dict[str, Any]], was: Mapping[str, Any] | None, now: dict[str, Any] | None
) -> list[dict[str, Any]]:
    """Give a list with one item changed, added or taken out.

    Parameters
    ----------
    items
        The list as it stands.
    was
        The item as the page showed it; None for a new one.
    now
        What it is to be; None takes it out.

    Raises
    ------
    Gone
        Where the list has no such item.

    Examples
    --------
    >>> put([{"mass": "1 lb"}, {"mass": "2 lb"}], {"mass": "1 lb"}, None)
    [{'mass': '2 lb'}]
    """
    instead = [] if now is None else [now]
    if was is None:
        return [*items, *instead]
    if was not in items:
        raise Gone
    place = list(items).index(dict(was))
    return [*items[:place], *instead, *items[place + 1 :]]
