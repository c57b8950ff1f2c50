"""What a sound survey leaves open, field by field, and what follows from each gap."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.reference import look_up
from evenhung.survey.fields import Record

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.survey.document import Survey


class Gap(NamedTuple):
    """One field that could be stated and is not."""

    path: str
    kind: str
    """``left out``: a check is not made for want of it; ``assumed``: the reference stands in."""
    meaning: str


def gaps_in(survey: Survey) -> Iterator[Gap]:
    """Give the gaps of a survey, those that leave a check out first."""
    gaps = list(_gaps(survey, ""))
    yield from (gap for gap in gaps if gap.kind == "left out")
    yield from (gap for gap in gaps if gap.kind == "assumed")


def _gaps(part: Record, path: str) -> Iterator[Gap]:
    for name, entry in part.entries.items():
        here = f"{path}.{name}".lstrip(".")
        value = getattr(part, name)
        if isinstance(value, Record):
            yield from _gaps(value, here)
        elif isinstance(value, tuple) and entry.part is not None:
            for number, one in enumerate(value):
                yield from _gaps(one, f"{here}[{number}]")
        elif name not in vars(part) and part.wants(name):
            if entry.row:
                row = look_up(*entry.row.split("/"))
                value = f"{row.value} {_SPOKEN_UNITS.get(row.unit, row.unit)}".strip()
                yield Gap(here, "assumed", f"{entry.says}: taken as {value} ({row.known})")
            elif entry.leaves_out:
                yield Gap(here, "left out", f"{entry.says}: without it, {entry.absent}")


_SPOKEN_UNITS = {"1": "", "pct": "%"}
