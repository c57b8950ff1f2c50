"""The plan of a house: a survey in, what to do with every sash out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.catalogue import note
from evenhung.plan.cautions.hang import on_new_cord, on_running, on_the_hand, on_the_hang
from evenhung.plan.cautions.house import on_the_house
from evenhung.plan.cautions.weights import on_the_weights
from evenhung.plan.cautions.window import on_the_pair_of_sashes
from evenhung.plan.columns import for_each
from evenhung.plan.estimate import UNKNOWN, masses
from evenhung.plan.facts import Facts, facts_of
from evenhung.plan.ledger import Ledger
from evenhung.plan.proposal import proposals
from evenhung.plan.readings import diagnose
from evenhung.plan.settle import settle_house, settle_sash
from evenhung.plan.solve import Hang, solve
from evenhung.plan.verdict import FIXED, judge
from evenhung.plan.words import Words

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan.estimate import SashMass
    from evenhung.plan.inputs import SashInputs
    from evenhung.plan.policy import Place
    from evenhung.plan.proposal import Proposal
    from evenhung.plan.readings import Diagnosis
    from evenhung.plan.settle import HouseInputs
    from evenhung.plan.verdict import Judgement
    from evenhung.quantities import System
    from evenhung.survey import Survey
    from evenhung.survey.sash import Sash
    from evenhung.survey.window import Window

MAKE_WEIGHT = "mild steel"
"""What make-weights are made of where the house's policy does not say; the form says so too."""


class Found(NamedTuple):
    """A running sash on its weights as found: what went in, what came of it, in yes and no."""

    inputs: SashInputs
    hang: Hang
    facts: Facts


@dataclass(slots=True)
class SashPlan:
    """What was found of one sash and what to do with it; filled in as the plan is made."""

    window: Window
    place: Place
    sash: Sash
    ledger: Ledger
    mass: SashMass = UNKNOWN
    found: Found | None = None
    """None for a fixed sash."""
    proposal: Proposal | None = None
    """None where nothing can be proposed."""
    diagnosis: Diagnosis | None = None
    """None where no readings were taken."""
    judgement: Judgement = FIXED

    @property
    def notes(self) -> list[Note]:
        """The notes on it, each said once."""
        return list(dict.fromkeys(self.ledger.notes))


class WindowPlan(NamedTuple):
    """The plan of one window."""

    window: Window
    upper: SashPlan | None
    lower: SashPlan | None


class HousePlan(NamedTuple):
    """The plan of a house."""

    survey: Survey
    words: Words
    windows: tuple[WindowPlan, ...]
    notes: tuple[Note, ...]

    def sashes(self) -> list[SashPlan]:
        """Give the plan of every sash that is there, window by window, the upper one first."""
        pairs = ((window.upper, window.lower) for window in self.windows)
        return [sash for pair in pairs for sash in pair if sash is not None]


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
    ledger = Ledger(words, [])
    common = settle_house(survey.house, ledger)
    windows = tuple(_empty_plan(window, words) for window in survey.window)
    plan = HousePlan(survey, words, windows, (*ledger.notes, *on_the_house()))
    sashes = plan.sashes()
    _weigh(sashes, common)
    _hang(sashes, common)
    _propose(sashes, survey.house.policy.make_weight_metal or MAKE_WEIGHT)
    for sash in sashes:
        _judge(sash)
        if survey.house.policy.trim != "yes":
            _note_made_lighter(sash)
    for window in windows:
        _look_at_both(window, words)
    return plan


def _empty_plan(window: Window, words: Words) -> WindowPlan:
    plans = {
        place: SashPlan(window, place, sash, Ledger(words, [])) for place, sash in window.sashes()
    }
    return WindowPlan(window, plans.get("upper"), plans.get("lower"))


def _weigh(sashes: list[SashPlan], common: HouseInputs) -> None:
    """Find the mass of every sash, all at once."""
    given = [(plan.place, plan.sash, plan.ledger) for plan in sashes]
    for plan, mass in zip(sashes, masses(given, scale_step_kg=common.scale_step_kg), strict=True):
        plan.mass = mass


def _hang(sashes: list[SashPlan], common: HouseInputs) -> None:
    """Compute what comes of every running sash on its weights as found, all at once."""
    running = [plan for plan in sashes if plan.sash.is_running]
    given = [
        settle_sash(common, plan.window, plan.place, plan.sash, plan.mass.kg, plan.ledger)
        for plan in running
    ]
    for plan, inputs, hang in zip(running, given, for_each(given, solve), strict=True):
        plan.found = Found(inputs, hang, facts_of(inputs, hang))


def _propose(sashes: list[SashPlan], make_weight_metal: str) -> None:
    """Find what to hang every running sash on, all at once."""
    running = [(plan, plan.found) for plan in sashes if plan.found is not None]
    given = [(plan.sash, *found) for plan, found in running]
    for (plan, _), proposal in zip(running, proposals(given, make_weight_metal), strict=True):
        plan.proposal = proposal


def _judge(plan: SashPlan) -> None:
    if plan.found is None:
        return
    inputs, hang, facts = plan.found
    ledger, words = plan.ledger, plan.ledger.words
    ledger.notes.extend(on_the_weights(plan.sash, plan.mass, words))
    ledger.notes.extend(on_the_hang(plan.window, plan.sash, inputs, hang, facts, words))
    ledger.notes.extend(on_running(inputs, hang, facts, words, when="as found"))
    if plan.proposal is not None:
        _, _, inputs, _, hang, facts = plan.proposal
        ledger.notes.extend(on_new_cord(inputs, hang, words))
        ledger.notes.extend(on_the_hand(hang, words, when="as it will hang"))
        if not plan.proposal.is_as_found:
            ledger.notes.extend(on_running(inputs, hang, facts, words, when="as it will hang"))
    plan.diagnosis = diagnose(plan.sash, plan.found.inputs, plan.mass.deviation_kg, ledger)
    plan.judgement = judge(plan.sash, *plan.found, plan.proposal, words)
    _note_unknown_lengths(plan)


def _note_made_lighter(plan: SashPlan) -> None:
    """Taking off is proposed where it alone serves a pair that is there, but nobody allowed it."""
    if plan.proposal is None:
        return
    for side, weight in (("left", plan.proposal.left), ("right", plan.proposal.right)):
        if weight.add_kg < 0.0:
            plan.ledger.notes.append(note("made-lighter", side=side))


def _note_unknown_lengths(plan: SashPlan) -> None:
    """A made-up weight has no known length where its bore was not measured."""
    if plan.proposal is None:
        return
    for side, weight, found in (
        ("left", plan.proposal.left, plan.sash.left),
        ("right", plan.proposal.right, plan.sash.right),
    ):
        if math.isnan(weight.length_mm) and found is not None and found.length is not None:
            plan.ledger.notes.append(note("make-weight-length-unknown", side=side))


def _look_at_both(window: WindowPlan, words: Words) -> None:
    """Note what concerns both sashes of a window on the last of them."""
    plans = [plan for plan in (window.upper, window.lower) if plan is not None]
    if not plans:
        return
    notes = plans[-1].ledger.notes
    hangs = {plan.place: (plan.found.inputs, plan.found.hang) for plan in plans if plan.found}
    notes.extend(on_the_pair_of_sashes(window.window, hangs, words))
    if window.window.shared_with is not None:
        notes.append(note("shared", what="a box", other=window.window.shared_with))
