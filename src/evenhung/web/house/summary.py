"""What the page of a house says of each window: from plans made window by window, and kept.

A plan is never truth: it is worked out again whenever the house, the window or the program has
changed, which is what it is kept by.
"""

from __future__ import annotations

import json
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.plan import plan_house
from evenhung.store.parts import has_ids
from evenhung.survey import survey_from
from evenhung.web.records.latest import Standing, survey_document

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan import SashPlan, WindowPlan

KEPT_PLANS, KEPT_LINES = 64, 4096
"""Plans of windows and lines about them that each process keeps."""


class SashLine(NamedTuple):
    """What is said of one sash in the list of windows."""

    place: str
    verdict: str
    reason: str
    cautions: int


class WindowLine(NamedTuple):
    """What is said of one window."""

    ident: str
    tag: str
    room: str
    sashes: tuple[SashLine, ...]


def window_plan(parts: Sequence[Standing], ident: str) -> WindowPlan:
    """Give the plan of one window, as the house and the window now stand.

    Raises
    ------
    LookupError
        Where the house has no such window.
    """
    for part in parts:
        if part.key == ("window", ident):
            return _plan(_common(parts), json.dumps(part.body))
    raise LookupError(f"no window {ident}")


def window_lines(parts: Sequence[Standing]) -> list[WindowLine]:
    """Give a line for every window, in the order of the house."""
    common = _common(parts)
    return [
        _line(common, json.dumps(part.body), part.key.ident)
        for part in parts
        if part.key.kind == "window"
    ]


def tally(lines: Sequence[WindowLine]) -> dict[str, int]:
    """Count the verdicts of a house."""
    return dict(Counter(sash.verdict for line in lines for sash in line.sashes))


def _common(parts: Sequence[Standing]) -> str:
    """Give all that a window's plan may depend on besides the window."""
    return json.dumps(survey_document(part for part in parts if not has_ids(part.key.kind)))


@lru_cache(maxsize=KEPT_PLANS)
def _plan(common: str, window: str) -> WindowPlan:
    return _planned(common, window)


@lru_cache(maxsize=KEPT_LINES)
def _line(common: str, window: str, ident: str) -> WindowLine:
    plan = _planned(common, window)
    sashes = tuple(_sash(sash) for sash in (plan.upper, plan.lower) if sash is not None)
    return WindowLine(ident, plan.window.tag, plan.window.room or "", sashes)


def _planned(common: str, window: str) -> WindowPlan:
    document: dict[str, Any] = {**json.loads(common), "window": [json.loads(window)]}
    return plan_house(survey_from(document)).windows[0]


def _sash(plan: SashPlan) -> SashLine:
    cautions = sum(note.severity != "info" for note in plan.notes)
    return SashLine(plan.place, plan.judgement.verdict, plan.judgement.reason, cautions)
