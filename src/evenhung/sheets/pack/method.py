"""The method and risk sheet: the order of work, cautions where they bite, who is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.assumed import UNSOURCED
from evenhung.plan.method import method_of
from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import breakable, shortened
from evenhung.sheets.pack.typesetting import typeset

if TYPE_CHECKING:
    from evenhung.plan.method.house import Risk
    from evenhung.sheets.pack.house import PackHouse

LONGEST_TAG = 40
"""Letters of the tag of a window that a step shows: it names many."""

SAID_BELOW = "; local codes and licensed practice come first"
"""What the sheet says once, above the signature, and not beside every caution."""


class _Names:
    """The names of a house's windows, of which the sheet has room for so many letters."""

    def __init__(self, house: PackHouse) -> None:
        tags = (one.window.tag for one in house.plan.windows)
        long = sorted((one for one in tags if len(one) > LONGEST_TAG), key=len, reverse=True)
        self.short = {one: shortened(one, LONGEST_TAG) for one in long}

    def cut(self, text: str) -> str:
        """Give a text with the names of windows cut where they are too long."""
        for name, short in self.short.items():
            text = text.replace(name, short)
        return breakable(text)


def method_sheet(house: PackHouse) -> bytes:
    """Give the method and risk sheet of a house as PDF; a rule is printed in full once."""
    method = method_of(house.plan, house.job.work)
    names = _Names(house)
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
                "does": [names.cut(one) for one in step.does],
                "risks": [
                    {
                        "number": numbers[risk.hazard],
                        "hazard": risk.hazard,
                        "here": names.cut(risk.here),
                    }
                    for risk in step.risks
                ],
            }
            for step in method.steps
        ],
        "risks": [
            {"hazard": risk.hazard, "rule": risk.rule, "source": _source(risk)}
            for risk in risks.values()
        ],
        "unsourced": [numbers[risk.hazard] for risk in risks.values() if not _source(risk)],
        "deference": DEFERENCE,
    }
    return typeset("method", data, house=house.name, edition=house.edition)


def _source(risk: Risk) -> str:
    """Give where a rule comes from; nothing for common practice, which is said of all together."""
    source = risk.source.removesuffix(SAID_BELOW)
    return "" if source == UNSOURCED else source
