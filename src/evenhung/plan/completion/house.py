"""The completion of a house: every sash that was tried, judged, and how many are still to prove."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.completion.evidence import evidence_of
from evenhung.plan.completion.hanging import hanging_of
from evenhung.plan.completion.proof import prove
from evenhung.plan.estimate import UNIFORM
from evenhung.plan.hung import hung_in
from evenhung.plan.ledger import Ledger
from evenhung.plan.settle import settle_house

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.plan.completion.proof import Proof
    from evenhung.plan.house import HousePlan, SashPlan


class HouseCompletion(NamedTuple):
    """What is proved of a house."""

    proofs: Mapping[tuple[str, str], Proof]
    """By tag and place: every sash that was tried."""
    running: tuple[tuple[str, str], ...]
    """Every sash that runs, and so has to be proved."""

    @property
    def proved(self) -> int:
        """How many sashes are proved."""
        return sum(one.verdict == "proved" for one in self.proofs.values())

    @property
    def failed(self) -> tuple[str, ...]:
        """The sashes that were tried and failed."""
        return tuple(
            " ".join(name)
            for name in self.running
            if name in self.proofs and self.proofs[name].verdict == "not proved"
        )

    @property
    def open(self) -> tuple[str, ...]:
        """The sashes that are still to prove, for nothing or not enough of them was tried."""
        return tuple(
            " ".join(name)
            for name in self.running
            if name not in self.proofs or self.proofs[name].verdict == "not yet proved"
        )

    def of(self, sash: SashPlan) -> Proof | None:
        """Give the proof of one sash; None where it was not tried."""
        return self.proofs.get((sash.window.tag, sash.place))


def completion_of(plan: HousePlan) -> HouseCompletion | None:
    """Give what is proved of a house; None where no sash of it was tried.

    Parameters
    ----------
    plan
        The house on what hangs in it now: what was hung by decision, else what is proposed.
    """
    running = [
        (sash, sash.found, sash.sash.completion)
        for sash in plan.sashes()
        if sash.found is not None and sash.sash.completion is not None
    ]
    if not running:
        return None
    hung = hung_in(plan.survey)
    common = settle_house(plan.survey.house, Ledger(plan.words, []))
    scale_sd_kg = common.scale_step_kg * UNIFORM
    return HouseCompletion(
        {
            (sash.window.tag, sash.place): prove(
                evidence_of(
                    tried,
                    hanging_of(sash, found, hung),
                    mass_sd_kg=sash.mass.deviation_kg,
                    scale_sd_kg=scale_sd_kg,
                ),
                tried,
                plan.words,
            )
            for sash, found, tried in running
        },
        tuple((one.window.tag, one.place) for one in plan.sashes() if one.sash.is_running),
    )
