"""The windows of a house as cards: a small drawing to scale, each verdict, and why.

A card is kept by what it was made from, so that a house of hundreds shows at once.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language

from evenhung.sheets.glyph import PIXELS_PER_MM, glyph_of
from evenhung.sheets.svg import svg_of
from evenhung.web.completion.proving import Told, Whole, told_of, was_tried
from evenhung.web.plans import common_to_windows, new_plan

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from evenhung.plan import SashPlan
    from evenhung.web.records.latest import Standing

_BETWEEN_TAGS = re.compile(r">\s*\n\s*<")

KEPT = 4096
"""Cards that each process keeps: about 3 kB each."""


FIRST = ("not proved", "unknown", "cannot run", "rehang", "adjust")
"""Verdicts that ask for something, in the order it is best done."""
MOST_STEPS = 3


class SashLine(NamedTuple):
    """What a card says of one sash."""

    place: str
    verdict: str
    reason: str
    cautions: int
    proof: str = ""
    """What is proved of it; empty where it was not tried."""
    why: str = ""

    @property
    def first(self) -> str:
        """The verdict that counts by now: that of the proof where it failed."""
        return self.proof if self.proof in FIRST else self.verdict

    @property
    def says(self) -> str:
        """That verdict and its reason."""
        return f"{self.first}: {self.why if self.first == self.proof else self.reason}"


class Card(NamedTuple):
    """A window in the list of windows, and as the page shows it."""

    ident: str
    tag: str
    room: str
    sashes: tuple[SashLine, ...]
    shown: SafeString


def window_cards(parts: Sequence[Standing], house: str) -> list[Card]:
    """Give the card of every window, in the order of the house.

    Parameters
    ----------
    parts
        The parts of the house as they stand.
    house
        The id of the house, for the address of each window.
    """
    common, language = common_to_windows(parts), get_language()
    windows = [part for part in parts if part.key.kind == "window"]
    whole = Whole(parts if any(was_tried(window.text) for window in windows) else ())
    return [
        _card(common, part.text, house, part.key.ident, language, told_of(common, part, whole))
        for part in windows
    ]


def proved(cards: Sequence[Card]) -> tuple[int, int] | None:
    """Give how many sashes are proved, and of how many that run; None where none was tried."""
    running = [sash for card in cards for sash in card.sashes if sash.verdict != "fixed"]
    if not any(sash.proof for sash in running):
        return None
    return sum(sash.proof == "proved" for sash in running), len(running)


def tally(cards: Sequence[Card]) -> dict[str, int]:
    """Count the verdicts of a house."""
    return dict(Counter(sash.verdict for card in cards for sash in card.sashes))


def next_steps(cards: Sequence[Card]) -> list[tuple[Card, SashLine]]:
    """Give what to do first: what failed, what is not known, what stops a sash, then the rest."""
    waiting = [
        (FIRST.index(sash.first), number, card, sash)
        for number, card in enumerate(cards)
        for sash in card.sashes
        if sash.first in FIRST and sash.proof != "proved"
    ]
    waiting.sort(key=lambda one: one[:2])
    return [(card, sash) for _, _, card, sash in waiting[:MOST_STEPS]]


@lru_cache(maxsize=KEPT)
def _card(
    common: str, window: str, house: str, ident: str, _language: str | None, proofs: Told
) -> Card:
    plan = new_plan(common, window)
    told = {place: (verdict, reason) for place, verdict, reason in proofs}
    sashes = tuple(_sash(sash, told) for sash in (plan.upper, plan.lower) if sash is not None)
    tag, room = plan.window.tag, plan.window.room or ""
    page = {
        "house": house,
        "ident": ident,
        "tag": tag,
        "room": room,
        "sashes": sashes,
        "glyph": mark_safe(svg_of(glyph_of(plan), pixels_per_mm=PIXELS_PER_MM)),  # noqa: S308 ours
    }
    shown = render_to_string("house/card.html", page)
    tight = _BETWEEN_TAGS.sub("><", shown)  # a third less to send, five hundred times
    return Card(ident, tag, room, sashes, mark_safe(tight))  # noqa: S308 escaped


def _sash(plan: SashPlan, told: Mapping[str, tuple[str, str]]) -> SashLine:
    cautions = sum(note.severity != "info" for note in plan.notes)
    verdict, reason = plan.judgement
    return SashLine(plan.place, verdict, reason, cautions, *told.get(plan.place, ()))
