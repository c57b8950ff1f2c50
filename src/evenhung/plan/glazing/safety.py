"""The rules on safety glass and guarding, held against where a pane stands.

A rule answers true, false, or None where what it asks for is not known. The answer is a caution:
the local authority says what the rule means for a repair.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed, source_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from evenhung.plan.glazing.standing import Opening, Standing
    from evenhung.plan.words import Words

SLACK_MM = 1e-6
"""Lengths closer than this are equal: they differ by arithmetic alone."""

MM2_IN_M2 = 1e6
FT2_IN_M2 = 0.3048**2
"""A square foot, exactly (1959 agreement)."""


class Answer(NamedTuple):
    """What a rule says of one pane, or of one opening."""

    rule: str
    """Its name for people."""
    applies: bool | None
    says: str
    """Why it applies; empty where it does not."""
    missing: str
    """What would have to be known; empty where nothing is missing."""
    source: str


def under(value: float, limit: float) -> bool | None:
    """Tell whether a value is less than a limit; None where it is nan.

    Examples
    --------
    >>> under(799.0, 800.0), under(800.0, 800.0), under(float("nan"), 800.0)
    (True, False, None)
    """
    return None if math.isnan(value) else value < limit - SLACK_MM


def over(value: float, limit: float) -> bool | None:
    """Tell whether a value is more than a limit; None where it is nan."""
    return None if math.isnan(value) else value > limit + SLACK_MM


def within(value: float, limit: float) -> bool | None:
    """Tell whether a value is a limit at most; None where it is nan."""
    return None if math.isnan(value) else value <= limit + SLACK_MM


def all_of(*answers: bool | None) -> bool | None:
    """Join answers of which all must hold: one that does not decides, whatever is not known.

    Examples
    --------
    >>> all_of(True, None), all_of(False, None), all_of(True, True)
    (None, False, True)
    """
    if False in answers:
        return False
    return None if None in answers else True


def answers_on_a_pane(pane: Standing, words: Words, *, rules: str | None) -> Iterator[Answer]:
    """Give what the rules on safety glass say of one pane.

    Parameters
    ----------
    pane
        Where it stands.
    words
        How lengths are written.
    rules
        ``england``, ``united states``, or None for both.
    """
    for whose, judge in _ON_A_PANE:
        if rules in (None, whose):
            yield judge(pane, words)


def answers_on_an_opening(opening: Opening, words: Words, *, rules: str | None) -> Iterator[Answer]:
    """Give what the rules on guarding say of one opening; parameters as for a pane."""
    for whose, judge in _ON_AN_OPENING:
        if rules in (None, whose):
            yield judge(opening, words)


def is_small_pane(pane: Standing) -> bool:
    """Tell whether a pane is small and thick enough to be let off by Approved Document K."""
    least = min(pane.width_mm, pane.height_mm)
    is_narrow = least <= _limit("approved document K", "small_pane_width_most") + SLACK_MM
    most = _limit("approved document K", "small_pane_area_most")
    is_thick = pane.glass_mm >= (
        _limit("approved document K", "small_pane_thickness_least") - SLACK_MM
    )
    return is_narrow and pane.area_mm2 / MM2_IN_M2 <= most + 1e-9 and is_thick


def _limit(key: str, row: str) -> float:
    return assumed(f"safety/{key}/{row}").value


def _missing(**known: float) -> str:
    return ", ".join(name.replace("_", " ") for name, mm in known.items() if math.isnan(mm))


def _answer(rule: str, applies: bool | None, says: str, missing: str, row: str) -> Answer:
    return Answer(
        rule,
        applies,
        says if applies else "",
        missing if applies is None else "",
        source_of(f"safety/{row}"),
    )


def _low_in_a_wall(pane: Standing, words: Words) -> Answer:
    limit = _limit("approved document K", "wall_below")
    applies = all_of(under(pane.bottom_mm, limit), not is_small_pane(pane))
    return _answer(
        "Approved Document K, low in a wall",
        applies,
        f"its glass begins {_at(words, pane.bottom_mm)} above the floor, "
        f"under {words.length(limit)}",
        _missing(sill_above_floor=pane.bottom_mm),
        "approved document K/wall_below",
    )


def _at(words: Words, mm: float) -> str:
    return "at an unknown height" if math.isnan(mm) else words.length(max(0.0, mm))


def _by_a_door_in_england(pane: Standing, words: Words) -> Answer:
    near, high = (
        _limit("approved document K", "door_within"),
        _limit("approved document K", "door_below"),
    )
    applies = all_of(
        within(pane.door_mm, near), under(pane.bottom_mm, high), not is_small_pane(pane)
    )
    grade = 2 if pane.width_mm > _limit("approved document K", "wide_panel_over") + SLACK_MM else 3
    return _answer(
        "Approved Document K, beside a door",
        applies,
        f"it is {_at(words, pane.door_mm)} from a door and begins {_at(words, pane.bottom_mm)} "
        f"above the floor (class {grade} of EN 12600)",
        _missing(sill_above_floor=pane.bottom_mm, door_away=pane.door_mm),
        "approved document K/door_within",
    )


def _large_and_low(pane: Standing, words: Words) -> Answer:
    area = _limit("IRC", "window_area_over") * MM2_IN_M2
    applies = all_of(
        over(pane.area_mm2, area),
        under(pane.bottom_mm, _limit("IRC", "window_bottom_below")),
        over(pane.top_mm, _limit("IRC", "window_top_over")),
        within(pane.walking_mm, _limit("IRC", "walking_within")),
    )
    square = pane.area_mm2 / MM2_IN_M2
    return _answer(
        "IRC R308.4.3, large and low",
        applies,
        f"{square:.2f} m2 ({square / FT2_IN_M2:.1f} ft2) of glass "
        f"from {_at(words, pane.bottom_mm)} to {_at(words, pane.top_mm)} above the floor, "
        f"{_at(words, pane.walking_mm)} from where people walk",
        _missing(sill_above_floor=pane.bottom_mm, walking_away=pane.walking_mm),
        "IRC/window_area_over",
    )


def _by_a_door_in_the_states(pane: Standing, words: Words) -> Answer:
    applies = all_of(
        within(pane.door_mm, _limit("IRC", "door_within")),
        under(pane.bottom_mm, _limit("IRC", "door_below")),
    )
    return _answer(
        "IRC R308.4.2, beside a door",
        applies,
        f"it is {_at(words, pane.door_mm)} from a door and begins {_at(words, pane.bottom_mm)} "
        "above the floor",
        _missing(sill_above_floor=pane.bottom_mm, door_away=pane.door_mm),
        "IRC/door_within",
    )


_ON_A_PANE: tuple[tuple[str, Callable[[Standing, Words], Answer]], ...] = (
    ("england", _low_in_a_wall),
    ("england", _by_a_door_in_england),
    ("united states", _large_and_low),
    ("united states", _by_a_door_in_the_states),
)


def _guard_in_england(opening: Opening, words: Words) -> Answer:
    limit = _limit("approved document K", "guard_below")
    return _answer(
        "Approved Document K, guarding",
        under(opening.sill_mm, limit),
        f"it opens {_at(words, opening.sill_mm)} above the floor, under {words.length(limit)}",
        _missing(sill_above_floor=opening.sill_mm),
        "approved document K/guard_below",
    )


def _guard_in_the_states(opening: Opening, words: Words, *, code: str, clause: str) -> Answer:
    ground, sill = _limit("IRC", "guard_ground_over"), _limit(code, "guard_sill_below")
    return _answer(
        f"{code} {clause}, guarding".replace("  ", " "),
        all_of(over(opening.ground_mm, ground), under(opening.sill_mm, sill)),
        f"it opens {_at(words, opening.sill_mm)} above the floor, under {words.length(sill)}, and "
        f"{_at(words, opening.ground_mm)} above the ground",
        _missing(sill_above_floor=opening.sill_mm, sill_above_ground=opening.ground_mm),
        f"{code}/guard_sill_below",
    )


_ON_AN_OPENING: tuple[tuple[str, Callable[[Opening, Words], Answer]], ...] = (
    ("england", _guard_in_england),
    (
        "united states",
        lambda opening, words: _guard_in_the_states(opening, words, code="IRC", clause="R312.2.1"),
    ),
    (
        "united states",
        lambda opening, words: _guard_in_the_states(
            opening, words, code="IBC", clause="window openings"
        ),
    ),
)
