"""``evenhung takeoff``: what is bought for a house, and how it is cut."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from evenhung.cli.allot import planned
from evenhung.cli.options import Allotted, AsJson, SurveyFile, Units
from evenhung.quantities import print_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import HousePlan
    from evenhung.plan.takeoff.cutting import Cuts
    from evenhung.plan.takeoff.house import TakeOff
    from evenhung.plan.words import Words

EXAMPLES = """\b
Examples:
  evenhung takeoff house.toml
  evenhung takeoff house.toml --allot
  evenhung takeoff house.toml --json
"""


def takeoff(
    survey: SurveyFile,
    with_allotment: Allotted = False,
    units: Units = None,
    as_json: AsJson = False,
) -> None:
    """List what to buy for a house, and how to cut it.

    Timber, panes, putty, paint, cord and weights, each with where it goes; cut from the lengths
    that are sold.
    """
    from evenhung.plan.overhaul import overhaul_in_full
    from evenhung.plan.takeoff.cutting import cuts_of  # the solver is dear to load

    plan = planned(survey, units, is_allotted=with_allotment)
    wanted = overhaul_in_full(plan).takeoff
    cuts = cuts_of(wanted, plan.survey.house.stock)
    if as_json:
        import json  # loaded only where it is asked for

        from evenhung.plan.overhaul_document import cuts_document, takeoff_document

        name = plan.survey.house.name
        answer = {"form": 1, "house": name, "takeoff": takeoff_document(wanted)}
        print(json.dumps({**answer, "cuts": cuts_document(cuts)}, ensure_ascii=False))
        return
    print("\n".join(_lines(plan, wanted, cuts)))


def _lines(plan: HousePlan, wanted: TakeOff, cuts: list[Cuts]) -> Iterator[str]:
    from evenhung.cli.repair_lines import buying_lines

    words = plan.words
    yield f"{plan.survey.house.name}: take-off"
    yield from buying_lines(wanted, words)
    for line in wanted.cord:
        kept = "; the cords found may stay" if line.is_optional else ""
        size = f"2 cords of {words.length(line.cut_mm)}, {line.across_mm:g} mm"
        yield f"{size}: {line.window} {line.place}{kept}"
    for weight in wanted.weights:
        size = f"{weight.metal} {weight.across_mm:.0f} mm, {words.length(weight.length_mm)}"
        yield (
            f"{size}, {words.mass(weight.mass_kg)}: {weight.window} {weight.place} {weight.side}"
        )
    for one in cuts:
        yield from _cut(one, words)


def _cut(one: Cuts, words: Words) -> Iterator[str]:
    """Say how one thing is cut: sizes in the house's own system alone, for many stand in a line."""

    def own(mm: float) -> str:
        return print_length(mm, words.system)

    fewest = "fewer will not do" if one.is_fewest else "fewer may do"
    yield f"cut {one.what}: {one.number} of {words.length(one.stock_mm)}; {fewest}"
    for length in one.lengths:
        times = f"{length.number} times " if length.number > 1 else ""
        alike = [(own(piece), len(list(same))) for piece, same in groupby(length.cuts_mm)]
        pieces = " + ".join(f"{many} at {piece}" if many > 1 else piece for piece, many in alike)
        yield f"cut {one.what}: {times}{pieces}, {own(length.left_mm)} over"
    for long in one.too_long_mm:
        yield f"cut {one.what}: {own(long)} is longer than it is sold: order it, or join it"
