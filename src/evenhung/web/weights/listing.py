"""The weights of a house: those found at its sashes, and those that lie loose."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from evenhung.quantities import print_mass
from evenhung.sheets.rack import PIXELS_PER_MM, Racked, rack_of
from evenhung.sheets.svg import svg_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.quantities import System
    from evenhung.survey import Survey
    from evenhung.survey.loose import LooseWeight
    from evenhung.survey.weight import Weight


class ListedWeight(NamedTuple):
    """A weight in the list."""

    ident: str
    """Its own id."""
    name: str
    """Where it was found, or what is chalked on it."""
    window: str
    """The id of its window; empty for a loose one."""
    section: str
    """The section of the window's form that it is edited in."""
    kg: float | None
    length_mm: float | None
    across_mm: float | None
    metal: str
    marked: str
    state: str


def weights_of(survey: Survey) -> list[ListedWeight]:
    """Give every weight of a house, in the order it is walked, the loose ones last."""
    return [*_found(survey), *(_listed(one, one.tag) for one in survey.weight)]


def _found(survey: Survey) -> Iterator[ListedWeight]:
    for window in survey.window:
        for place, sash in window.sashes():
            for side, weight in sash.weights():
                if weight is None or weight.is_missing:
                    continue
                listed = _listed(weight, f"{window.tag} {place} {side}")
                yield listed._replace(
                    window=window.id or "", section=f"{place}-{side}", state=weight.state or "sound"
                )


def _listed(weight: Weight | LooseWeight, name: str) -> ListedWeight:
    return ListedWeight(
        weight.id or "",
        name,
        "",
        "",
        weight.weighed.kg if weight.weighed else None,
        weight.length.mm if weight.length else None,
        weight.diameter.mm if weight.diameter else None,
        weight.metal or "",
        weight.marked or "",
        _("loose"),
    )


def rack(weights: Sequence[ListedWeight], system: System) -> SafeString | None:
    """Draw the weights that have been weighed on one rail; None where none has been."""
    weighed = [
        Racked(one.name, print_mass(one.kg, system), one.kg, one.length_mm, one.across_mm)
        for one in weights
        if one.kg is not None
    ]
    if not weighed:
        return None
    drawing = rack_of(weighed, title=_("The weights of the house, the lightest first"))
    return mark_safe(svg_of(drawing, pixels_per_mm=PIXELS_PER_MM))  # noqa: S308 its writer escapes
