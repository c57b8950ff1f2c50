"""Photos as parts of a house: revisioned like the rest, though the survey form has none."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

_SHA256 = re.compile(r"[0-9a-f]{64}")
LONGEST = {"of": 200, "place": 100, "note": 2000}
"""The longest text of each field, in letters."""


def refusals_of_photo(body: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    """Give what is wrong with the record of a photo: field, value, what is allowed.

    Its fields: `id`; `sha256` of the file; `of`, the id of the window or weight it shows; `place`
    on it (``upper``, ``lower.left``); `note`.
    """
    for name in sorted(body.keys() - {"id", "sha256", *LONGEST}):
        yield name, repr(body[name]), "no such key"
    if not _SHA256.fullmatch(str(body.get("sha256", ""))):
        yield "sha256", repr(body.get("sha256")), "64 figures of the photo's checksum"
    for name, longest in LONGEST.items():
        value = body.get(name, "")
        if not isinstance(value, str) or len(value) > longest:
            yield name, repr(value)[:60], f"a text of at most {longest} characters"
