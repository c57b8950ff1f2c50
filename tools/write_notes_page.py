"""Write docs/note-codes.md, the page of every note that a plan can make.

Run it after changing a note: ``python -m tools.write_notes_page``.
A test compares the page with what this tool writes.
"""

from __future__ import annotations

from pathlib import Path
from typing import get_args

from tools.write_reference_page import table

from evenhung.notes import Severity
from evenhung.plan.catalogue import ENTRIES

PAGE = Path(__file__).resolve().parent.parent / "docs" / "note-codes.md"

LEAD = """\
# Note codes

<!-- Written by tools/write_notes_page.py from plan/catalogue.py: change a note there. -->

What a plan cannot say in a number it says in a note.
A note has a code, a severity, a text and a source.
A script may rely on the code: it keeps its meaning, and is never used for another.
The text is for people and may be put better at any time.
Words in braces are filled in, with the quantities in both systems.
"""

MEANING = {
    "fault": "It stops the work: the sash cannot run as it is.",
    "caution": "It asks for care, or for a second look.",
    "info": "It explains, or says what was taken for granted.",
}
"""By severity, the gravest first: what a note of it is for."""


def page() -> str:
    """Return the whole page as Markdown."""
    if set(MEANING) != set(get_args(Severity)):
        raise LookupError(f"severities: {sorted(MEANING)}: those of the notes, {Severity}")
    sections = [f"## {name}\n\n{meaning}\n\n{_entries(name)}" for name, meaning in MEANING.items()]
    return "\n".join([LEAD, *sections])


def _entries(severity: str) -> str:
    """Return the table of the notes of one severity, in the order of the catalogue."""
    rows: list[tuple[str, ...]] = [
        (f"`{code}`", entry.words) for code, entry in ENTRIES.items() if entry.severity == severity
    ]
    return table(("Code", "What it says"), rows)


def main() -> None:
    """Write the page."""
    PAGE.write_text(page(), encoding="utf-8")


if __name__ == "__main__":
    main()
