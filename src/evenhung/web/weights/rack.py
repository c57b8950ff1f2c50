"""The rack on a page: every weight drawn to one scale, the lightest first."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from evenhung.quantities import print_mass
from evenhung.sheets.rack import PIXELS_PER_MM, Racked, racked
from evenhung.sheets.svg import svg_of
from evenhung.web.weights.listing import by_mass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.quantities import System
    from evenhung.web.weights.listing import ListedWeight


class Hook(NamedTuple):
    """One weight on the rack."""

    weight: ListedWeight
    drawn: SafeString
    is_assumed: bool
    """Whether a size that nobody measured is drawn as usual."""


def hooks_of(weights: Sequence[ListedWeight], system: System) -> list[Hook]:
    """Draw every weight, the lightest first, those not weighed last."""
    return [_hook(one, system) for one in by_mass(weights)]


def _hook(one: ListedWeight, system: System) -> Hook:
    says = _("not weighed") if one.kg is None else print_mass(one.kg, system)
    drawing = racked(Racked(one.name, says, one.length_mm, one.across_mm, one.is_square))
    svg = mark_safe(svg_of(drawing, pixels_per_mm=PIXELS_PER_MM))  # noqa: S308 its writer escapes
    return Hook(one, svg, bool(drawing.assumed))
