"""Arguments and options that more than one command takes: said once, so that they stay alike.

What a command must be given comes first, then its own options, then these in their order here,
``--json`` last; ``tests/cli/test_help.py`` holds every command to it.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, Optional

import typer

if TYPE_CHECKING:
    from collections.abc import Callable

SurveyFile = Annotated[
    str,
    typer.Argument(metavar="SURVEY", help="Survey file, TOML or .json; - is standard input."),
]

Folder = Annotated[
    Path, typer.Option("-o", "--output", metavar="FOLDER", help="Folder to write into.")
]

Replace = Annotated[bool, typer.Option("--replace", help="Replace what is there already.")]

Paper = Annotated[Literal["a4", "letter"], typer.Option(help="Paper that it is printed on.")]

Allotted = Annotated[
    bool, typer.Option("--allot", help="Hang the house on the best use of all its weights.")
]

Data = Annotated[
    Optional[Path],  # noqa: UP045 - typer reads it at run time
    typer.Option(metavar="FOLDER", help="Folder that holds the houses; unset, one of your own."),
]

Units = Annotated[
    Optional[Literal["imperial", "metric"]],  # noqa: UP045 - typer reads it at run time
    typer.Option(help="Show this system first; the other follows in brackets."),
]

AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON object.")]


def number_from(least: float, most: float | None = None) -> Callable[[str], float]:
    """Give what reads a number of an option, and refuses any other with what is allowed."""
    allowed = f"a number from {least:g} {'up' if most is None else f'to {most:g}'}"

    def read(text: str) -> float:
        try:
            number = float(text)
        except ValueError:
            number = float("nan")
        if not least <= number <= (float("inf") if most is None else most):
            raise typer.BadParameter(f"{text!r}: {allowed}")
        return number

    return read
