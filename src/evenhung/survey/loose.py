"""A weight that lies loose in the house: in no box, at no sash."""

from __future__ import annotations

from evenhung.survey.fields import a_text, plain, required
from evenhung.survey.weight import BareWeight


class LooseWeight(BareWeight):
    """A weight without a home."""

    tag: str = required(a_text(), "what is chalked on it; unique among the loose weights")
    room: str | None = plain(a_text(), "where it lies", "not recorded")
