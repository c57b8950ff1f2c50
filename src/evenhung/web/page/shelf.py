"""A list within a part of a house, and an item put into it, changed or taken out.

An item has no id: it is known by what it said when the page was made. So two people can work on
one list, and only what both have touched is asked about.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.web.page.alone import drawn_in, spread_out
from evenhung.web.records.fields import flat, with_fields
from evenhung.web.records.wording import spoken

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.utils.functional import _StrPromise

    from evenhung.survey.fields import Record


class Narrowed(NamedTuple):
    """What can be chosen in one field, by what is chosen in another of the same item."""

    by: str
    """The other field."""
    allowed: Mapping[str, Sequence[str]]
    """By what the other field holds."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """A list of the survey, as pages show it.

    Parameters
    ----------
    slug
        Its name in an address.
    kind
        The kind of part that it is in: ``house``, ``window``.
    path
        Where it is in that part: ``stock.make_weight``.
    record
        What an item of it is.
    title
        What it is called.
    one
        What one item of it is called, with its article.
    groups
        The fields of an item by the headings they stand under; every field has its place.
    choices
        What can be chosen where the form of the survey does not list it, by field.
    narrowed
        Fields in which less can be chosen once another is known.
    photos
        The field that names the photos which show an item; empty where none can.
    """

    slug: str
    kind: str
    path: str
    record: type[Record]
    title: _StrPromise
    one: _StrPromise
    groups: Mapping[_StrPromise, Sequence[str]]
    choices: Mapping[str, Sequence[tuple[str, str]]] = field(default_factory=dict)
    narrowed: Mapping[str, Narrowed] = field(default_factory=dict)
    photos: str = ""

    @property
    def paths(self) -> list[str]:
        """The fields of an item that are typed into, as paths of the part."""
        return [f"{self.path}.{name}" for names in self.groups.values() for name in names]

    def items(self, body: Mapping[str, Any]) -> list[dict[str, Any]]:
        """Give the items of a part as plain data; none where the list is not stated."""
        found: Any = body
        for name in self.path.split("."):
            found = found.get(name, {})
        return list(found)

    def item(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Give an item as plain data, from values by the paths of the part."""
        begun = f"{self.path}."
        named = [begun + self.photos] if self.photos else []
        own = {path.removeprefix(begun): values.get(path) for path in [*self.paths, *named]}
        stated = drawn_in(with_fields(None, own), self.record.entries)
        return {name: stated[name] for name in self.record.entries if name in stated}

    def shown(self, item: Mapping[str, Any]) -> dict[str, str]:
        """Give what stands in the fields of a form for an item, by the paths of the part."""
        fields = flat(spread_out(item, self.record.entries))
        return {f"{self.path}.{name}": spoken(value) for name, value in fields.items()}


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
