"""What the list of houses says of each: read from the records alone, without any plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.db.models import Count, F, OuterRef, Q, Subquery

from evenhung.web.records.models import Change, House, Revision

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime


class Listed(NamedTuple):
    """One house in the list."""

    ident: str
    name: str
    windows: int
    last_change: str
    when: datetime
    who: str


def listed_houses() -> Iterator[Listed]:
    """Give the houses that are not put away, the one changed last first."""
    latest = Change.objects.filter(house=OuterRef("pk")).order_by("-number")
    house_part = Revision.objects.filter(
        part__house=OuterRef("pk"), part__kind="house", part__latest=F("id")
    )
    has_window = Q(parts__kind="window") & ~Q(parts__latest__text="")
    houses = House.objects.filter(is_put_away=False).annotate(
        text=Subquery(house_part.values("text")[:1]),
        windows=Count("parts", filter=has_window),
        last_change=Subquery(latest.values("summary")[:1]),
        when=Subquery(latest.values("when")[:1]),
        who=Subquery(latest.values("who")[:1]),
    )
    for house in sorted(houses, key=lambda house: house.when, reverse=True):
        name = Revision(text=house.text).body or {}
        yield Listed(
            house.pk, name.get("name", ""), house.windows, house.last_change, house.when, house.who
        )
