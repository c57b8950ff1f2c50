"""A plan in lines of text: for a pipe, a file, a search."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from evenhung.cli.repair_lines import house_lines, window_lines
from evenhung.cli.story import story
from evenhung.plan.completion.house import completion_of
from evenhung.plan.overhaul import overhaul_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.notes import Note
    from evenhung.plan import HousePlan, SashPlan
    from evenhung.plan.completion.house import HouseCompletion
    from evenhung.plan.completion.proof import Proof
    from evenhung.plan.verdict import Verdict
    from evenhung.plan.words import Words

VERDICTS: tuple[Verdict, ...] = (
    "hangs true",
    "adjust",
    "rehang",
    "cannot run",
    "unknown",
    "fixed",
)


def plan_lines(plan: HousePlan, *, now: HousePlan | None = None) -> Iterator[str]:
    """Give a heading, what may hurt, each sash's story, the repairs, and what was granted.

    Parameters
    ----------
    plan
        The plan.
    now
        The plan on what hangs in the house now, where that is not what this one proposes.
    """
    completion = completion_of(now or plan)
    yield heading(plan)
    if completion is not None:
        yield proved(completion)
    for note in urgent(plan.notes):
        yield f"house: {note.severity}: {note.text} [{note.source}]"
    for sash in plan.sashes():
        proof = completion.of(sash) if completion else None
        for line in _sash_lines(sash, proof, plan.words):
            yield f"{sash.window.tag} {sash.place}: {line}"
    overhaul = overhaul_of(plan)
    if overhaul is not None:
        for window in overhaul.windows:
            for line in window_lines(window, plan.words):
                yield f"{window.repair.window.tag}: {line}"
        yield from house_lines(overhaul, plan.words)
    for what, where in granted(plan).items():
        yield f"house: taken for granted: {what}{f' ({where})' if where else ''}"


def _sash_lines(sash: SashPlan, proof: Proof | None, words: Words) -> Iterator[str]:
    yield f"{sash.judgement.verdict}: {sash.judgement.reason}"
    yield from story(sash, words)
    yield from (f"{note.severity}: {note.text}" for note in urgent(sash.notes))
    if proof is not None:
        yield proof_line(proof)
        yield from (f"{note.severity}: {note.text}" for note in urgent(proof.notes))


def heading(plan: HousePlan) -> str:
    """Give the house, how many sashes it has, and how many of each verdict."""
    counts = Counter(sash.judgement.verdict for sash in plan.sashes())
    tally = ", ".join(f"{counts[verdict]} {verdict}" for verdict in VERDICTS if counts[verdict])
    return f"{plan.survey.house.name}: {tally or 'no sashes'}"


def proved(completion: HouseCompletion) -> str:
    """Give how much of a house is proved, and which of its sashes are not."""
    lines = [f"proved: {completion.proved} of {len(completion.running)} sashes that run"]
    if completion.failed:
        lines.append(f"not proved: {', '.join(completion.failed)}")
    if completion.open:
        lines.append(f"still to prove: {', '.join(completion.open)}")
    return "; ".join(lines)


def proof_line(proof: Proof) -> str:
    """Give what is proved of one sash, by whom and when, and why."""
    tried = proof.tried
    who = "".join([f" on {tried.on}" if tried.on else "", f" by {tried.by}" if tried.by else ""])
    return f"{proof.verdict}{who}: {proof.reason}"


def urgent(notes: list[Note] | tuple[Note, ...]) -> list[Note]:
    """Give the notes that ask for care or stop the work, faults first."""
    order = {"fault": 0, "caution": 1}
    return sorted(
        (note for note in notes if note.severity in order), key=lambda note: order[note.severity]
    )


def granted(plan: HousePlan) -> dict[str, str]:
    """Give everything assumed, each with the sashes it was assumed for; none means the house."""
    found: dict[str, list[str]] = {what: [] for what in _assumed(plan.notes)}
    for sash in plan.sashes():
        for what in _assumed(sash.notes):
            found.setdefault(what, []).append(f"{sash.window.tag} {sash.place}")
    return {what: ", ".join(sashes) for what, sashes in found.items()}


def _assumed(notes: list[Note] | tuple[Note, ...]) -> list[str]:
    return [note.text.replace(" taken as ", " ", 1) for note in notes if note.code == "assumed"]
