"""One window: its box, its pulleys and its two sashes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from evenhung.survey.box import Box, Pulley
from evenhung.survey.completion import impossible_completion
from evenhung.survey.condition import impossible_condition
from evenhung.survey.fields import (
    Record,
    a_note,
    a_text,
    optional_part,
    parts,
    plain,
    required,
    required_part,
)
from evenhung.survey.finding import Finding, Symptom
from evenhung.survey.geometry import impossible_in
from evenhung.survey.programme import Needed
from evenhung.survey.sash import Sash
from evenhung.survey.surroundings import Surroundings

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.survey.fields import Refusal

Place = Literal["upper", "lower"]


class Window(Record):
    """A window with its sashes."""

    tag: str = required(a_text(), "what the window is called; unique in the house")
    id: str | None = plain(a_text(), "given on the first save and never changed", "not yet saved")
    room: str | None = plain(a_text(), "where it is", "not recorded")
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")
    shared_with: str | None = plain(
        a_text(), "tag of a window that shares a box with this one", "its boxes serve it alone"
    )
    needed: tuple[Needed, ...] = parts(
        Needed, "days on which nobody works at it and it is whole", "none"
    )
    after: str | None = plain(
        a_text(), "tag or id of a window that is back in before this is begun", "any time"
    )
    box: Box = required_part(Box, "the frame and the weight boxes")
    pulley: Pulley = required_part(Pulley, "the pulleys")
    upper: Sash | None = optional_part(Sash, "outer sash, closes up", "there is none")
    lower: Sash | None = optional_part(Sash, "inner sash, closes down", "there is none")
    finding: tuple[Finding, ...] = parts(
        Finding, "what was found of its parts, in the order they were looked at", "nothing is amiss"
    )
    symptom: tuple[Symptom, ...] = parts(
        Symptom, "how it misbehaves as it stands", "it does not, or nobody said"
    )
    place: Surroundings | None = optional_part(
        Surroundings, "where it stands", "safety glass and guarding are not checked"
    )

    def contradictions(self) -> Iterable[Refusal]:
        """Give sizes that cannot be together, and what cannot have been seen of this window."""
        yield from impossible_in(self.box, self.pulley, self.sashes())
        sashes: dict[str, Sash] = dict(self.sashes())
        yield from impossible_condition(self.box, sashes, self.finding, self.symptom)
        tried = ((place, sash.completion) for place, sash in self.sashes())
        yield from impossible_completion(tried)

    def sashes(self) -> Iterator[tuple[Place, Sash]]:
        """Give the sashes that are there, the upper one first."""
        if self.upper is not None:
            yield "upper", self.upper
        if self.lower is not None:
            yield "lower", self.lower
