"""A programme as a page shows it: windows against days, and each window in words."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import groupby
from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

LETTERS = {
    "take out": ("O", gettext_lazy("sashes out")),
    "frame": ("F", gettext_lazy("its frame repaired")),
    "bench": ("B", gettext_lazy("at the bench")),
    "refit": ("R", gettext_lazy("back in")),
    "in place": ("P", gettext_lazy("all in one visit, in place")),
}
"""What stands in the chart for a stage; a coat of paint has its number."""
CLASSES = {
    "take out": "out",
    "frame": "bench",
    "bench": "bench",
    "refit": "refit",
    "in place": "refit",
}
"""How a stage looks; a coat of paint has a look of its own."""
BOARDED = "·"


class Day(NamedTuple):
    """One column of the chart."""

    day: date
    is_off: bool


class Cell(NamedTuple):
    """What is done at one window on one day."""

    text: str
    stage: str
    """A class for the page: ``out``, ``bench``, ``paint``, ``refit``, ``boarded``, ``off``."""


class Row(NamedTuple):
    """One window of the chart."""

    tag: str
    ident: str
    cells: tuple[Cell, ...]


class Month(NamedTuple):
    """Some columns of the chart that lie in one month."""

    name: str
    days: int


class Chart(NamedTuple):
    """Windows against days."""

    months: tuple[Month, ...]
    days: tuple[Day, ...]
    rows: tuple[Row, ...]


class Step(NamedTuple):
    """One stage at a window, in words."""

    name: str
    when: str
    hours: float
    is_begun: bool


class Visit(NamedTuple):
    """One window in words."""

    tag: str
    room: str
    ident: str
    out: date
    back: date
    nights: int
    steps: tuple[Step, ...]


def visits_of(programme: Mapping[str, Any]) -> list[Visit]:
    """Give the windows of a programme in the order in which they are begun."""
    return [
        Visit(
            one["tag"],
            one["room"] or "",
            ident or "",
            date.fromisoformat(one["out"]),
            date.fromisoformat(one["in"]),
            one["nights"],
            tuple(
                Step(step["name"], _when(step), step["hours"], step["is_begun"])
                for step in one["steps"]
            ),
        )
        for one, ident in zip(programme["windows"], programme["ids"], strict=True)
    ]


def chart_of(programme: Mapping[str, Any], first: int, last: int) -> Chart:
    """Give the chart of some windows of a programme, in whole weeks.

    Parameters
    ----------
    programme
        As `last_programme` gives it.
    first
        The first window of the chart, by its place in the programme.
    last
        The window after the last one.
    """
    shown = list(zip(programme["windows"], programme["ids"], strict=True))[first:last]
    off = {date.fromisoformat(day) for day in programme["off"]}
    days = tuple(Day(day, day in off) for day in _days([one for one, _ in shown]))
    months = tuple(
        Month(name, len(list(found)))
        for name, found in groupby(date_format(one.day, "F Y") for one in days)
    )
    rows = tuple(
        Row(one["tag"], ident or "", tuple(_cell(one, day) for day in days)) for one, ident in shown
    )
    return Chart(months, days, rows)


def _days(windows: Sequence[Mapping[str, Any]]) -> Iterator[date]:
    """Give every day from the Monday before the first to the Sunday after the last."""
    if not windows:
        return
    first = min(date.fromisoformat(one["out"]) for one in windows)
    last = max(date.fromisoformat(one["in"]) for one in windows)
    day = first - timedelta(days=first.weekday())
    while day <= last or day.weekday():
        yield day
        day += timedelta(days=1)


def _cell(window: Mapping[str, Any], day: Day) -> Cell:
    on = day.day.isoformat()
    done = [step["name"] for step in window["steps"] if step["first"] <= on <= step["last"]]
    if done and not day.is_off:
        return Cell("".join(_letter(name) for name in done), _stage(done[-1]))
    if window["out"] < on < window["in"]:
        return Cell(BOARDED, "boarded")
    return Cell("", "off" if day.is_off else "")


def _letter(name: str) -> str:
    letter, _says = LETTERS.get(name, (name.rpartition(" ")[2], ""))
    return letter


def _stage(name: str) -> str:
    return CLASSES.get(name, "paint")


def _when(step: Mapping[str, Any]) -> str:
    first, last = (written(date.fromisoformat(step[end])) for end in ("first", "last"))
    return first if first == last else _("%(first)s to %(last)s") % {"first": first, "last": last}


def written(day: date) -> str:
    """Write a day for people.

    Examples
    --------
    >>> written(date(2026, 3, 9))
    'Mon 9 Mar 2026'
    """
    return date_format(day, "D j M Y")
