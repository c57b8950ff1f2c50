"""All the weights of a house on one rail, lightest first, each as long and as thick as it is."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.scene import Drawing, Group, Line, Rect, Words

if TYPE_CHECKING:
    from collections.abc import Sequence

PIXELS_PER_MM = 0.3
"""Scale of a rack on a screen: a weight of 500 mm is 150 pixels long."""

_APART_MM, _HOOK_MM, _SIZE_MM = 125.0, 45.0, 40.0
_USUAL_LENGTH_MM, _USUAL_ACROSS_MM = 400.0, 38.0
"""Drawn where a weight was not measured, with a dashed edge: ours, nothing depends on it."""


class Racked(NamedTuple):
    """A weight as the rack shows it."""

    name: str
    """Where it was found, or what is chalked on it."""
    says: str
    """Its mass in words."""
    kg: float
    length_mm: float | None
    """None where it was not measured."""
    across_mm: float | None


def rack_of(weights: Sequence[Racked], *, title: str) -> Drawing:
    """Draw weights side by side, the lightest first.

    Parameters
    ----------
    weights
        The weights that have been weighed; at least one.
    title
        What the rack is called.

    Returns
    -------
    Drawing
        To be written at `PIXELS_PER_MM`.

    Raises
    ------
    ValueError
        If there are none: a drawing of nothing has no size.
    """
    if not weights:
        raise ValueError("a rack of no weights")
    ordered = sorted(weights, key=lambda weight: (weight.kg, weight.name))
    width = _APART_MM * len(ordered)
    rail = Group("frame", (Rect(0.0, 0.0, width, 30.0),))
    hung = [_hung(weight, _APART_MM * (place + 0.5)) for place, weight in enumerate(ordered)]
    words = "; ".join(f"{weight.name} {weight.says}" for weight in ordered)
    assumed = tuple(weight.name for weight in ordered if _is_assumed(weight))
    return Drawing("rack", title, words, (rail, *hung), margin_mm=15.0, assumed=assumed)


def _is_assumed(weight: Racked) -> bool:
    return weight.length_mm is None or weight.across_mm is None


def _hung(weight: Racked, middle: float) -> Group:
    length, across = weight.length_mm or _USUAL_LENGTH_MM, weight.across_mm or _USUAL_ACROSS_MM
    iron = Rect(middle - across / 2.0, -_HOOK_MM - length, across, length)
    cord = Group("cord", (Line((middle, 0.0), (middle, -_HOOK_MM), 6.0),))
    body = Group("weight", (iron,), is_assumed=_is_assumed(weight))
    at = (middle - across / 2.0 - 18.0, -_HOOK_MM - 8.0)
    label = Group("label", (Words(at, f"{weight.name}, {weight.says}", _SIZE_MM, "end", True),))
    return Group(None, (cord, body, label), title=f"{weight.name}: {weight.says}")
