"""What has been decided or done about one weight: nothing computed later goes against it."""

from __future__ import annotations

import re
from datetime import date
from functools import cache
from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError, core_schema

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_length,
    a_mass,
    a_note,
    a_text,
    plain,
    required,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pydantic_core import CoreSchema

    from evenhung.quantities import Length, Mass
    from evenhung.survey.fields import Refusal


@cache
def a_date() -> CoreSchema:
    """Accept a day of the calendar, year first (ISO 8601)."""

    def read(given: str) -> str:
        try:
            is_day = bool(re.fullmatch(r"\d{4}-\d{2}-\d{2}", given, re.ASCII))
            date.fromisoformat(given)
        except ValueError:
            is_day = False
        if not is_day:
            allowed = 'a day, year first, such as "2026-03-09"'
            raise PydanticCustomError("refused", "{allowed}", {"allowed": allowed})
        return given

    text = core_schema.str_schema(strict=True)
    pattern = {"pattern": r"^\d{4}-\d{2}-\d{2}$"}
    return core_schema.no_info_after_validator_function(read, text, metadata=pattern)


class Decision(Record):
    """One weight and one sash: that it shall hang there, shall not, or does."""

    id: str | None = plain(a_text(), "given on the first save and never changed", "not yet saved")
    what: str = required(
        a_choice("hang", "never", "hung"),
        '"hang": it shall hang there; "never": it shall not; "hung": it hangs there now',
    )
    sash: str = required(a_text(), 'the sash, as in "W3 upper"')
    side: str | None = plain(
        a_choice("left", "right"), "seen from inside", 'either side, where what is "never"'
    )
    weight: str | None = plain(
        a_text(),
        'where it was found, as in "W5 lower left", or the tag or id of a weight',
        'a new one, where what is "hung"',
    )
    added: Mass | None = plain(a_mass("0 kg", "10 kg"), "make-weights on it, as hung", "none")
    weighed: Mass | None = plain(
        a_mass("0.2 kg", "60 kg"),
        "all that hangs there, make-weights included",
        "the weight's own mass and what was added",
    )
    length: Length | None = plain(a_length("50 mm", "1500 mm"), "overall, as hung", "not recorded")
    on: str | None = plain(a_date(), "the day, year first", "not recorded")
    by: str | None = plain(a_text(), "who decided or did it", "not recorded")
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")

    def contradictions(self) -> Iterable[Refusal]:
        """Give what a decision of its kind must state and does not."""
        if self.what != "never" and self.side is None:
            yield "side", "(absent)", f'left or right, where what is "{self.what}"'
        if self.what != "hung" and self.weight is None:
            yield "weight", "(absent)", f'which weight, where what is "{self.what}"'
        for field in ("added", "weighed", "length"):
            stated = getattr(self, field)
            if self.what != "hung" and stated is not None:
                yield field, stated.text, 'nothing, unless what is "hung"'
        if self.what == "hung" and self.weight is None and self.weighed is None:
            yield "weighed", "(absent)", "what a new weight weighs as it hangs"
