"""Write docs/survey-form.md and docs/survey-form.schema.json: the form for people and machines.

Run it after changing a field of the form: ``python -m tools.write_form_page``.
A test compares both files with what this tool writes.
"""

from __future__ import annotations

import json
from itertools import groupby
from pathlib import Path

from tools.write_reference_page import table

from evenhung.survey.schema import FormRow, form_rows, json_schema

DOCS = Path(__file__).resolve().parent.parent / "docs"
PAGE, SCHEMA = DOCS / "survey-form.md", DOCS / "survey-form.schema.json"

LEAD = """\
# The survey form

<!-- Written by tools/write_form_page.py from src/evenhung/survey/: change a field there. -->

A survey says what was found in a house of windows.
It is a TOML file, or a JSON file of the same keys.
For editors that check as you type there is a [JSON Schema](survey-form.schema.json).
`evenhung schema` prints the same.
`evenhung demo --survey` prints a whole survey to start from.

## How it is written

- A quantity is a text with its unit, as you would say it.
  A mass is `"11 lb 4 oz"`, `"5.1 kg"`, `"5,1 kg"` or `"1 st 2 lb"`.
  A length is `"2 ft 9 1/2 in"`, `'33½"'` or `"838 mm"`.
- A number without a unit is refused where a quantity is wanted.
- Forces are in `N`, `kgf` or `lbf`, or in `lb` or `kg` as a spring balance reads.
- Pounds and kilograms, inches and millimetres may stand side by side.
  Every value is kept as you typed it.
- Left and right are seen from inside.
- A key that the form does not know is refused, with the nearest one that it knows.
- A field is *required*, or its absence has the meaning in the last column.
  *Assumed* names the row of the [reference values](reference-values.md) that stands in.
  The plan says so in a note.

The whole file is the table [Survey](#survey), and a table that holds others names them.
In TOML a table is headed by its path: `[house.cord]`, `[[window]]`, `[window.upper.left]`.
"""

HEAD = ("Field", "Holds", "Meaning", "If absent")
PART = "table: "
"""How a form row says that a field holds another record."""


def page() -> str:
    """Return the whole page as Markdown."""
    sections = [
        f"## {record}\n\n{_note(record)}{table(HEAD, [_cells(row) for row in rows])}"
        for record, rows in groupby(form_rows(), key=lambda row: row.record)
    ]
    return "\n".join([LEAD, *sections])


def schema() -> str:
    """Return the JSON Schema as a file should hold it."""
    return json.dumps(json_schema(), ensure_ascii=False, indent=2) + "\n"


def _note(record: str) -> str:
    """Return what a record is, as the schema describes it."""
    whole = json_schema()
    described = {"Survey": whole, **whole["$defs"]}[record]
    return f"{described['description']}\n\n"


def _cells(row: FormRow) -> tuple[str, ...]:
    absent = row.absent.removeprefix("if absent: ")
    return (f"`{row.field}`", _linked(row.holds), row.says, absent)


def _linked(holds: str) -> str:
    """Return what a field holds, each table in it as a link to its own section."""
    before, found, name = holds.partition(PART)
    if not found:
        return holds
    record, _, rest = name.partition(" ")
    return f"{before}table [{record}](#{record.lower()}){' ' if rest else ''}{rest}"


def main() -> None:
    """Write both files."""
    PAGE.write_text(page(), encoding="utf-8")
    SCHEMA.write_text(schema(), encoding="utf-8")


if __name__ == "__main__":
    main()
