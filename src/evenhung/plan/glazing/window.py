"""The glazing of one window: the panes worked on, and what the rules say of those renewed."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import source_of
from evenhung.plan.catalogue import note
from evenhung.plan.glazing.panes import pane_work_on
from evenhung.plan.glazing.safety import answers_on_a_pane, answers_on_an_opening
from evenhung.plan.glazing.standing import opening_of, standing_of
from evenhung.reference import look_up

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan.glazing.panes import PaneWork
    from evenhung.plan.glazing.safety import Answer
    from evenhung.plan.repair.house import WindowRepair
    from evenhung.plan.words import Words


class PaneAnswers(NamedTuple):
    """What the rules say of one new pane."""

    pane: PaneWork
    answers: tuple[Answer, ...]


class WindowGlazing(NamedTuple):
    """The glazing of one window."""

    panes: tuple[PaneWork, ...]
    safety: tuple[PaneAnswers, ...]
    """Of each pane that is renewed."""
    guarding: tuple[Answer, ...]
    """Of the opening, where the survey says where it stands."""
    notes: tuple[Note, ...]


def glazing_of(repair: WindowRepair, words: Words, *, rules: str | None) -> WindowGlazing:
    """Give the glazing of one window.

    Parameters
    ----------
    repair
        Its repair.
    words
        How lengths are written.
    rules
        Whose rules are held against it: ``england``, ``united states``, or None for both.
    """
    panes = tuple(pane_work_on(repair))
    safety = tuple(
        PaneAnswers(pane, tuple(answers_on_a_pane(standing, words, rules=rules)))
        for pane in panes
        if pane.what == "renew pane"
        for standing in [
            standing_of(repair.window, repair.sorts.panes[pane.place], pane.row),
        ]
    )
    opening = opening_of(repair.window) if repair.window.place is not None else None
    guarding = (
        tuple(answers_on_an_opening(opening, words, rules=rules)) if opening is not None else ()
    )
    notes = tuple(dict.fromkeys((*_notes(safety, guarding), *_not_checked(safety, rules))))
    return WindowGlazing(panes, safety, guarding, notes)


_CODES = {"england": ("approved document K",), "united states": ("IRC",)}
"""Whose rules are in which code."""


def _not_checked(safety: tuple[PaneAnswers, ...], rules: str | None) -> Iterator[Note]:
    """Say of new panes what no rule here looks at: baths, stairs, rails."""
    if not safety:
        return
    codes = [code for whose, named in _CODES.items() if rules in (None, whose) for code in named]
    what = " ".join(look_up("safety", code, "not_checked").value for code in codes)
    repair, rows = "", [f"safety/{code}/not_checked" for code in codes]
    if "approved document K" in codes:
        repair = f" {look_up('safety', 'approved document K', 'repair').value}"
        rows.append("safety/approved document K/repair")
    sources = "; ".join(dict.fromkeys(source_of(row) for row in rows))
    yield note("glass-not-checked", sources, what=what, repair=repair)


def _notes(safety: tuple[PaneAnswers, ...], guarding: tuple[Answer, ...]) -> Iterator[Note]:
    deference = look_up("safety", "safety glass", "deference").value
    if safety:
        yield note("measure-rebates", source_of("glass/assumed pane/edge_clearance"))
    for pane, answers in safety:
        for one in answers:
            if one.applies:
                text = {"pane": pane.name, "says": f"{one.rule}: {one.says}"}
                yield note("safety-glass", one.source, **text, deference=deference)
            elif one.applies is None:
                text = {"pane": f"{pane.place} sash, new panes", "rule": one.rule}
                yield note(
                    "safety-glass-unknown",
                    one.source,
                    **text,
                    missing=one.missing,
                    deference=deference,
                )
    for one in guarding:
        if one.applies:
            says = f"{one.rule}: {one.says}"
            yield note("guarding", one.source, says=says, deference=deference)
