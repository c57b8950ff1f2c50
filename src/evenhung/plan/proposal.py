"""What to hang each sash on: its own weights if they can be brought right, else new ones."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

from evenhung.physics import hang
from evenhung.plan.assumed import assumed
from evenhung.plan.columns import for_each
from evenhung.plan.facts import Facts, facts_of
from evenhung.plan.solve import Hang, solve

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.plan.frame import Side
    from evenhung.plan.inputs import SashInputs, SideInputs
    from evenhung.survey.sash import Sash
    from evenhung.survey.weight import Weight

NEW_METALS = ("cast iron", "lead")
"""What a new weight is made of: iron where it is short enough, else lead."""


Origin: TypeAlias = Literal["found", "new", "moved", "loose", "ready-made"]
"""Where a weight comes from: `found` hangs where it was found."""


class HungWeight(NamedTuple):
    """One weight as it will hang."""

    origin: Origin
    mass_kg: float
    add_kg: float
    """What is added to the weight as found; negative is taken off; 0 for a new one."""
    length_mm: float
    """Overall hanging length, make-weights included; nan where not known."""
    across_mm: float
    """Diameter if round, side if square; nan where not known."""
    metal: str | None
    added_mm: float = 0.0
    """Length of its make-weights, of its own thickness; nan where not known."""
    added_metal: str | None = None


class Proposal(NamedTuple):
    """What to hang a sash on, and what comes of it."""

    left: HungWeight
    right: HungWeight
    inputs: SashInputs
    instead: str
    """Why not on its own weights; empty where it is on them, or where they do not run as found."""
    hang: Hang
    facts: Facts

    @property
    def keeps_both(self) -> bool:
        """True where both weights found serve."""
        return self.left.origin == self.right.origin == "found"

    @property
    def is_as_found(self) -> bool:
        """True where nothing at all is changed."""
        sides = (self.inputs.left, self.inputs.right)
        frees = any(side.efficiency != side.freed_efficiency for side in sides)
        return self.keeps_both and self.left.add_kg == self.right.add_kg == 0.0 and not frees


class _Candidate(NamedTuple):
    left: HungWeight
    right: HungWeight
    inputs: SashInputs
    instead: str


def proposals(
    sashes: Sequence[tuple[Sash, SashInputs, Hang, Facts]], make_weight_metal: str
) -> list[Proposal | None]:
    """Give, for each running sash, the first way of hanging it that travels clear.

    Parameters
    ----------
    sashes
        Each as surveyed, as settled, and what comes of it as found.
    make_weight_metal
        Metal of the pieces added to a weight.

    Returns
    -------
    list of Proposal or None
        None where nothing can be proposed: a mass is not known, or no weight travels clear.
    """
    ways = [_candidates(*sash, make_weight_metal) for sash in sashes]
    answers: list[Proposal | None] = [None] * len(sashes)
    waiting = list(range(len(sashes)))
    while waiting:
        tried = {number: candidate for number in waiting if (candidate := next(ways[number], None))}
        hangs = for_each([candidate.inputs for candidate in tried.values()], solve)
        for (number, candidate), found in zip(tried.items(), hangs, strict=True):
            facts = facts_of(candidate.inputs, found)
            if not facts.band_is_empty and facts.passes is not False:
                answers[number] = Proposal(*candidate, found, facts)
        waiting = [number for number in tried if answers[number] is None]
    return answers


def _candidates(
    sash: Sash, inputs: SashInputs, found: Hang, facts: Facts, make_weight_metal: str
) -> Iterator[_Candidate]:
    """Give the ways of hanging a sash, the one that keeps most first."""
    if math.isnan(inputs.mass_kg) or facts.cord_end_over_mm or facts.nail_short_mm:
        return
    metals = NEW_METALS if found.pair_best_kg > 0.0 else ()  # a wide band on a light sash
    if facts.band_is_empty or facts.passes is False:
        for metal in metals:
            candidate = _renewed(sash, inputs, found, metal, "")
            if not math.isnan(candidate.left.length_mm):
                yield candidate
        return
    if math.isnan(_present_kg(sash.left) + _present_kg(sash.right)):
        return
    why = "too much would have to come off them"
    for change in _changes(sash, inputs, found):
        kept = _kept(sash, inputs, change, make_weight_metal)
        if kept:
            why = "made up to it they are too long for the box"
            yield kept
    for metal in metals:
        yield _renewed(sash, inputs, found, metal, why)


def _changes(sash: Sash, inputs: SashInputs, found: Hang) -> Iterator[hang.Change]:
    """Give what makes a pair true: to the best; with less off; with less added; to like halves."""
    left, right = _present_kg(sash.left), _present_kg(sash.right)
    least, best, most = found.pair_least_kg, found.pair_best_kg, found.pair_most_kg
    for aim in (best, most, least):
        yield hang.change_to_true(
            left_kg=left,
            right_kg=right,
            pair=hang.Band(least, aim, most),
            difference_kg=inputs.difference_kg,
        )
    yield hang.Change(best / 2.0 - left, best / 2.0 - right)


def _kept(
    sash: Sash, inputs: SashInputs, change: hang.Change, make_weight_metal: str
) -> _Candidate | None:
    """Hang the sash on the weights found; None where too much of one would have to come off."""
    most_off = assumed("policy/make-weight/take_off_most_pct").value / 100.0
    for weight, add in ((sash.left, change.left_kg), (sash.right, change.right_kg)):
        mass = _present_kg(weight)
        if add < -most_off * mass or mass + add <= 0.0:
            return None
    return _candidate(
        inputs,
        _changed(sash, "left", inputs.left, float(change.left_kg), make_weight_metal),
        _changed(sash, "right", inputs.right, float(change.right_kg), make_weight_metal),
    )


def _changed(
    sash: Sash, side: Side, inputs: SideInputs, add_kg: float, make_weight_metal: str
) -> HungWeight:
    """Change the weight on one side; where it is missing, hang a new one."""
    weight, across_mm = getattr(sash, side), inputs.across_mm
    mass = _present_kg(weight)
    is_square = _is_square(sash, side)
    if mass == 0.0:
        return _new_weight(add_kg, across_mm, is_square, NEW_METALS[0])
    if abs(add_kg) < hang.RESOLUTION_KG:
        add_kg = 0.0
    if add_kg <= 0.0:
        length = inputs.length_mm * (mass + add_kg) / mass
        return HungWeight("found", mass + add_kg, add_kg, length, across_mm, weight.metal)
    added_mm = bar_length_mm(add_kg, across_mm, is_square, make_weight_metal)
    return HungWeight(
        "found",
        mass + add_kg,
        add_kg,
        inputs.length_mm + added_mm,
        across_mm,
        weight.metal,
        added_mm,
        make_weight_metal,
    )


def _renewed(sash: Sash, inputs: SashInputs, found: Hang, metal: str, instead: str) -> _Candidate:
    """Hang the sash on two new weights alike."""
    half = found.pair_best_kg / 2.0
    left, right = inputs.left.across_mm, inputs.right.across_mm
    left, right = (right if math.isnan(left) else left), (left if math.isnan(right) else right)
    alike = inputs._replace(
        left=inputs.left._replace(across_mm=left), right=inputs.right._replace(across_mm=right)
    )
    return _candidate(
        alike,
        _new_weight(half, left, _is_square(sash, "left"), metal),
        _new_weight(half, right, _is_square(sash, "right"), metal),
        instead,
    )


def _new_weight(mass_kg: float, across_mm: float, is_square: bool, metal: str) -> HungWeight:
    length_mm = bar_length_mm(mass_kg, across_mm, is_square, metal)
    return HungWeight("new", mass_kg, 0.0, length_mm, across_mm, metal)


def _candidate(
    inputs: SashInputs, left: HungWeight, right: HungWeight, instead: str = ""
) -> _Candidate:
    changed = inputs._replace(
        left=_hung_on(inputs.left, left),
        right=_hung_on(inputs.right, right),
    )
    return _Candidate(left, right, changed, instead)


def _hung_on(side: SideInputs, weight: HungWeight) -> SideInputs:
    """Only a weight itself must pass its pocket whole: make-weights go in one by one.

    Whatever is hung is hung on wheels that turn.
    """
    return side._replace(
        weight_kg=weight.mass_kg,
        length_mm=weight.length_mm,
        piece_mm=weight.length_mm if weight.origin == "new" else side.piece_mm,
        efficiency=side.freed_efficiency,
    )


def bar_length_mm(mass_kg: float, across_mm: float, is_square: bool, metal: str) -> float:
    """Give the length of a plain bar of metal [mm]."""
    area_mm2 = across_mm**2 * (1.0 if is_square else math.pi / 4.0)
    return mass_kg / (assumed(f"metals/{metal}/density").value * area_mm2 * 1e-9)


def _present_kg(weight: Weight | None) -> float:
    """Give the mass of a weight, attached or not; 0 where it is missing, nan where not known."""
    if weight is None:
        return math.nan
    if weight.is_missing:
        return 0.0
    return weight.weighed.kg if weight.weighed else math.nan


def _is_square(sash: Sash, side: Side) -> bool:
    """Tell whether the weight on one side is square; a missing one is taken to be as its fellow."""
    weight, other = (sash.left, sash.right) if side == "left" else (sash.right, sash.left)
    like = other if weight is None or weight.is_missing else weight
    return like is not None and like.section == "square"
