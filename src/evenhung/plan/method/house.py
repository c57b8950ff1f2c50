"""The method of a house: begin here. Its order of work, with cautions where they bite."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import source_of
from evenhung.plan.cautions.house import rule, source_of_rule
from evenhung.plan.job import job_of
from evenhung.plan.method.order import ORDER
from evenhung.plan.work import counted
from evenhung.reference import look_up

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from evenhung.plan.house import HousePlan, SashPlan
    from evenhung.plan.method.order import Chapter
    from evenhung.plan.work import Work
    from evenhung.survey.house import House


class Risk(NamedTuple):
    """One caution."""

    hazard: str
    rule: str
    source: str
    here: str
    """Where in this house it bites hardest; empty where nothing sets one place apart."""


class MethodStep(NamedTuple):
    """One chapter of the work on this house."""

    title: str
    how: str
    does: tuple[str, ...]
    """Each operation, how many, and at which windows."""
    risks: tuple[Risk, ...]


class Method(NamedTuple):
    """How a house is worked on."""

    before: tuple[str, ...]
    """What is settled before anything is touched."""
    asked: tuple[tuple[str, str], ...]
    """Who must be asked, and what."""
    steps: tuple[MethodStep, ...]


def method_of(plan: HousePlan, work: Sequence[Work] | None = None) -> Method:
    """Give the order of work for a house.

    Parameters
    ----------
    plan
        The plan of the house.
    work
        What is done; None takes the whole job, hang and overhaul.
    """
    work = job_of(plan).work if work is None else work
    house = plan.survey.house
    steps = tuple(
        _step(plan, chapter, own)
        for chapter in ORDER
        if (own := [one for one in work if one.operation in chapter.operations])
    )
    hazards = {risk.hazard for step in steps for risk in step.risks}
    renews_glass = any(one.operation == "renew a pane" for one in work)
    asked = tuple(_asked(house, hazards, renews_glass=renews_glass))
    return Method(tuple(_before(house, hazards)), asked, steps)


def _step(plan: HousePlan, chapter: Chapter, work: Sequence[Work]) -> MethodStep:
    does = []
    for operation in chapter.operations:
        own = [one for one in work if one.operation == operation]
        if own:
            windows = ", ".join(dict.fromkeys(one.window for one in own))
            unit = {"each": "", "m": " m", "m2": " m²"}[own[0].unit]
            quantity = sum(one.quantity for one in own)
            does.append(f"{operation}: {counted(quantity)}{unit} ({windows})")
    places = {one.window for one in work}
    risks = tuple(
        risk for hazard in chapter.hazards for risk in _risks(plan, chapter, hazard, places)
    )
    return MethodStep(chapter.title, chapter.how, tuple(does), risks)


def _risks(plan: HousePlan, chapter: Chapter, hazard: str, windows: set[str]) -> Iterator[Risk]:
    """Give a caution; none where this house has nothing of the kind."""
    here = _here(plan, chapter, hazard, windows)
    if hazard == "lead weights" and not here:
        return
    yield Risk(hazard.capitalize(), rule(hazard), source_of_rule(hazard), here)
    if hazard == "lead paint" and _may_be_before_1978(plan.survey.house):
        row = look_up("hazards", hazard, "rule_us")
        yield Risk("Lead paint, United States", row.value, _source("rule_us"), "")
    if hazard == "heat gun":
        us = look_up("hazards", "lead paint", "heat_gun_most_us")
        uk = look_up("hazards", "lead paint", "heat_gun_most_uk")
        limits = f"At most {us.value} °F ({us.si:.0f} °C) in the United States; {uk.value} °C "
        limits += "is printed in Britain."
        yield Risk("Heat of a gun", limits, _source("heat_gun_most_us", "heat_gun_most_uk"), "")


def _source(*properties: str) -> str:
    """Give where values on lead paint come from, and what comes before them."""
    sources = [source_of(f"hazards/lead paint/{one}") for one in properties]
    return f"{'; '.join(sources)}; local codes and licensed practice come first"


def _may_be_before_1978(house: House) -> bool:
    """Tell whether the rule of the United States may take the house to have lead paint."""
    limit = look_up("hazards", "lead paint", "built_before_us").si
    return house.built is None or house.built < limit


def _here(plan: HousePlan, chapter: Chapter, hazard: str, windows: set[str]) -> str:
    """Say which sashes a caution is meant for most."""
    sashes = [one for one in plan.sashes() if one.window.tag in windows]
    if hazard == "falling sash" and "take out a sash" in chapter.operations:
        return _named("hangs on one cord or none", sashes, ("one-cord",))
    if hazard == "manual handling":
        return _named("two people or a hoist", sashes, ("two-people", "hoist"))
    if hazard == "lead weights":
        lead = [one for one in sashes if "lead" in _metals(one)]
        return _listed("lead", lead)
    return ""


def _metals(sash: SashPlan) -> set[str | None]:
    found = {weight.metal for _, weight in sash.sash.weights() if weight}
    if sash.proposal is None:
        return found
    hung = (sash.proposal.left, sash.proposal.right)
    return found | {one.metal for one in hung} | {one.added_metal for one in hung}


def _named(what: str, sashes: Iterable[SashPlan], codes: tuple[str, ...]) -> str:
    return _listed(what, [one for one in sashes if {note.code for note in one.notes} & {*codes}])


def _listed(what: str, sashes: Sequence[SashPlan]) -> str:
    names = ", ".join(f"{one.window.tag} {one.place}" for one in sashes)
    return f"{what}: {names}" if names else ""


def _before(house: House, hazards: set[str]) -> Iterator[str]:
    if house.protected == "yes":
        yield (
            "The building is protected: consent may be needed for any change to it, repairs in "
            "other materials or glass included. Have the answer in writing before work begins."
        )
    elif house.protected is None:
        yield "Whether the building is protected is not recorded: ask before work begins."
    if "Lead paint" in hazards:
        built = f"Built about {house.built}. " if house.built else "Its age is not recorded. "
        yield f"{built}Test the paint for lead, or take it to be lead and work so."
    if "Asbestos putty" in hazards:
        yield "Have the old putty sampled before it is disturbed; go on when the answer is there."
    yield "Walk the house with whoever lives in it: rooms, alarms, pets, children, ways out."


def _asked(house: House, hazards: set[str], *, renews_glass: bool) -> Iterator[tuple[str, str]]:
    yield "Owner", "the work, its order, what is kept, and what is not in the price"
    if house.protected != "no":
        yield "Local authority, conservation", "whether consent is needed, and on what conditions"
    if renews_glass:
        yield (
            "Local authority, building",
            "whether a new pane must be safety glass, and a low sill guarded",
        )
    yield "Household", "days when rooms are needed; openings boarded at night"
    if "Lead paint" in hazards:
        yield (
            "Whoever is licensed or certified for lead where the house stands",
            "whether this work needs them, and how waste is taken away",
        )
    if "Asbestos putty" in hazards:
        yield "A laboratory or surveyor of asbestos", "samples of the old putty"
    if "Height" in hazards:
        yield "Whoever puts up access", "work from outside, and what lies below the windows"
