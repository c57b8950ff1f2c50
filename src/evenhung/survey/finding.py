"""What was found of one part of a window, where along it, how far and how deep; and symptoms."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import (
    Record,
    a_choice,
    a_count,
    a_length,
    a_note,
    a_number,
    a_text,
    plain,
    required,
    several,
)
from evenhung.survey.members import EVERY_SEEN, EVERY_TREATMENT, PARTS, SEEN, TREATMENTS
from evenhung.survey.nearest import one_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.quantities import Length
    from evenhung.survey.fields import Refusal
    from evenhung.survey.members import Member

GRADES = ("sound", "tired", "failing", "gone")
"""How bad it is: let it be, look again, mend it now, nothing left to mend."""

SYMPTOMS = ("stuck", "drops", "drifts", "rattles", "racks", "sweats")


class Finding(Record):
    """What was found of one part."""

    part: str = required(a_choice(*PARTS), "the part, left and right as seen from inside")
    seen: str = required(a_choice(*EVERY_SEEN), "what was seen of it")
    column: int | None = plain(
        a_count(1, 12), "which pane, counted from the left", "every pane of its row"
    )
    row: int | None = plain(
        a_count(1, 12), "which pane, counted from the top", "every pane of its column"
    )
    historic: str | None = plain(
        a_choice("yes", "no"), "whether the glass is old and worth keeping for its own sake", "no"
    )
    measured_from: str | None = plain(
        a_choice("bottom", "top", "left", "right"),
        "the end of the part that where it begins is measured from",
        "where along the part is not recorded",
    )
    begins: Length | None = plain(
        a_length("0 mm", "5 m"), "from that end to where it begins", "at that end"
    )
    length: Length | None = plain(
        a_length("1 mm", "5 m"), "along the part, from where it begins", "not recorded"
    )
    depth: Length | None = plain(
        a_length("1 mm", "300 mm"), "into the part, from its worst face", "not recorded"
    )
    moisture_pct: float | None = plain(a_number(0, 100), "moisture reading there", "not taken")
    grade: str | None = plain(
        a_choice(*GRADES),
        "let it be, look again, mend it now, nothing left to mend",
        "by what was seen",
    )
    bears_load: str | None = plain(
        a_choice("yes", "no"), "whether the wall or floor above stands on this part", "not known"
    )
    treatment: str | None = plain(
        a_choice(*EVERY_TREATMENT), "what shall be done, whatever is proposed", "as proposed"
    )
    slope: float | None = plain(
        a_number(2, 30), "a splice's slope, as one in so many", "as the reference has it"
    )
    photo: tuple[str, ...] | None = plain(
        several(a_text(), most=20), "ids of the photos that show it, which the app fills in", "none"
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")

    @property
    def member(self) -> Member:
        """The part by its kind, place and side."""
        return PARTS[self.part]

    def contradictions(self) -> Iterable[Refusal]:
        """Give what cannot be said of such a part."""
        kind = self.member.kind
        if self.seen not in SEEN[kind]:
            yield "seen", self.seen, f"of {self.part}: {one_of(self.seen, SEEN[kind])}"
        if self.treatment is not None and self.treatment not in TREATMENTS[kind]:
            allowed = f"of {self.part}: {one_of(self.treatment, TREATMENTS[kind])}"
            yield "treatment", self.treatment, allowed
        yield from self._misplaced()

    def _misplaced(self) -> Iterator[Refusal]:
        member = self.member
        for field, kinds in _ONLY_OF.items():
            value = getattr(self, field)
            if value is not None and member.kind not in kinds:
                yield field, str(value), f"nothing, for {self.part} has none"
        if not member.ends and self.measured_from is not None:
            yield "measured_from", self.measured_from, f"nothing, for {self.part} has no length"
        elif self.measured_from is not None and self.measured_from not in member.ends:
            yield "measured_from", self.measured_from, f"{' or '.join(member.ends)}, of {self.part}"
        if self.begins is not None and self.measured_from is None:
            yield "measured_from", "(absent)", "the end that where it begins is measured from"


_ONLY_OF = {
    "column": ("glass", "putty"),
    "row": ("glass", "putty"),
    "historic": ("glass",),
    "slope": ("stile", "rail", "bars", "sill", "head", "pulley stile", "lining"),
    "bears_load": ("sill", "head", "pulley stile"),
}
"""Fields that only some kinds of part have."""


class Symptom(Record):
    """How the standing window misbehaves."""

    what: str = required(
        a_choice(*SYMPTOMS),
        "will not move, falls when let go, wanders from where it was put, shakes in the wind, "
        "goes up askew, runs with water inside",
    )
    sash: str | None = plain(a_choice("upper", "lower"), "which sash", "the window as a whole")
    when: str | None = plain(
        a_choice(
            "always", "in wet weather", "in cold weather", "since it was painted", "since reglazed"
        ),
        "when it does so",
        "not recorded",
    )
    note: str | None = plain(a_note(), "anything worth keeping", "nothing")
