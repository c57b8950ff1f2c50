"""A plan in lines of text: for a pipe, a file, a search."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from evenhung.plan.facts import known

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan import HousePlan, SashPlan
    from evenhung.plan.verdict import Verdict
    from evenhung.plan.words import Words

VERDICTS: tuple[Verdict, ...] = ("hangs true", "adjust", "rehang", "cannot run", "unknown", "fixed")


def plan_lines(plan: HousePlan) -> Iterator[str]:
    """Give the lines: a heading, for each sash its verdict, cords and notes, then the house's."""
    yield heading(plan)
    for sash in plan.sashes():
        name = f"{sash.window.tag} {sash.place}"
        yield f"{name}: {sash.judgement.verdict}: {sash.judgement.reason}"
        for line in (mass_line(sash, plan.words), cord_line(sash, plan.words)):
            if line:
                yield f"{name}: {line}"
        for note in urgent(sash.notes):
            yield f"{name}: {note.severity}: {note.text}"
        granted = granted_line(sash.notes)
        if granted:
            yield f"{name}: taken for granted: {granted}"
    granted = granted_line(plan.notes)
    if granted:
        yield f"house: taken for granted: {granted}"
    for note in urgent(plan.notes):
        yield f"house: {note.severity}: {note.text} [{note.source}]"


def heading(plan: HousePlan) -> str:
    """Give the house, how many sashes it has, and how many of each verdict."""
    counts = Counter(sash.judgement.verdict for sash in plan.sashes())
    tally = ", ".join(f"{counts[verdict]} {verdict}" for verdict in VERDICTS if counts[verdict])
    return f"{plan.survey.house.name}: {tally or 'no sashes'}"


def mass_line(sash: SashPlan, words: Words) -> str:
    """Give the mass of a sash and what its pair should be; empty where the mass is not known."""
    if sash.mass.found is None:
        return ""
    if sash.mass.found == "weighed":
        line = f"sash weighed {words.mass(sash.mass.kg)}"
    else:
        spread = words.mass(sash.mass.deviation_kg)
        line = f"sash about {words.mass(sash.mass.kg)}, give or take {spread}"
    best = known(sash.found.hang.pair_best_kg) if sash.found else None
    return line if best is None else f"{line}; best pair {words.mass(best)}"


def cord_line(sash: SashPlan, words: Words) -> str:
    """Give the cords to cut for a sash as it will hang; empty where that is not known."""
    if sash.proposal is None:
        return ""
    hang = sash.proposal.hang
    cut, slack, working = (
        known(value) for value in (hang.cut_mm, hang.mark_slack_mm, hang.working_mm)
    )
    if cut is None or slack is None or working is None:
        return ""
    return (
        f"cut two cords of {words.length(cut)}; "
        f"top of weight at {words.length(slack)} slack, {words.length(working)} taut"
    )


def urgent(notes: list[Note] | tuple[Note, ...]) -> list[Note]:
    """Give the notes that ask for care or stop the work, faults first."""
    order = {"fault": 0, "caution": 1}
    return sorted(
        (note for note in notes if note.severity in order), key=lambda note: order[note.severity]
    )


def granted_line(notes: list[Note] | tuple[Note, ...]) -> str:
    """Give everything assumed, in one line."""
    assumed = [note.text.replace(" taken as ", " ", 1) for note in notes if note.code == "assumed"]
    return "; ".join(assumed)
