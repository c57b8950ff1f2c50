"""What cannot be: findings and symptoms that contradict the window they are of, or each other."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from evenhung.reference import look_up
from evenhung.survey.across import sizes_across

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
    yield from _too_deep(box, finding, sash)


def _off_the_part(box: Box, sashes: Sashes, finding: Finding) -> Iterator[Refusal]:
    member = finding.member
    whole = length_of(box, sashes, member) or _longest_way(box, sashes.get(member.place), member)
    if whole is None:
        return
    begins = finding.begins.exact if finding.begins else 0
    if finding.begins and begins >= whole.exact:
        yield "begins", finding.begins.text, f"less than the {finding.part} itself, {whole.text}"
    if finding.length is None:
        return
    if finding.length.exact > whole.exact:
        yield "length", finding.length.text, f"at most the {finding.part} itself, {whole.text}"
    elif begins < whole.exact < begins + finding.length.exact:
        allowed = f"what is left of the {finding.part}, {whole.text} long, beyond where it begins"
        yield "length", finding.length.text, allowed


def _no_such_pane(sash: Sash, finding: Finding) -> Iterator[Refusal]:
    across, up = (sash.panes.across, sash.panes.up) if sash.panes else (1, 1)
    if finding.member.kind == "bars" and across * up == 1:
        yield "part", finding.part, "a part of a sash that is divided: state its panes"
    for field, most in (("column", across), ("row", up)):
        value = getattr(finding, field)
        if value is not None and value > most:
            yield field, str(value), f"at most {most}, for so many panes lie that way"


def _too_deep(box: Box, finding: Finding, sash: Sash | None) -> Iterator[Refusal]:
    """Refuse what is deeper than the part, or where that is not stated, than any such part is.

    What is only deeper than usual is questioned by the plan.
    """
    sizes = sizes_across(finding.part, finding.member, box, sash)
    if finding.depth is None or not sizes:
        return
    stated = max((one.stated for one in sizes if one.stated), key=_exact, default=None)
    usual_mm = max((one.usual_mm for one in sizes if one.stated is None), default=0.0)
    times = look_up("repair", "depth", "times_usual_most").si
    most_mm = times * usual_mm
    if finding.depth.mm <= most_mm or (stated and finding.depth.exact <= stated.exact):
        return
    if stated is not None and stated.mm >= most_mm:
        yield "depth", finding.depth.text, f"at most the {finding.part} itself, {stated.text}"
    else:
        allowed = (
            f"at most {most_mm:g} mm, {times:g} times what the {finding.part} usually measures"
        )
        yield "depth", finding.depth.text, allowed


def _exact(size: Length) -> Fraction:
    return size.exact


def _longest_way(box: Box, sash: Sash | None, member: Member) -> Length | None:
    """Give what nothing of a part that is measured along no end can be longer than."""
    if member.kind == "pocket":
        return getattr(box, member.side).pocket_height or box.pocket_height or box.clear_height
    if member.kind == "slip":
        return box.clear_height
    if sash is not None and member.kind in ("bars", "sash"):
        return max(sash.height, sash.width, key=_exact)
    return None


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
