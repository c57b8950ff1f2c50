"""Notes on a repair: what may hurt, what is not known, what was decided otherwise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.assumed import assumed, source_of
from evenhung.plan.catalogue import note

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.notes import Note
    from evenhung.plan.repair.fabric import Fabric
    from evenhung.plan.repair.piece import Sorts
    from evenhung.plan.repair.treatment import Treatment
    from evenhung.plan.words import Words
    from evenhung.survey.finding import Finding
    from evenhung.survey.window import Window

LADDER = (12, 10, 8, 5)
"""Slopes, one in so many, whose strength the reference recalls."""

SLACK_MM = 1e-6
"""Lengths closer than this are equal: they differ by arithmetic alone."""

_CUT = ("splice", "renew part", "consolidate")


def on_the_repair(
    window: Window,
    treatments: Sequence[Treatment],
    fabric: Fabric,
    sorts: Sorts,
    words: Words,
) -> Iterator[Note]:
    """Give the notes on the repair of one window, each said once."""
    notes = [note_ for one in treatments for note_ in _on_one(one, words)]
    notes += [note_ for one in treatments for note_ in _beyond_usual(one.finding, sorts, words)]
    notes += _on_sashes(window, fabric, sorts, treatments)
    yield from dict.fromkeys(notes)


def _on_one(one: Treatment, words: Words) -> Iterator[Note]:
    finding, part = one.finding, one.finding.part
    if one.is_overridden:
        yield note("treatment-decided", part=part, what=one.what, proposed=one.proposed.what)
    if one.what in _CUT and finding.member.kind in ("sill", "head", "pulley stile"):
        yield from _on_load(one)
    if one.splice is not None:
        yield from _on_slope(one)
        if one.splice.is_let_in:
            yield note("let-in", part=part, deep=words.length(one.splice.across_mm))
    if one.what in ("splice", "consolidate") and one.removes_mm3 is None:
        yield note("extent-unknown", part=part)
    if one.what == "splice" and one.splice is None and one.extent.decay is not None:
        yield note("no-room-to-splice", part=part)
    yield from _on_moisture(one)
    if finding.historic == "yes":
        yield note("historic-glass", part=part)


def _beyond_usual(finding: Finding, sorts: Sorts, words: Words) -> Iterator[Note]:
    """Question what goes beyond the size that is taken for a part; a stated one is not exceeded."""
    piece = sorts.pieces.get(finding.part)
    if piece is None:
        return
    part, wide = finding.part, max(piece.face_mm, piece.thick_mm)
    if finding.depth is not None and finding.depth.mm > wide + SLACK_MM:
        deep = words.length(finding.depth.mm)
        yield note("deeper-than-usual", part=part, deep=deep, usual=words.length(wide))
    if finding.length is not None and finding.length.mm > piece.length_mm + SLACK_MM:
        long = words.length(finding.length.mm)
        yield note("longer-than-usual", part=part, long=long, usual=words.length(piece.length_mm))


def _on_load(one: Treatment) -> Iterator[Note]:
    if one.finding.bears_load == "no":
        return
    code = "cut-under-load" if one.finding.bears_load == "yes" else "may-bear-load"
    yield note(code, part=one.finding.part)


def _on_slope(one: Treatment) -> Iterator[Note]:
    splice = one.splice
    if splice is None or splice.joint_ratio >= assumed("repair/scarf/area_ratio_least").value:
        return
    nearest = min(LADDER, key=lambda step: abs(step - splice.slope))
    row = f"repair/scarf 1 in {nearest}/strength_pct"
    yield note(
        "scarf-steep",
        f"{source_of('repair/scarf/area_ratio_least')}; strength: {source_of(row)}",
        part=one.finding.part,
        slope=f"{splice.slope:g}",
        ratio=f"{splice.joint_ratio:.1f}",
        nearest=str(nearest),
        strength=f"{assumed(row).value:.0f}",
    )


def _on_moisture(one: Treatment) -> Iterator[Note]:
    reading = one.finding.moisture_pct
    safe = assumed("repair/moisture/safe_below_pct")
    if reading is None or reading < safe.value:
        return
    yield note(
        "decay-wet",
        f"{safe.source}; {source_of('repair/moisture/decay_from_pct')}",
        part=one.finding.part,
        reading=f"{reading:g}",
        safe=f"{safe.value:.0f}",
    )


def _on_sashes(
    window: Window, fabric: Fabric, sorts: Sorts, treatments: Sequence[Treatment]
) -> Iterator[Note]:
    most = assumed("repair/sash/mostly_new_pct")
    for place, sash in window.sashes():
        if sash.head in ("segmental", "round"):
            yield note("curved-as-square", place=place)
        whole = sum(one.volume_mm3 for one in sorts.pieces.values() if one.place == place)
        new = sum(
            kept.renewed_mm3 + kept.spliced_mm3
            for name, kept in fabric.parts.items()
            if name in sorts.pieces and sorts.pieces[name].place == place
        )
        is_decided = any(
            one.what == "renew sash" and one.finding.member.place == place for one in treatments
        )
        if not is_decided and new > most.value / 100.0 * whole:
            share = f"{100.0 * new / whole:.0f}"
            yield note("sash-mostly-new", most.source, place=place, share=share)
