"""The survey as one record: the single truth that the plan is computed from."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from pydantic_core import CoreConfig, SchemaValidator

from evenhung.survey.decision import Decision
from evenhung.survey.fields import Record, a_count, parts, record, required, required_part
from evenhung.survey.hours import Booked
from evenhung.survey.house import House
from evenhung.survey.loose import LooseWeight
from evenhung.survey.names import unknown_in, windows_not_there
from evenhung.survey.window import Window

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pydantic_core import CoreSchema

    from evenhung.survey.fields import Refusal

FORM = 1
"""The version of the form this Evenhung writes."""


class Survey(Record):
    """What was found in a house of windows."""

    form: int = required(a_count(FORM, FORM), "version of this form")
    house: House = required_part(House, "the house as a whole")
    window: tuple[Window, ...] = parts(Window, "the windows, in the order they are walked", "none")
    weight: tuple[LooseWeight, ...] = parts(LooseWeight, "weights that lie loose", "none")
    decision: tuple[Decision, ...] = parts(
        Decision, "what has been decided or done, which no allotment goes against", "nothing"
    )
    booked: tuple[Booked, ...] = parts(Booked, "hours that were worked", "none")

    def contradictions(self) -> Iterable[Refusal]:
        """Give decisions on what is not there or against each other, and hours booked nowhere."""
        yield from unknown_in(self.window, self.weight, self.decision)
        yield from windows_not_there(self.window, self.booked)


@cache
def survey_schema() -> CoreSchema:
    """Give the schema of a survey, for the validator and for the documents."""
    return record(Survey)


@cache
def _validator() -> SchemaValidator:
    return SchemaValidator(survey_schema(), CoreConfig(strict=True))


def validated(document: dict[str, Any]) -> Survey:
    """Make a survey of plain data in the newest form, or raise pydantic's `ValidationError`."""
    survey: Survey = _validator().validate_python(document)
    return survey
