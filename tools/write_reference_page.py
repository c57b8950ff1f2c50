"""Write docs/reference-values.md, the page that shows every reference row.

Run it after changing a row: ``python tools/write_reference_page.py``.
A test compares the page with what this tool writes.
"""

from pathlib import Path

from evenhung.reference import SUBJECTS, Row, Source, rows, sources

PAGE = Path(__file__).resolve().parent.parent / "docs" / "reference-values.md"

LEAD = """\
# Reference values

<!-- Written by tools/write_reference_page.py from src/evenhung/reference/: change a row there. -->

Every value that Evenhung uses and that you did not measure yourself is on this page.
What you measure or weigh always wins over what is written here.

## How to read it

**As printed** is the value in the words of its source.
**In our unit** is what the program computes with, where that differs.
**Spread** is one standard deviation: about two values in three lie within it.
No spread means that none is stated, not that there is none.

**Known** says how far to trust a row.

- *confirmed*: seen in print, in a copy of the source or on a page that repeats it.
- *from memory*: recalled; look it up before anything depends on it.
- *common practice*: what people who do the work say; no print was found.
- *ours*: an assumption of this project, open to correction.

Where two sources disagree both rows are here, and one is used.
The remark of the other begins with *kept beside*.
A value without a unit is a plain number, *pct* is per cent, *d* is days.
Gallons are those of the United States.
Cautions are reminders, never the rule itself.
The local code, and whoever is licensed to do the work, decide.
"""

ROW_HEAD = (
    "Of what",
    "Property",
    "As printed",
    "In our unit",
    "Spread",
    "Source",
    "Known",
    "Remark",
)
SOURCE_HEAD = ("Source", "Title", "Year", "Publisher or number", "Note")


def page() -> str:
    """Return the whole page as Markdown."""
    tables = [f"## {subject.capitalize()}\n\n{subject_table(subject)}" for subject in SUBJECTS]
    listed = table(SOURCE_HEAD, [source_cells(source) for source in sources().values()])
    return "\n".join([LEAD, *tables, f"## Sources\n\n{listed}"])


def subject_table(subject: str) -> str:
    """Return the table of one subject."""
    return table(ROW_HEAD, [row_cells(row) for row in rows(subject)])


def row_cells(row: Row) -> tuple[str, ...]:
    """Return the cells of one row."""
    kept_beside = "" if row.chosen else "kept beside"
    return (
        row.key,
        row.property,
        with_unit(row.value, row.unit),
        "" if row.si_unit == row.unit else with_unit(f"{row.si:.5g}", row.si_unit),
        "" if row.spread is None else with_unit(f"{row.spread:g}", row.unit),
        f"{row.source}, {row.locator}" if row.locator else row.source,
        row.known,
        "; ".join(part for part in (kept_beside, row.remark) if part),
    )


def source_cells(source: Source) -> tuple[str, ...]:
    """Return the cells of one source."""
    return (source.key, source.title, source.year, source.publisher, source.note)


def with_unit(value: str, unit: str) -> str:
    """Return a value with its unit; a plain number and a sentence have none to show."""
    return value if unit in {"1", "text"} else f"{value} {unit}"


def table(head: tuple[str, ...], body: list[tuple[str, ...]]) -> str:
    """Return a Markdown table."""
    rule = tuple("---" for _ in head)
    lines = [
        "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"
        for cells in (head, rule, *body)
    ]
    return "\n".join(lines) + "\n"


def main() -> None:
    """Write the page."""
    PAGE.write_text(page(), encoding="utf-8")


if __name__ == "__main__":
    main()
