"""``evenhung demo``: the main job on a house of our own invention."""

from __future__ import annotations

import os
import shlex
from pathlib import Path
from typing import Annotated

import typer

from evenhung.cli.plan import show
from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.plan import plan_house
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey

EXAMPLES = """\b
Examples:
  evenhung demo
  evenhung demo --survey > house.toml
"""

NAME = SURVEY.name


def _next_steps() -> str:
    """Give what to try next, as it can be typed here: by the launcher's path if that was used."""
    command = shlex.quote(os.environ.get("EVENHUNG_CALLED", "evenhung"))
    return f"""
The survey is in {NAME}. Try next:
  {command} plan {NAME} --units metric
  {command} inspect {NAME}
  {command} price {NAME}
  {command} programme {NAME}
Change a weight or a length in it and plan again; then make one for a house of yours."""


def demo(
    survey: Annotated[
        bool,
        typer.Option("--survey", help="Print the survey of the demo house and do nothing else."),
    ] = False,
) -> None:
    """Survey and plan a demo house, here and now.

    Writes its survey into this folder, prints the plan, and says what to try next.
    """
    data = SURVEY.read_bytes()
    if survey:
        print(data.decode(), end="")
        return
    kept = _write(Path(NAME), data)
    show(plan_house(read_survey(data)))
    if kept:
        print(f"\n{kept}")
    print(_next_steps())


def _write(path: Path, data: bytes) -> str:
    """Write the survey unless a file of that name is there already; say so if it is."""
    try:
        with path.open("xb") as file:
            file.write(data)
    except FileExistsError:
        return (
            f"{NAME} was here already and is left as it was; the plan is of the house as shipped."
        )
    except OSError as error:
        fault = SurveyFault("file", NAME, f"a folder that can be written to: {error.strerror}")
        raise InvalidSurvey((fault,)) from None
    return ""
