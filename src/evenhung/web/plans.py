"""Plans of windows and surveys of houses, kept by what they were made from.

A plan is never truth: it is made again whenever the house, the window or the program has changed,
and what is kept can be dropped at any time.
"""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from evenhung.plan import plan_house
from evenhung.store.parts import Key, Part, document_of, has_ids, record_of
from evenhung.survey import survey_from
from evenhung.web.records.latest import Standing, survey_document

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from evenhung.plan import WindowPlan
    from evenhung.plan.house import HousePlan
    from evenhung.survey import Survey

Surveyed: TypeAlias = "tuple[tuple[Key, str], ...]"
"""The parts of a survey as they are kept, in their order."""

KEPT = 64
"""Plans that each process keeps."""


KEPT_SURVEYS = 4
"""Surveys that each process keeps: that of 500 windows takes a third of a second to read."""


def surveyed(parts: Iterable[Standing]) -> Surveyed:
    """Give those parts of a house that its survey is made of, to keep by what is made of them."""
    return tuple((part.key, part.text) for part in parts if record_of(part.key.kind) is not None)


def kept_survey(parts: Iterable[Standing]) -> Survey:
    """Give the survey that the parts of a house make; kept for a while."""
    return survey_made_of(surveyed(parts))


@lru_cache(maxsize=KEPT_SURVEYS)
def survey_made_of(parts: Surveyed) -> Survey:
    """Give the survey that is made of its parts; kept for a while."""
    return survey_from(document_of(Part(key, json.loads(text)) for key, text in parts))


def common_to_windows(parts: Sequence[Standing]) -> str:
    """Give all that the plan of a window may depend on besides the window, as text."""
    return json.dumps(survey_document(part for part in parts if not has_ids(part.key.kind)))


def standing_window(parts: Sequence[Standing], ident: str) -> Standing:
    """Give a window as it stands.

    Raises
    ------
    LookupError
        Where the house has no such window.
    """
    for part in parts:
        if part.key == ("window", ident):
            return part
    raise LookupError(f"no window {ident}")


def kept_plan(common: str, window: str) -> WindowPlan:
    """Give the plan of a window from what it is made from; kept for a while."""
    return kept_house_of_one(common, window).windows[0]


@lru_cache(maxsize=KEPT)
def kept_house_of_one(common: str, window: str) -> HousePlan:
    """Give the plan of a house as if it had this window alone; kept for a while."""
    return new_house_of_one(common, window)


def new_plan(common: str, window: str) -> WindowPlan:
    """Make the plan of a window: the house as `common_to_windows` gives it, and the window."""
    return new_house_of_one(common, window).windows[0]


def new_house_of_one(common: str, window: str) -> HousePlan:
    """Plan a house as if it had this window alone.

    The one that it is to follow is not there, and has no part in its plan.
    """
    alone = json.loads(window)
    alone.pop("after", None)
    return plan_house(survey_from({**json.loads(common), "window": [alone]}))
