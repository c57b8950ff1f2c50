"""A side of an answer as it is hung: what a joiner keeps of it, filled in as far as it is known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils import timezone
from django.utils.translation import gettext as _

from evenhung.quantities import print_length, print_mass
from evenhung.web.allotment.reading import side_at, wish_of

if TYPE_CHECKING:
    from evenhung.survey import Survey
    from evenhung.web.allotment.models import Run

HUNG = ("on", "by", "added", "weighed", "length", "note")
"""What is asked of a side that is hung."""


class AsHung(NamedTuple):
    """A side that is being hung."""

    sash: str
    """By its lasting name."""
    side: str
    title: str
    fields: dict[str, Any]
    """The decision, as far as the answer knows it."""


def as_hung(run: Run, number: int, survey: Survey, *, who: str) -> AsHung:
    """Give a side of an answer as it would be hung today.

    Parameters
    ----------
    run
        A run with an answer.
    number
        The place of the side in the answer.
    survey
        The survey as it stands.
    who
        The name of whoever hangs it.

    Raises
    ------
    LookupError
        Where the answer has no such side.
    """
    side, wish = side_at(run, number), wish_of(run, number)
    system = survey.house.shown_in or "metric"
    name = f"{side['window']} {side['sash']}"
    fields = {
        "what": "hung",
        "sash": run.names["sashes"][name],
        "side": side["side"],
        "weight": wish.weight if wish else None,
        "on": timezone.localdate().isoformat(),
        "by": who,
    }
    if side["add"]:
        fields["added"] = print_mass(side["add_kg"], system)
    if wish is None or side["off_kg"]:
        fields["weighed"] = print_mass(side["mass_kg"], system)
    if side["length_mm"] is not None and (wish is None or side["add"] or side["off_kg"]):
        fields["length"] = print_length(side["length_mm"], system)
    title = _("%(place)s is hung") % {"place": f"{name} {side['side']}"}
    return AsHung(fields["sash"], side["side"], title, fields)
