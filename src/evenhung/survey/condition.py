"""What cannot be: findings and symptoms that contradict the window they are of, or each other."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from fractions import Fraction

    from evenhung.quantities import Length
    from evenhung.survey.box import Box
    from evenhung.survey.fields import Refusal
    from evenhung.survey.finding import Finding, Symptom
    from evenhung.survey.members import Member
    from evenhung.survey.sash import Sash

    Sashes: TypeAlias = Mapping[str, Sash]
    """The sashes that are there, by their places."""


class Span(NamedTuple):
    """Where along its part something lies, from the left or bottom end [mm]."""

    low: Fraction
    high: Fraction

    def overlaps(self, other: Span) -> bool:
        """Tell whether two spans share more than an end."""
        return self.low < other.high and other.low < self.high


def impossible_condition(
    box: Box, sashes: Sashes, findings: Sequence[Finding], symptoms: Sequence[Symptom]
) -> Iterator[Refusal]:
    """Give every contradiction: where, what was found, what is allowed."""
    for number, symptom in enumerate(symptoms):
        if symptom.sash is not None and symptom.sash not in sashes:
            yield f"symptom[{number}].sash", symptom.sash, "a sash that this window has"
    for number, finding in enumerate(findings):
        for field, value, allowed in _impossible(box, sashes, finding):
            yield f"finding[{number}].{field}", value, allowed
    yield from _overlapping(box, sashes, findings)


def length_of(box: Box, sashes: Sashes, member: Member) -> Length | None:
    """Give the length along which a part is measured; None where nothing is."""
    if not member.place:
        across, up = box.clear_width, box.clear_height
    else:
        sash = sashes[member.place]
        across, up = sash.width, sash.height
    return {"across": across, "up": up, "": None}[member.run]


def _impossible(box: Box, sashes: Sashes, finding: Finding) -> Iterator[Refusal]:
    member = finding.member
    sash = sashes.get(member.place)
    if member.place and sash is None:
        yield "part", finding.part, "a part of a sash that this window has"
        return
    yield from _off_the_part(box, sashes, finding)
    if sash is not None:
        yield from _no_such_pane(sash, finding)
    sizes = _across(box, member, sash)
    if finding.depth is not None and sizes and finding.depth.exact > sizes[-1].exact:
        yield "depth", finding.depth.text, f"at most {finding.part} itself, {sizes[-1].text}"


def _off_the_part(box: Box, sashes: Sashes, finding: Finding) -> Iterator[Refusal]:
    whole = length_of(box, sashes, finding.member)
    if whole is None or finding.length is None:
        return
    begins = finding.begins.exact if finding.begins else 0
    if finding.length.exact > whole.exact:
        yield "length", finding.length.text, f"at most {finding.part} itself, {whole.text}"
    elif begins + finding.length.exact > whole.exact:
        allowed = f"what is left of {finding.part}, {whole.text} long, beyond where it begins"
        yield "length", finding.length.text, allowed


def _no_such_pane(sash: Sash, finding: Finding) -> Iterator[Refusal]:
    across, up = (sash.panes.across, sash.panes.up) if sash.panes else (1, 1)
    for field, most in (("column", across), ("row", up)):
        value = getattr(finding, field)
        if value is not None and value > most:
            yield field, str(value), f"at most {most}, for so many panes lie that way"


def _across(box: Box, member: Member, sash: Sash | None) -> list[Length]:
    """Give the stated sizes that decay can go into, the largest last; none where one is unknown."""
    if member.kind == "pulley stile":
        sizes = [getattr(box, member.side).stile_thickness or box.stile_thickness]
    elif sash is not None and member.kind == "stile":
        sizes = [sash.stile, sash.thickness]
    elif sash is not None and member.kind == "bars":
        sizes = [sash.bar, sash.thickness]
    elif sash is not None and member.kind == "rail":
        sizes = [sash.top_rail, sash.bottom_rail, sash.thickness]
    else:
        return []
    stated = [size for size in sizes if size is not None]
    return sorted(stated, key=lambda size: size.exact) if len(stated) == len(sizes) else []


def _overlapping(box: Box, sashes: Sashes, findings: Sequence[Finding]) -> Iterator[Refusal]:
    """Give decay that is entered twice on one stretch of a part."""
    placed: list[tuple[int, Finding, Span]] = []
    for number, finding in enumerate(findings):
        span = _span(box, sashes, finding)
        if span is None:
            continue
        for earlier, other, taken in placed:
            alike = (other.part, other.seen) == (finding.part, finding.seen)
            if alike and span.overlaps(taken):
                allowed = f"a stretch of {finding.part} that finding[{earlier}] does not cover"
                yield f"finding[{number}].begins", _from(finding), allowed
                break
        placed.append((number, finding, span))


def _span(box: Box, sashes: Sashes, finding: Finding) -> Span | None:
    if finding.member.place not in ("", *sashes):
        return None
    whole = length_of(box, sashes, finding.member)
    if whole is None or finding.length is None or finding.measured_from is None:
        return None
    begins = finding.begins.exact if finding.begins else whole.exact * 0
    if finding.measured_from in ("top", "right"):
        high = whole.exact - begins
        return Span(high - finding.length.exact, high)
    return Span(begins, begins + finding.length.exact)


def _from(finding: Finding) -> str:
    begins = finding.begins.text if finding.begins else "0"
    return f"{begins} from the {finding.measured_from}"
