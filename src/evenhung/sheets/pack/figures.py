"""Quantities as templates take them: the house's own system, the other, and names cut to fit."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.plan.words import Words

Figure: TypeAlias = dict[str, str]
"""A quantity in the house's own system and in the other."""

LONGEST_NAME = 90
"""Letters of a name that a sheet shows; what is longer is cut."""

_LONGEST_WORD = 18
_HELD = "\N{NO-BREAK SPACE}"
"""Between a number and its unit, so that no line ends there."""
_BREAK = "\N{ZERO WIDTH SPACE}"
"""A place where a line may end, and that is not seen."""


def length(words: Words, mm: float | None) -> Figure | None:
    """Give a length in both systems; None where it is not known."""
    return _figure(words.length, mm)


def mass(words: Words, kg: float | None) -> Figure | None:
    """Give a mass in both systems; None where it is not known."""
    return _figure(words.mass, kg)


def force(words: Words, n: float | None) -> Figure | None:
    """Give a force in both systems; None where it is not known."""
    return _figure(words.force, n)


def section(words: Words, first_mm: float, second_mm: float) -> Figure:
    """Give a section, or the size of a pane, in both systems.

    Examples
    --------
    >>> from evenhung.plan.words import Words
    >>> section(Words("metric"), 48.0, 44.0)["own"].replace(_HELD, " ")
    '48 × 44 mm'
    """
    first, second = _figure(words.length, first_mm), _figure(words.length, second_mm)
    if first is None or second is None:
        raise ValueError(f"{first_mm} x {second_mm}: two lengths that are known")
    return {name: _by(first[name], second[name]) for name in ("own", "other")}


def _by(first: str, second: str) -> str:
    """Write one length by another, the unit once where both have it."""
    figure, _, unit = first.rpartition(_HELD)
    is_once = second.endswith(f"{_HELD}{unit}") and "ft" not in figure
    return f"{figure if is_once else first}{_HELD}× {second}"


def _figure(write: Callable[[float], str], value: float | None) -> Figure | None:
    if value is None or math.isnan(value):
        return None
    own, _, other = write(value).replace(" ", _HELD).replace(f"{_HELD}(", " (").partition(" (")
    return {"own": own, "other": other.rstrip(")")}


def shortened(name: str, most: int = LONGEST_NAME) -> str:
    """Give a name as a sheet shows it, cut in its middle where it is too long.

    What tells names apart stands mostly at their ends; long words are made breakable.

    Examples
    --------
    >>> shortened("Parlour, left of the fireplace", 12)
    'Parlour,…ace'
    """
    name = " ".join(name.split())
    if len(name) <= most:
        return breakable(name)
    tail = (most - 1) // 3
    return breakable(f"{name[: most - 1 - tail].rstrip()}…{name[-tail:].lstrip()}")


def breakable(text: str) -> str:
    """Give a text whose longest words may be broken, so that none runs out of its column."""
    return re.sub(rf"\S{{{_LONGEST_WORD},}}", _broken, text)


def _broken(found: re.Match[str]) -> str:
    word = found[0]
    step = _LONGEST_WORD // 2
    return _BREAK.join(word[at : at + step] for at in range(0, len(word), step))
