"""The panes to order: those alike together, each with what the rules on safety glass say of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.glazing.safety import Answer
    from evenhung.plan.glazing.window import PaneAnswers, WindowGlazing


class GlassLine(NamedTuple):
    """Panes alike."""

    width_mm: float
    height_mm: float
    sheet_mm: float
    sheets: int
    is_historic: bool
    """To be matched to old glass."""
    is_safety: bool | None
    """Whether a rule may ask for safety glass; None where that is not known."""
    number: int
    windows: tuple[str, ...]


class Said(NamedTuple):
    """What one rule says of some of the panes."""

    answer: Answer
    panes: tuple[str, ...]
    """Each pane by its window and its place."""


class GlassOrder(NamedTuple):
    """Panes alike, where they go, and what the rules say of them."""

    line: GlassLine
    panes: tuple[str, ...]
    """Each pane by its window and its place."""
    said: tuple[Said, ...]
    """Rules that apply, and rules of which that is not known."""


def glass_orders(glazing: Sequence[WindowGlazing]) -> list[GlassOrder]:
    """Group the panes that are renewed, the largest first.

    Parameters
    ----------
    glazing
        The glazing of every window of a house.

    Returns
    -------
    list of GlassOrder
        Panes of one size that a rule may ask safety glass of stand apart from those it does not.
    """
    alike: dict[tuple[float, float, float, int, bool, bool | None], list[PaneAnswers]] = {}
    for one in (pane for window in glazing for pane in window.safety):
        pane = one.pane
        key = (pane.width_mm, pane.height_mm, pane.sheet_mm, pane.sheets, pane.is_historic)
        alike.setdefault((*key, _is_safety(one.answers)), []).append(one)
    order = sorted(alike, key=lambda key: (-key[0] * key[1], key[:5], str(key[5])))
    return [
        _order(GlassLine(*key, len(panes), _windows(panes)), panes)
        for key in order
        for panes in [alike[key]]
    ]


def _is_safety(answers: Sequence[Answer]) -> bool | None:
    """Join the rules: one that applies is enough."""
    found = {one.applies for one in answers}
    if True in found:
        return True
    return None if None in found else False


def _windows(panes: Sequence[PaneAnswers]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.pane.window for one in panes))


def _order(line: GlassLine, panes: Sequence[PaneAnswers]) -> GlassOrder:
    return GlassOrder(line, tuple(_named(one) for one in panes), tuple(_said(panes)))


def _named(one: PaneAnswers) -> str:
    return f"{one.pane.window} {one.pane.name}"


def _said(panes: Sequence[PaneAnswers]) -> Iterator[Said]:
    """Give each rule that says something, once, with the panes that it says it of."""
    found: dict[Answer, list[str]] = {}
    for pane in panes:
        for answer in pane.answers:
            if answer.applies is not False:
                found.setdefault(answer, []).append(_named(pane))
    for answer, named in found.items():
        yield Said(answer, tuple(named))
