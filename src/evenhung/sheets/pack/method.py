"""The method and risk sheet: the order of work, cautions where they bite, who is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.method import method_of
from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import breakable
from evenhung.sheets.pack.typesetting import typeset

if TYPE_CHECKING:
    from evenhung.plan.method.house import Risk
    from evenhung.sheets.pack.house import PackHouse

SAID_BELOW = "; local codes and licensed practice come first"
"""What the sheet says once, above the signature, and not beside every caution."""


def method_sheet(house: PackHouse) -> bytes:
    """Give the method and risk sheet of a house as PDF; a rule is printed in full once."""
    method = method_of(house.plan, house.job.work)
    risks: dict[str, Risk] = {}
    for step in method.steps:
        for risk in step.risks:
            risks.setdefault(risk.hazard, risk)
    numbers = {hazard: number for number, hazard in enumerate(risks, 1)}
    data = {
        "before": list(method.before),
        "asked": [{"who": who, "what": what} for who, what in method.asked],
        "steps": [
            {
                "title": step.title,
                "how": step.how,
                "does": [breakable(one) for one in step.does],
                "risks": [
                    {
                        "number": numbers[risk.hazard],
                        "hazard": risk.hazard,
                        "here": breakable(risk.here),
                    }
                    for risk in step.risks
                ],
            }
            for step in method.steps
        ],
        "risks": [
            {
                "hazard": risk.hazard,
                "rule": risk.rule,
                "source": risk.source.removesuffix(SAID_BELOW),
            }
            for risk in risks.values()
        ],
        "deference": DEFERENCE,
    }
    return typeset("method", data, house=house.name, edition=house.edition)
