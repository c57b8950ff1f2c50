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
        for line in story(sash, plan.words):
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


def story(sash: SashPlan, words: Words) -> list[str]:
    """Give what is known of a sash in numbers: its mass, its cords, its clearances, its forces."""
    lines = (line(sash, words) for line in (mass_line, cord_line, clearance_line, force_line))
    return [line for line in lines if line]


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


def clearance_line(sash: SashPlan, words: Words) -> str:
    """Give what the weights keep clear as they will hang; empty where that is not known."""
    if sash.proposal is None:
        return ""
    hang = sash.proposal.hang
    top, bottom = known(hang.top_clear_mm), known(hang.bottom_clear_mm)
    if top is None or bottom is None:
        return ""
    return (
        f"then clear by {words.length(top)} at the pulley "
        f"and by {words.length(bottom)} at the box bottom"
    )


def force_line(sash: SashPlan, words: Words) -> str:
    """Give the forces by hand as the sash will hang; empty where they are not known."""
    if sash.proposal is None:
        return ""
    hang, facts = sash.proposal.hang, sash.proposal.facts
    moves = [_hand("raise", hang.raise_n, words), _hand("lower", hang.lower_n, words)]
    stays = {True: "stays put", False: "does not stay put", None: "stays put if friction is enough"}
    return f"then {moves[0]}, {moves[1]}; {stays[facts.stays_put]}"


def _hand(way: str, force_n: float, words: Words) -> str:
    return f"{way} with {words.force(force_n)}" if force_n > 0 else f"{way}s by itself"


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
