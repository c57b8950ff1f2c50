"""How much of the old fabric stays, in per cent, as drawings and sheets say it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.repair.fabric import Fabric, Kept


def kept_lines(fabric: Fabric) -> Iterator[str]:
    """Say how much of the old timber, and of the old glass, stays; nothing where none was there.

    Parameters
    ----------
    fabric
        Of a window or of a house.
    """
    for name, kept in (("timber", fabric.timber), ("glass", fabric.glass)):
        if kept.kept_pct is not None:
            most = "at most " if name == "timber" and fabric.not_reckoned else ""
            yield f"{most}{kept_pct(kept)} % of the old {name} kept"


def kept_pct(kept: Kept) -> str:
    """Write a share that is kept, in per cent [pct].

    Rounded down to a tenth: a thousandth that is lost is not nothing lost.

    Examples
    --------
    >>> from evenhung.plan.repair.fabric import NOTHING
    >>> kept_pct(NOTHING._replace(whole_mm3=10_000.0, kept_mm3=9_999.0))
    '99.9'
    >>> kept_pct(NOTHING._replace(whole_mm3=10_000.0, kept_mm3=10_000.0))
    '100'
    """
    share = math.floor((kept.kept_pct or 0.0) * 10.0 + 1e-6) / 10.0
    return f"{share:.1f}".removesuffix(".0") if share in (0.0, 100.0) else f"{share:.1f}"
