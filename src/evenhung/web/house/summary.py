"""What the page of a house says of each window: from plans made window by window, and kept.

A plan is never truth: it is worked out again whenever the house, the window or the program has
changed, which is what it is kept by.
"""

from __future__ import annotations

import json
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language

from evenhung.plan import plan_house
from evenhung.store.parts import has_ids
from evenhung.survey import survey_from
from evenhung.web.records.latest import Standing, survey_document

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan import SashPlan, WindowPlan

KEPT_PLANS, KEPT_CARDS = 64, 4096
"""Plans of windows, and cards of them, that each process keeps."""


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


class Card(NamedTuple):
    """A window in the list of windows: what is said of it, and as the page shows it."""

    line: WindowLine
    shown: SafeString


def window_plan(parts: Sequence[Standing], ident: str) -> WindowPlan:
    """Give the plan of one window, as the house and the window now stand.

    Raises
    ------
    LookupError
        Where the house has no such window.
    """
    for part in parts:
        if part.key == ("window", ident):
            return _plan(_common(parts), part.text)
    raise LookupError(f"no window {ident}")


def window_cards(parts: Sequence[Standing], house: str) -> list[Card]:
    """Give the card of every window, in the order of the house.

    Parameters
    ----------
    parts
        The parts of the house as they stand.
    house
        The id of the house, for the address of each window.
    """
    common, language = _common(parts), get_language()
    return [
        _card(common, part.text, house, part.key.ident, language)
        for part in parts
        if part.key.kind == "window"
    ]


def tally(cards: Sequence[Card]) -> dict[str, int]:
    """Count the verdicts of a house."""
    return dict(Counter(sash.verdict for card in cards for sash in card.line.sashes))


def _common(parts: Sequence[Standing]) -> str:
    """Give all that a window's plan may depend on besides the window."""
    return json.dumps(survey_document(part for part in parts if not has_ids(part.key.kind)))


@lru_cache(maxsize=KEPT_PLANS)
def _plan(common: str, window: str) -> WindowPlan:
    return _planned(common, window)


@lru_cache(maxsize=KEPT_CARDS)
def _card(common: str, window: str, house: str, ident: str, _language: str | None) -> Card:
    plan = _planned(common, window)
    sashes = tuple(_sash(sash) for sash in (plan.upper, plan.lower) if sash is not None)
    line = WindowLine(ident, plan.window.tag, plan.window.room or "", sashes)
    shown = render_to_string("house/card.html", {"house": house, "line": line, "plan": plan})
    return Card(line, mark_safe(shown))  # noqa: S308 a template of ours has escaped it


def _planned(common: str, window: str) -> WindowPlan:
    document: dict[str, Any] = {**json.loads(common), "window": [json.loads(window)]}
    return plan_house(survey_from(document)).windows[0]


def _sash(plan: SashPlan) -> SashLine:
    cautions = sum(note.severity != "info" for note in plan.notes)
    return SashLine(plan.place, plan.judgement.verdict, plan.judgement.reason, cautions)
