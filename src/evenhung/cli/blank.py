"""``evenhung blank``: empty survey forms, as a workbook and on paper."""

from __future__ import annotations

import json
from datetime import date
from typing import Annotated, Optional

import typer

from evenhung.cli.files import survey_in
from evenhung.cli.folder import write_folder
from evenhung.cli.options import AsJson, Folder, Paper, Replace

EXAMPLES = """\b
Examples:
  evenhung blank -o forms
  evenhung blank -o forms --paper letter
  evenhung blank -o forms --filled house.toml
"""


def blank(
    output: Folder,
    filled: Annotated[
        Optional[str],  # noqa: UP045 - typer reads it at run time
        typer.Option(metavar="SURVEY", help="Fill the workbook in with a survey."),
    ] = None,
    replace: Replace = False,
    paper: Paper = "a4",
    as_json: AsJson = False,
) -> None:
    """Write blank survey forms.

    A workbook that `read` takes back, and sheets to fill in by hand.
    With a survey, the workbook holds it, to be gone on with and read back.
    """
    from evenhung.sheets.blank.filled import filled_workbook
    from evenhung.sheets.blank.forms import blank_forms  # dear to load
    from evenhung.sheets.blank.workbook import blank_workbook
    from evenhung.sheets.pack.house import Edition

    edition = Edition("blank", date.today(), paper)  # noqa: DTZ011 - the user's own day
    survey = None if filled is None else survey_in(filled)
    files = [
        ("survey.xlsx", lambda: filled_workbook(survey) if survey else blank_workbook()),
        ("survey-forms.pdf", lambda: blank_forms(edition)),
    ]
    write_folder(output, files, replace=replace, tell=lambda _: None)
    if as_json:
        document = {"form": 1, "folder": str(output), "files": [name for name, _ in files]}
        print(json.dumps(document, ensure_ascii=False))
    else:
        print("\n".join(str(output / name) for name, _ in files))
