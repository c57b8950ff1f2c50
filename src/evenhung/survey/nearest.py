"""The word that somebody meant, where they wrote one that is not known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

_LONGEST = 60
"""Letters of a word that are looked at."""

_ALSO_SAID = {
    "cords": "cord",
    "left_weight": "left",
    "mass": "weighed",
    "pocket": "pocket_height",
    "right_weight": "right",
    "units": "shown_in",
    "weight": "weighed",
    "windows": "window",
}
"""What people write, and the key they mean, where its letters would not show it."""


def nearest(name: str, known: Sequence[str]) -> str | None:
    """Give the known name most like `name`, or None where none is like it."""
    import difflib

    said = _ALSO_SAID.get(name)
    if said in known:
        return said
    folded = {one.casefold(): one for one in known}
    found = difflib.get_close_matches(name[:_LONGEST].casefold(), folded, n=1, cutoff=0.6)
    return folded[found[0]] if found else None


def did_you_mean(given: Any, known: Sequence[str]) -> str:
    """Ask for the word most like what was given, to stand before all that can be chosen.

    Examples
    --------
    >>> did_you_mean("lower bottom rial", ["lower bottom rail", "sill"])
    "did you mean 'lower bottom rail'? "
    >>> did_you_mean("lower sill", ["lower sash", "sill"])
    "did you mean 'sill'? "
    >>> did_you_mean("roof", ["sill"])
    ''
    """
    if not isinstance(given, str):
        return ""
    words = set(given.split())
    whole = [one for one in known if words.issuperset(one.split())]
    near = whole[0] if len(whole) == 1 else nearest(given, known)
    return f"did you mean {near!r}? " if near else ""


def one_of(given: str, known: Sequence[str]) -> str:
    """Say what can be chosen instead of what was given, the nearest first."""
    return f"{did_you_mean(given, known)}one of {', '.join(known)}"
