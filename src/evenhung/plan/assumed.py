"""What is taken for granted where a survey is silent: reference rows by their path."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from evenhung.reference import look_up, sources
from evenhung.survey.fields import Record


class Assumed(NamedTuple):
    """A reference value in the program's own unit, with its spread and where it comes from."""

    value: float
    spread: float
    printed: str
    source: str


@cache
def assumed(path: str) -> Assumed:
    """Give the reference value at ``subject/key/property``.

    Examples
    --------
    >>> assumed("joinery/assumed sash/thickness").printed
    '44 mm'
    """
    row = look_up(*path.split("/"))
    printed = f"{row.value} {_SPOKEN_UNITS.get(row.unit, row.unit)}".strip()
    return Assumed(row.si, row.si_spread or 0.0, printed, source_of(path))


UNSOURCED = "common practice, no source"
"""What stands in the place of a source where there is none."""

_SPOKEN_UNITS = {"1": "", "pct": "%"}


@cache
def source_of(path: str) -> str:
    """Give where a reference row comes from, and how it is known, in one line."""
    row = look_up(*path.split("/"))
    if row.known == "common practice":
        return UNSOURCED
    if row.known == "ours":
        return "Evenhung's own assumption"
    title = sources()[row.source].title
    where = f"{title}, {row.locator}" if row.locator else title
    return f"{where} ({row.known})"


def stands_for(record: type[Record], field: str) -> str:
    """Give the reference row that stands for an absent field of the form."""
    return record.entries[field].row
