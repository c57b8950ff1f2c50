"""Long lists, a page at a time: where a page begins, and the addresses of those beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlencode

if TYPE_CHECKING:
    from collections.abc import Mapping

AFTER = "after"
"""What an address states how many to skip by."""
LONGEST = 6
"""Figures of the largest number that is taken from an address."""


class Pages(NamedTuple):
    """The pages beside the one that is shown, by what follows the address; empty for none."""

    before: str
    after: str
    first: int
    """The number of the first that is shown."""
    last: int


def number_in(query: Mapping[str, str], name: str) -> int:
    """Give a number that an address states; 0 where it states none."""
    text = query.get(name, "")
    return int(text) if text.isdecimal() and len(text) <= LONGEST else 0


def pages(count: int, skipped: int, size: int, query: Mapping[str, str]) -> Pages:
    """Give the pages beside the one that skips so many of a list.

    Parameters
    ----------
    count
        How many there are.
    skipped
        How many stand before this page.
    size
        How many stand on a page.
    query
        What the address of this page states; the others keep it.

    Examples
    --------
    >>> pages(250, 100, 100, {"which": "loose"})
    Pages(before='?which=loose&after=0', after='?which=loose&after=200', first=101, last=200)
    """
    kept = {name: value for name, value in query.items() if name != AFTER}

    def address(number: int) -> str:
        return f"?{urlencode({**kept, AFTER: number})}"

    last = min(skipped + size, count)
    return Pages(
        address(max(0, skipped - size)) if skipped else "",
        address(skipped + size) if last < count else "",
        min(skipped + 1, count),
        last,
    )
