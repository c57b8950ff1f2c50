"""``evenhung read``: a filled-in workbook becomes a survey."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Optional

import typer

from evenhung.cli.options import Replace
from evenhung.cli.refusal import refused

EXAMPLES = """\b
Examples:
  evenhung blank -o forms
  evenhung read forms/survey.xlsx > house.toml
  evenhung read forms/survey.xlsx -o house.toml
"""


def read(
    workbook: Annotated[
        Path, typer.Argument(metavar="WORKBOOK", help="Workbook made by `blank`, filled in.")
    ],
    output: Annotated[
        Optional[Path],  # noqa: UP045 - typer reads it at run time
        typer.Option("-o", "--output", metavar="FILE", help="Survey to write, TOML or .json."),
    ] = None,
    replace: Replace = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print the survey as JSON.")] = False,
) -> None:
    """Read a filled-in workbook and write it as a survey.

    Every value is kept as it was typed. Whatever is wrong is told by its cell.
    """
    from evenhung.sheets.blank.reading import read_workbook  # a workbook is dear to load
    from evenhung.survey import written_survey

    survey = read_workbook(_bytes_of(workbook))
    is_json = as_json or (output is not None and output.suffix.lower() == ".json")
    written = written_survey(survey, "json" if is_json else "toml")
    if output is None:
        sys.stdout.write(written.decode())
        return
    _write(output, written, replace=replace)
    print(output)


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise refused("file", str(path), f"a workbook that can be read: {error.strerror}") from None


def _write(path: Path, data: bytes, *, replace: bool) -> None:
    """Write aside, then put in place."""
    if path.exists() and not replace:
        raise refused("output", str(path), "a file that is not there yet; or --replace")
    aside = path.with_name(f".{path.name}.making")
    try:
        aside.write_bytes(data)
        aside.replace(path)
    except OSError as error:
        aside.unlink(missing_ok=True)
        raise refused(
            "output", str(path), f"a file that can be written: {error.strerror}"
        ) from None
