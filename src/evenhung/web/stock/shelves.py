"""The lists of a stock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy as _

from evenhung.survey.stock import Bar, MakeWeight, ReadyMade
from evenhung.web.page.shelf import Shelf

if TYPE_CHECKING:
    from django.utils.functional import _StrPromise

    from evenhung.survey.fields import Record


def _shelf(
    slug: str, field: str, record: type[Record], title: _StrPromise, one: _StrPromise
) -> Shelf:
    groups = {_("As it is sold"): tuple(record.entries)}
    return Shelf(slug, "house", f"stock.{field}", record, title, one, groups)


SHELVES = {
    shelf.slug: shelf
    for shelf in (
        _shelf("make-weights", "make_weight", MakeWeight, _("Make-weights"), _("a make-weight")),
        _shelf("bars", "bar", Bar, _("Bars for new weights"), _("a bar")),
        _shelf(
            "ready-made", "ready_made", ReadyMade, _("Ready-made weights"), _("a ready-made weight")
        ),
    )
}
