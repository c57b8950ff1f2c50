"""10,000 sashes planned in one process: from plain data to plain data, in columns and in floats.

The target is under ten seconds.
Columns and floats run the same formulas; the ratio is what numpy saves.
"""

from __future__ import annotations

import resource
import time

from surveys import house_of

from evenhung.plan import columns, document_of, plan_house
from evenhung.survey import survey_from

SASHES = 10_000
ROUNDS = 3


def main() -> list[str]:
    """Plan the estate both ways in turn and give the figures as lines of Markdown."""
    house = house_of(SASHES // 2)
    read = plan_columns = plan_floats = float("inf")
    for _ in range(ROUNDS):
        start = time.perf_counter()
        survey = survey_from(house)
        read = min(read, time.perf_counter() - start)
        plan_columns = min(plan_columns, _planned(survey, columns.FEW))
        plan_floats = min(plan_floats, _planned(survey, SASHES))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return [
        f"| {SASHES:,} sashes in one process | s |",
        "| --- | ---: |",
        f"| reading and checking the survey | {read:.1f} |",
        f"| planning in columns | {plan_columns:.1f} |",
        f"| planning in floats, one by one | {plan_floats:.1f} |",
        "",
        f"Floats take {plan_floats / plan_columns:.1f} times as long as columns. "
        f"Peak memory {peak:.0f} MiB. Target: reading and planning under 10 s.",
    ]


def _planned(survey: object, few: int) -> float:
    columns.for_each.__kwdefaults__["few"] = few
    start = time.perf_counter()
    document_of(plan_house(survey))
    return time.perf_counter() - start


if __name__ == "__main__":
    print("\n".join(main()))
