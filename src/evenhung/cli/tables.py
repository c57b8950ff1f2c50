"""A plan in tables: for a terminal, 80 columns or more."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from rich.console import Console, Group
from rich.table import Table
from rich.text import Text

from evenhung.cli.lines import granted, heading, proof_line, proved, urgent
from evenhung.cli.repair_lines import house_lines, window_lines
from evenhung.cli.story import story
from evenhung.plan.completion.house import completion_of
from evenhung.plan.overhaul import overhaul_of

if TYPE_CHECKING:
    from rich.console import ConsoleOptions, RenderableType, RenderResult

    from evenhung.plan import HousePlan, SashPlan
    from evenhung.plan.completion.house import HouseCompletion
    from evenhung.plan.completion.proof import Proof
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


class _Unbroken:
    """Prints with every quantity on one line: half a length is worse than none."""

    HELD = "\ue000"
    """Stands for a space that must not break, until lines have been broken."""
    WITHIN = re.compile(r"(?<=\d) (?=\d+/|(?:ft|in|lb|oz|kg|mm|N|lbf)\b)|(?<=ft|lb) (?=\d)")
    """Spaces within a quantity."""

    def __init__(self, content: RenderableType) -> None:
        self.content = content

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """Break lines first, then put the spaces back."""
        for segment in console.render(self.content, options):
            yield segment._replace(text=segment.text.replace(self.HELD, " "))

    @classmethod
    def held(cls, text: str) -> str:
        """Hold the spaces within quantities."""
        return cls.WITHIN.sub(cls.HELD, text)


def print_tables(plan: HousePlan, console: Console | None = None) -> None:
    """Print a plan for a person at a terminal."""
    console = console or Console(highlight=False)
    console.print(_Unbroken(Group(*_page(plan))))


def _page(plan: HousePlan) -> list[RenderableType]:
    completion = completion_of(plan)
    rules = [_bullet(note.text) for note in urgent(plan.notes)]
    assumed = [
        _bullet(f"{what}: {where}" if where else f"{what}: everywhere")
        for what, where in granted(plan).items()
    ]
    return [
        Text(heading(plan), style="bold"),
        *([Text(_Unbroken.held(_sentence(proved(completion))))] if completion else []),
        Text("\nBefore a bead comes off", style="bold"),
        *rules,
        Text("Local codes and licensed practice come before any of this.\n", style="italic"),
        _table(plan, completion),
        Text(""),
        *_repairs(plan),
        Text("Taken for granted", style="bold"),
        *assumed,
    ]


def _repairs(plan: HousePlan) -> list[RenderableType]:
    """Give what to do about what was found, window by window; nothing where nothing was."""
    overhaul = overhaul_of(plan)
    if overhaul is None:
        return []
    page: list[RenderableType] = [Text("Repairs", style="bold")]
    for window in overhaul.windows:
        lines = list(window_lines(window, plan.words))
        if lines:
            page += [Text(window.repair.window.tag, style="bold"), *map(_bullet, lines)]
    house = [line.removeprefix("house: ") for line in house_lines(overhaul, plan.words)]
    return [*page, Text("The house", style="bold"), *map(_bullet, house), Text("")]


def _table(plan: HousePlan, completion: HouseCompletion | None) -> Table:
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
            _told(sash, plan.words, completion.of(sash) if completion else None),
        )
    return table


def _told(sash: SashPlan, words: Words, proof: Proof | None) -> Text:
    told = Text(_sentence(sash.judgement.reason))
    for line in story(sash, words):
        told.append(f"\n{_sentence(line)}", style="dim" if line.startswith("not ch") else "")
    if proof is not None:
        style = "green" if proof.verdict == "proved" else "yellow"
        told.append(f"\n{_sentence(proof_line(proof))}", style=style)
    for note in [*urgent(sash.notes), *urgent(proof.notes if proof else ())]:
        style = "bold" if note.severity == "fault" else "yellow"
        told.append(f"\n! {_sentence(note.text)}", style=style)
    return told


def _sentence(text: str) -> str:
    return _Unbroken.held(f"{text[:1].upper()}{text[1:].removesuffix('.')}.")


def _bullet(text: str) -> Table:
    """Give a line of a list; where it is broken, it goes on under its beginning."""
    line = Table.grid()
    line.add_column(no_wrap=True)
    line.add_column()
    line.add_row(" - ", Text(_Unbroken.held(text)))
    return line
