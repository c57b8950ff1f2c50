"""What is done about what was found of a window, as its page says it, with its drawing."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from django.utils.safestring import SafeString, mark_safe

from evenhung.plan.overhaul import overhaul_of
from evenhung.sheets.elevation.fabric import fabric_of
from evenhung.sheets.svg import svg_of
from evenhung.web.condition.sentences import finding_line, symptom_line
from evenhung.web.plans import kept_house_of_one

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.notes import Note
    from evenhung.plan.glazing.panes import PaneWork
    from evenhung.plan.overhaul import WindowOverhaul
    from evenhung.plan.repair.diagnosis import Ask, Suspect, SymptomPlan
    from evenhung.plan.repair.fabric import Fabric
    from evenhung.plan.repair.splice import Splice
    from evenhung.plan.repair.treatment import Treatment

KEPT = 64
"""Windows that each process keeps this of: about 30 kB each."""


class Treated(NamedTuple):
    """One finding and what is done about it."""

    says: str
    what: str
    why: str
    proposed: str
    """What would be done by itself, where the survey has decided otherwise; else empty."""
    splice: Splice | None


class Asked(NamedTuple):
    """One symptom: what it most likely comes of, and what to try first."""

    says: str
    likely: Suspect
    first: Ask
    others: tuple[Ask, ...]


class Glass(NamedTuple):
    """Panes of one size that the same is done to."""

    number: int
    pane: PaneWork


class Doing(NamedTuple):
    """All that is done to one window beside hanging it."""

    treated: tuple[Treated, ...]
    asked: tuple[Asked, ...]
    glass: tuple[Glass, ...]
    fabric: Fabric
    notes: tuple[Note, ...]
    drawing: SafeString
    """Empty where nothing was found to be treated."""


@lru_cache(maxsize=KEPT)
def doing_at(common: str, window: str) -> Doing | None:
    """Give what is done to a window; None where nothing was found of it.

    Parameters
    ----------
    common
        The rest of its house, as `common_to_windows` gives it.
    window
        The window as it is kept.
    """
    plan = kept_house_of_one(common, window)
    overhaul = overhaul_of(plan)
    if overhaul is None:
        return None
    (one,) = overhaul.windows
    if not (one.repair.is_asked_for or one.notes):
        return None
    findings = plan.windows[0].window.as_typed().get("finding", [])
    svg = svg_of(fabric_of(plan.windows[0], one)) if findings else ""
    return Doing(
        tuple(_treated(one, findings)),
        tuple(_asked(symptom) for symptom in one.repair.symptoms),
        tuple(_glass(one.glazing.panes)),
        one.repair.fabric,
        one.notes,
        mark_safe(svg),  # noqa: S308 escaped by its writer
    )


def _treated(overhaul: WindowOverhaul, findings: Iterable[dict[str, object]]) -> Iterator[Treated]:
    for treatment, finding in zip(overhaul.repair.treatments, findings, strict=True):
        yield Treated(
            finding_line({name: finding[name] for name in finding if name != "treatment"}),
            treatment.what,
            treatment.why,
            _instead_of(treatment),
            treatment.splice,
        )


def _instead_of(treatment: Treatment) -> str:
    return treatment.proposed.what if treatment.is_overridden else ""


def _asked(plan: SymptomPlan) -> Asked:
    first, *others = plan.tests
    return Asked(symptom_line(plan.symptom.as_typed()), plan.suspects[0], first, tuple(others))


def _glass(panes: Iterable[PaneWork]) -> Iterator[Glass]:
    """Put panes together that are ordered or bedded alike."""
    alike: dict[tuple[object, ...], list[PaneWork]] = {}
    for pane in panes:
        key = (pane.place, pane.what, pane.width_mm, pane.height_mm, pane.is_historic)
        alike.setdefault(key, []).append(pane)
    for found in alike.values():
        yield Glass(len(found), found[0])
