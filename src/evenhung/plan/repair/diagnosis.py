"""From a symptom to its likely causes, and the tests that tell them apart, most telling first."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed
from evenhung.plan.repair.causes import SYMPTOMS
from evenhung.plan.repair.signs import UNKNOWN, Sign, sign_of
from evenhung.plan.repair.telling import bits_told, shares_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.house import SashPlan
    from evenhung.plan.repair.causes import Cause
    from evenhung.survey.finding import Symptom


class Suspect(NamedTuple):
    """A cause, how likely it is among those known, and what the survey says of it."""

    cause: str
    share: float
    """Of one, among all causes of the table."""
    sign: Sign


class Ask(NamedTuple):
    """A test, and what it tells."""

    ask: str
    yes: tuple[str, ...]
    """Causes that a yes speaks for."""
    bits: float
    """How much less uncertain the cause is after the answer, on average."""


class SymptomPlan(NamedTuple):
    """One symptom."""

    symptom: Symptom
    suspects: tuple[Suspect, ...]
    """Likeliest first."""
    tests: tuple[Ask, ...]
    """Most telling first."""


def diagnosis_of(symptom: Symptom, sashes: Sequence[SashPlan]) -> SymptomPlan:
    """Give what may be behind a symptom, and how to tell.

    Parameters
    ----------
    symptom
        What is complained of.
    sashes
        The sashes of its window; where it names none, what any of them says counts.
    """
    entry = SYMPTOMS[symptom.what]
    concerned = [plan for plan in sashes if symptom.sash in (None, plan.place)]
    signs = {
        cause.name: _together([sign_of(cause.sign, plan) for plan in concerned])
        for cause in entry.causes
    }
    shares = shares_of({one.name: _weight(one, signs[one.name], symptom) for one in entry.causes})
    suspects = [Suspect(cause, share, signs[cause]) for cause, share in shares.items()]
    reliable = assumed("repair/test/reliable").value
    tests = [
        Ask(test.ask, test.yes, bits_told(shares, test.yes, reliable=reliable))
        for test in entry.tests
    ]
    return SymptomPlan(
        symptom,
        tuple(sorted(suspects, key=lambda one: -one.share)),
        tuple(sorted(tests, key=lambda one: -one.bits)),
    )


def _together(signs: Sequence[Sign]) -> Sign:
    """Join the signs of several sashes: one that speaks for a cause is enough."""
    speaking = [sign for sign in signs if sign.holds]
    if speaking:
        says = (part for sign in speaking if sign.says for part in sign.says.split(", "))
        return Sign(True, ", ".join(dict.fromkeys(says)))
    against = [sign for sign in signs if sign.holds is False]
    return against[0] if signs and len(against) == len(signs) else UNKNOWN


def _weight(cause: Cause, sign: Sign, symptom: Symptom) -> float:
    """Weigh a cause by how often it is met, by its sign, and by when it shows."""
    weight, factor = (
        assumed(f"repair/cause/{cause.met}").value,
        assumed("repair/evidence/factor").value,
    )
    if sign.holds is not None:
        weight *= factor if sign.holds else 1.0 / factor
    return weight * factor if symptom.when in cause.when else weight
