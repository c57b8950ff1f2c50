"""The plan of a house: a survey in, what to do with every sash out."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from evenhung.plan.catalogue import note
from evenhung.plan.cautions import hang as on_hang
from evenhung.plan.cautions import house as on_house
from evenhung.plan.cautions import weights as on_weights
from evenhung.plan.cautions import window as on_window
from evenhung.plan.columns import for_each
from evenhung.plan.estimate import SashMass, masses
from evenhung.plan.facts import Facts, facts_of
from evenhung.plan.proposal import Proposal, proposals
from evenhung.plan.readings import Diagnosis, diagnose
from evenhung.plan.settle import settle_house, settle_sash
from evenhung.plan.solve import Hang, solve
from evenhung.plan.verdict import FIXED, Judgement, judge
from evenhung.plan.words import Words

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan.cautions.window import Hangs
    from evenhung.plan.inputs import SashInputs
    from evenhung.quantities import System
    from evenhung.survey import Survey
    from evenhung.survey.sash import Sash
    from evenhung.survey.window import Window


@dataclass(slots=True)
class SashPlan:
    """What was found of one sash and what to do with it; None does not apply or is not known."""

    window: Window
    place: Literal["upper", "lower"]
    sash: Sash
    notes: list[Note] = field(default_factory=list)
    mass: SashMass | None = None
    inputs: SashInputs | None = None
    found: Hang | None = None
    facts: Facts | None = None
    proposal: Proposal | None = None
    diagnosis: Diagnosis | None = None
    judgement: Judgement = FIXED


@dataclass(frozen=True, slots=True)
class WindowPlan:
    """The plan of one window."""

    window: Window
    upper: SashPlan | None
    lower: SashPlan | None


@dataclass(frozen=True, slots=True)
class HousePlan:
    """The plan of a house."""

    survey: Survey
    words: Words
    windows: tuple[WindowPlan, ...]
    notes: tuple[Note, ...]

    def sashes(self) -> list[SashPlan]:
        """Give the plan of every sash that is there, window by window, the upper one first."""
        return [
            sash
            for window in self.windows
            for sash in (window.upper, window.lower)
            if sash is not None
        ]


def plan_house(survey: Survey, *, shown_in: System | None = None) -> HousePlan:
    """Plan a house.

    Parameters
    ----------
    survey
        What was found.
    shown_in
        The system to show first; None takes the house's own.

    Returns
    -------
    HousePlan
        Always recomputed from the survey: it is never stored as truth.
    """
    words = Words(shown_in or survey.house.shown_in or "metric")
    house_notes: list[Note] = []
    sashes = [
        SashPlan(window, place, sash) for window in survey.window for place, sash in window.sashes()
    ]
    _weigh(survey, sashes, words, house_notes)
    running = [plan for plan in sashes if plan.inputs is not None]
    _hang(survey, running)
    for plan in sashes:
        _judge(plan, words)
    windows = _by_window(survey, sashes, words)
    for plan in sashes:
        plan.notes = list(dict.fromkeys(plan.notes))
    return HousePlan(survey, words, windows, (*house_notes, *on_house.on_the_house()))


def _weigh(survey: Survey, sashes: list[SashPlan], words: Words, house_notes: list[Note]) -> None:
    """Find every sash's mass and settle every running one's numbers."""
    common = settle_house(survey.house, words, house_notes)
    found = masses(
        [(plan.place, plan.sash) for plan in sashes],
        common.scale_step_kg,
        words,
        [plan.notes for plan in sashes],
    )
    for plan, mass in zip(sashes, found, strict=True):
        plan.mass = mass
        if plan.sash.is_running:
            plan.inputs = settle_sash(
                house=survey.house,
                common=common,
                window=plan.window,
                place=plan.place,
                sash=plan.sash,
                mass=mass,
                words=words,
                notes=plan.notes,
            )


def _hang(survey: Survey, running: list[SashPlan]) -> None:
    """Compute what comes of every running sash as found, and what to hang it on."""
    given = [plan.inputs for plan in running if plan.inputs is not None]
    for plan, inputs, found in zip(
        running, given, for_each(given, solve) if given else [], strict=True
    ):
        plan.found, plan.facts = found, facts_of(inputs, found)
    metal = survey.house.policy.make_weight_metal or "mild steel"
    ready = [
        (plan.sash, plan.inputs, plan.found, plan.facts)
        for plan in running
        if plan.inputs is not None and plan.found is not None and plan.facts is not None
    ]
    for plan, proposal in zip(running, proposals(ready, metal), strict=True):
        plan.proposal = proposal


def _judge(plan: SashPlan, words: Words) -> None:
    if plan.mass is not None and plan.sash.is_running:
        plan.notes.extend(on_weights.on_the_weights(plan.sash, plan.mass, words))
    if plan.inputs is None or plan.found is None or plan.facts is None:
        return
    plan.notes.extend(
        on_hang.on_the_hang(plan.window, plan.sash, plan.inputs, plan.found, plan.facts, words)
    )
    mass_sd_kg = plan.mass.deviation_kg if plan.mass else math.nan
    plan.diagnosis = diagnose(plan.sash, plan.inputs, mass_sd_kg, words, plan.notes)
    plan.judgement = judge(plan.sash, plan.inputs, plan.found, plan.facts, plan.proposal, words)
    _note_length(plan)


def _note_length(plan: SashPlan) -> None:
    if plan.proposal is None:
        return
    for side, weight in (("left", plan.proposal.left), ("right", plan.proposal.right)):
        found = plan.sash.left if side == "left" else plan.sash.right
        had_length = found is not None and found.length is not None
        if weight.length_mm != weight.length_mm and had_length:
            plan.notes.append(note("make-weight-length-unknown", side=side))


def _by_window(survey: Survey, sashes: list[SashPlan], words: Words) -> tuple[WindowPlan, ...]:
    windows = []
    waiting = iter(sashes)
    for window in survey.window:
        plans = {place: next(waiting) for place, _ in window.sashes()}
        if plans:
            last = list(plans.values())[-1]
            hangs: Hangs = {
                place: (plan.inputs, plan.found)
                for place, plan in plans.items()
                if plan.inputs is not None and plan.found is not None
            }
            last.notes.extend(on_window.on_the_pair_of_sashes(window, hangs, words))
            if window.shared_with is not None:
                last.notes.append(note("shared", what="a box", other=window.shared_with))
        windows.append(WindowPlan(window, plans.get("upper"), plans.get("lower")))
    return tuple(windows)
