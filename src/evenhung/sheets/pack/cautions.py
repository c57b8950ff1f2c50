"""What may hurt: the rules that touch a sheet, in full, each with where it comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.cautions.house import rule, source_of_rule

if TYPE_CHECKING:
    from collections.abc import Iterable

DEFERENCE = (
    "This is guidance. Local codes, and whoever is licensed to do the work, "
    "come before anything printed here."
)

ON_THE_HANG = ("falling sash", "falling weight")
"""What may hurt wherever a sash is hung."""

ON_THE_BENCH = (
    "glass",
    "lead paint",
    "lead weights",
    "asbestos putty",
    "manual handling",
    "height",
    "open at night",
)
"""What may hurt besides, where a window is taken apart."""

IN_KEEPING = ("lead paint", "glass", "height", "falling sash", "heat")
"""What may hurt whoever keeps a window."""


def rules(hazards: Iterable[str]) -> list[dict[str, str]]:
    """Give the rules on some hazards.

    Examples
    --------
    >>> rules(["glass"])[0]["hazard"]
    'Glass'
    """
    return [
        {"hazard": hazard.capitalize(), "rule": rule(hazard), "source": source_of_rule(hazard)}
        for hazard in hazards
    ]
