"""When a room is needed: the list of a window, and each of its items in words."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from evenhung.survey.programme import Needed
from evenhung.web.page.items import rows_of
from evenhung.web.page.shelf import Shelf
from evenhung.web.programme.chart import written

if TYPE_CHECKING:
    from collections.abc import Mapping

NEEDED = Shelf(
    "needed",
    "window",
    "needed",
    Needed,
    gettext_lazy("When its room is needed"),
    gettext_lazy("days"),
    {gettext_lazy("Days on which it is whole and left alone"): ("first", "last", "note")},
)


def needed_at(window: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Give the days on which the room of a window is needed, with what their forms send back."""
    return [{**row, "says": needed_line(row["item"])} for row in rows_of(NEEDED, window)]


def needed_line(needed: Mapping[str, Any]) -> str:
    """Say when a room is needed.

    Examples
    --------
    >>> needed_line({"first": "2026-03-09", "last": "2026-03-11", "note": "guests"})
    'Mon 9 Mar 2026 to Wed 11 Mar 2026, guests'
    """
    first, last = (written(date.fromisoformat(needed.get(end, needed["first"]))) for end in _ENDS)
    said = first if first == last else _("%(first)s to %(last)s") % {"first": first, "last": last}
    return ", ".join(filter(None, (said, needed.get("note"))))


_ENDS = ("first", "last")
