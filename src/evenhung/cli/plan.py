"""``evenhung plan``: what to do with every sash of a house."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from evenhung.cli.files import survey_in
from evenhung.cli.options import Allotted, AsJson, SurveyFile, Units
from evenhung.plan import document_of, plan_house

if TYPE_CHECKING:
    from evenhung.plan import HousePlan

EXAMPLES = """\b
Examples:
  evenhung plan house.toml
  evenhung plan house.toml --allot
  evenhung plan house.toml --units metric
  evenhung plan house.json --json > plan.json
"""


def plan(
    survey: SurveyFile,
    with_allotment: Allotted = False,
    units: Units = None,
    as_json: AsJson = False,
) -> None:
    """Plan every sash of a surveyed house.

    For each: a verdict and why, weights, cord, clearances, forces, and cautions.
    """
    found = plan_house(survey_in(survey), shown_in=units)
    if with_allotment:
        from evenhung.cli.allot import show_with_plan  # the solver is dear to load

        show_with_plan(found, as_json=as_json)
    elif as_json:
        import json  # loaded only where it is asked for

        print(json.dumps(document_of(found), ensure_ascii=False, allow_nan=False))
    else:
        show(found)


def show(found: HousePlan) -> None:
    """Print a plan for people: in tables at a terminal, in lines anywhere else."""
    if sys.stdout is not None and sys.stdout.isatty():
        from evenhung.cli.tables import print_tables  # rich is dear to load

        print_tables(found)
    else:
        from evenhung.cli.lines import plan_lines  # not needed for JSON

        print("\n".join(plan_lines(found)))
