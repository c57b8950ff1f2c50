"""The plan as plain data: what ``evenhung plan --json`` prints and scripts rely on.

Every key is always there; what is not known is None, and a note says why.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.plan.completion.house import completion_of
from evenhung.plan.facts import known, max_known
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.overhaul_document import house_document, window_document

if TYPE_CHECKING:
    from collections.abc import Iterable

    from evenhung.notes import Note
    from evenhung.plan.completion.evidence import Way
    from evenhung.plan.completion.house import HouseCompletion
    from evenhung.plan.completion.proof import Proof
    from evenhung.plan.facts import Facts
    from evenhung.plan.house import HousePlan, SashPlan
    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.proposal import HungWeight, Proposal
    from evenhung.plan.readings import Diagnosis
    from evenhung.plan.solve import End, Hang

PLACES = 6
"""Decimals kept: a milligram, a nanometre."""


def document_of(plan: HousePlan, *, now: HousePlan | None = None) -> dict[str, Any]:
    """Give a house's plan as plain data.

    Parameters
    ----------
    plan
        The plan.
    now
        The plan on what hangs in the house now, where that is not what this one proposes.
    """
    house, overhaul, completion = plan.survey.house, overhaul_of(plan), completion_of(now or plan)
    return {
        "form": 1,
        "house": {"name": house.name, "shown_in": plan.words.system},
        "windows": [
            {
                "tag": window.window.tag,
                "room": window.window.room,
                "upper": _sash(window.upper, completion) if window.upper else None,
                "lower": _sash(window.lower, completion) if window.lower else None,
                "repair": window_document(overhaul, number),
            }
            for number, window in enumerate(plan.windows)
        ],
        "notes": _notes(plan.notes),
        **house_document(overhaul),
        "completion": completion_document(completion),
    }


def _sash(plan: SashPlan, completion: HouseCompletion | None) -> dict[str, Any]:
    proof = completion.of(plan) if completion else None
    inputs, found, facts = plan.found or (None, None, None)
    mass, proposal = plan.mass, plan.proposal
    return {
        "mass_kg": number(mass.kg),
        "mass_sd_kg": number(mass.deviation_kg),
        "mass_from": mass.found,
        "pair_kg": pair_document(found),
        "found": {
            "pair_kg": number(found.pair_kg) if found else None,
            "excess_kg": number(found.excess_kg) if found else None,
            "verdict": plan.judgement.verdict,
            "reason": plan.judgement.reason,
        },
        "cord": _cord(inputs, found),
        "weights": _weights(found),
        "operation": _operation(found, facts),
        "pocket": _pocket(found, facts),
        "hung": hung_document(proposal) if proposal else None,
        "readings": _readings(plan.diagnosis) if plan.diagnosis else None,
        "completion": _proof(proof) if proof else None,
        "notes": _notes(plan.notes),
    }


def pair_document(hang: Hang | None) -> dict[str, Any]:
    """Give what the pair of a sash should weigh."""
    return {
        "least": number(hang.pair_least_kg) if hang else None,
        "best": number(hang.pair_best_kg) if hang else None,
        "most": number(hang.pair_most_kg) if hang else None,
    }


def _cord(inputs: SashInputs | None, hang: Hang | None) -> dict[str, Any]:
    return {
        "diameter_mm": number(inputs.cord_mm) if inputs else None,
        "least_mm": number(hang.least_mm) if hang else None,
        "most_mm": number(hang.most_mm) if hang else None,
        "working_mm": number(hang.working_mm) if hang else None,
        "mark_slack_mm": number(hang.mark_slack_mm) if hang else None,
        "cut_mm": number(hang.cut_mm) if hang else None,
    }


def _weights(hang: Hang | None) -> dict[str, Any]:
    return {
        "top_clear_mm": number(hang.top_clear_mm) if hang else None,
        "bottom_clear_mm": number(hang.bottom_clear_mm) if hang else None,
    }


def _operation(hang: Hang | None, facts: Facts | None) -> dict[str, Any]:
    return {
        "raise_n": number(hang.raise_n) if hang else None,
        "lower_n": number(hang.lower_n) if hang else None,
        "rests_shut": facts.rests_shut if facts else None,
        "stays_put": facts.stays_put if facts else None,
        "stays_above_n": number(hang.stays_above_n) if hang else None,
        "ends": {"lowest": _end(hang.lowest), "highest": _end(hang.highest)} if hang else None,
    }


def _end(end: End) -> dict[str, Any]:
    return {
        "excess_kg": number(end.excess_kg),
        "raise_n": number(end.raise_n),
        "lower_n": number(end.lower_n),
    }


def _pocket(hang: Hang | None, facts: Facts | None) -> dict[str, Any]:
    needed = max_known((hang.left.pocket_needed_mm, hang.right.pocket_needed_mm)) if hang else None
    return {
        "needed_mm": number(needed) if needed != float("inf") else None,
        "passes": facts.passes if facts else None,
    }


def hung_document(proposal: Proposal) -> dict[str, Any]:
    """Give what a sash shall hang on, and what comes of it."""
    return {
        "left": _hung_weight(proposal.left),
        "right": _hung_weight(proposal.right),
        "pair_kg": number(proposal.hang.pair_kg),
        "cord": _cord(proposal.inputs, proposal.hang),
        "weights": _weights(proposal.hang),
        "operation": _operation(proposal.hang, proposal.facts),
    }


def _hung_weight(weight: HungWeight) -> dict[str, Any]:
    return {
        "origin": weight.origin,
        "mass_kg": number(weight.mass_kg),
        "add_kg": number(weight.add_kg),
        "length_mm": number(weight.length_mm),
        "across_mm": number(weight.across_mm),
        "metal": weight.metal,
        "added_mm": number(weight.added_mm),
        "added_metal": weight.added_metal,
    }


def _readings(found: Diagnosis) -> dict[str, Any]:
    return {
        "excess_kg": number(found.excess_kg),
        "excess_sd_kg": number(found.excess_sd_kg),
        "friction_n": number(found.friction_n),
        "friction_sd_n": number(found.friction_sd_n),
        "pulleys_taken_out": found.pulleys_taken_out,
    }


def completion_document(completion: HouseCompletion | None) -> dict[str, Any] | None:
    """Give what is proved of a house; None where nothing of it was tried."""
    if completion is None:
        return None
    return {
        "running": len(completion.running),
        "proved": completion.proved,
        "not_proved": list(completion.failed),
        "to_prove": list(completion.open),
    }


def _proof(proof: Proof) -> dict[str, Any]:
    evidence, tried = proof.evidence, proof.tried
    return {
        "verdict": proof.verdict,
        "reason": proof.reason,
        "on": tried.on,
        "by": tried.by,
        "let_go": dict(evidence.seen),
        "raising": _pull(evidence.raising),
        "lowering": _pull(evidence.lowering),
        "told": _readings(evidence.told) if evidence.told else None,
        "as_hung": evidence.hanging.is_as_hung,
        "notes": _notes(proof.notes),
    }


def _pull(way: Way) -> dict[str, Any]:
    read, reckoned = way.read, way.reckoned
    return {
        "read_n": number(read.n) if read else None,
        "read_sd_n": number(read.sd_n) if read else None,
        "least_n": number(reckoned.least_n),
        "likely_n": number(reckoned.likely_n),
        "most_n": number(reckoned.most_n),
        "sd_n": number(reckoned.sd_n),
    }


def _notes(notes: Iterable[Note]) -> list[dict[str, str]]:
    return [note._asdict() for note in notes]


def number(value: float | None) -> float | None:
    """Give a number as it is printed; None where it is not known."""
    number = known(value) if value is not None else None
    return None if number is None else round(number, PLACES) + 0.0
