"""A plan in tables: for a terminal, 80 columns or more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from evenhung.cli.lines import granted_line, heading, story, urgent

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan import HousePlan, SashPlan
    from evenhung.plan.words import Words

STYLES = {
    "hangs true": "green",
    "adjust": "yellow",
    "rehang": "magenta",
    "cannot run": "bold red",
    "unknown": "cyan",
    "fixed": "dim",
}


WIDEST_TAG = 12
"""A longer tag is folded, to leave room for the story within 80 columns."""


def print_tables(plan: HousePlan, console: Console | None = None) -> None:
    """Print a plan for a person at a terminal."""
    console = console or Console(highlight=False)
    console.print(Text(heading(plan), style="bold"))
    table = Table(box=None, padding=(0, 2, 1, 0), pad_edge=False)
    table.add_column("Window", style="bold", overflow="fold", max_width=WIDEST_TAG)
    table.add_column("Sash", no_wrap=True)
    table.add_column("Verdict", no_wrap=True)
    table.add_column("What to do, and why", overflow="fold")
    for sash in plan.sashes():
        verdict = sash.judgement.verdict
        table.add_row(
            Text(sash.window.tag),
            sash.place,
            Text(verdict, STYLES[verdict]),
            _story(sash, plan.words),
        )
    console.print(Padding(table, (1, 0, 0, 0)))
    granted = granted_line(plan.notes)
    if granted:
        console.print(Text(f"Taken for granted in the whole house: {granted}.", style="dim"))
    console.print(Text("\nBefore a bead comes off", style="bold"))
    for note in urgent(plan.notes):
        console.print(_bullet(note))
    console.print(
        Text("Local codes and licensed practice come before any of this.", style="italic")
    )


def _story(sash: SashPlan, words: Words) -> Text:
    told = Text(_sentence(sash.judgement.reason))
    for line in story(sash, words):
        told.append(f"\n{_sentence(line)}")
    for note in urgent(sash.notes):
        told.append(
            f"\n! {_sentence(note.text)}", style="bold" if note.severity == "fault" else "yellow"
        )
    granted = granted_line(sash.notes)
    if granted:
        told.append(f"\nTaken for granted: {granted}.", style="dim")
    return told


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].removesuffix('.')}."


def _bullet(note: Note) -> Padding:
    return Padding(Text(f"- {note.text}"), (0, 0, 0, 1))
