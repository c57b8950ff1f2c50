"""``evenhung blank``: empty survey forms, as a workbook and on paper."""

from __future__ import annotations

import json
from datetime import date

from evenhung.cli.folder import write_folder
from evenhung.cli.options import AsJson, Folder, Paper, Replace

EXAMPLES = """\b
Examples:
  evenhung blank -o forms
  evenhung blank -o forms --paper letter
"""


def blank(
    output: Folder,
    replace: Replace = False,
    paper: Paper = "a4",
    as_json: AsJson = False,
) -> None:
    """Write blank survey forms.

    A workbook that `read` takes back, and sheets to fill in by hand.
    """
    from evenhung.sheets.blank.forms import blank_forms  # dear to load
    from evenhung.sheets.blank.workbook import blank_workbook
    from evenhung.sheets.pack.house import Edition

    edition = Edition("blank", date.today(), paper)  # noqa: DTZ011 - the user's own day
    files = [("survey.xlsx", blank_workbook), ("survey-forms.pdf", lambda: blank_forms(edition))]
    write_folder(output, files, replace=replace, tell=lambda _: None)
    if as_json:
        document = {"form": 1, "folder": str(output), "files": [name for name, _ in files]}
        print(json.dumps(document, ensure_ascii=False))
    else:
        print("\n".join(str(output / name) for name, _ in files))
