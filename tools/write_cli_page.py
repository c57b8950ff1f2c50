"""Write docs/command-line.md, the page of every command's own help.

Run it after changing a command: ``python -m tools.write_cli_page``.
A test compares the page with what this tool writes.
"""

from __future__ import annotations

from pathlib import Path

from typer.main import get_group
from typer.testing import CliRunner

from evenhung.cli.app import app

PAGE = Path(__file__).resolve().parent.parent / "docs" / "command-line.md"
COLUMNS = 80

LEAD = """\
# The command line

<!-- Written by tools/write_cli_page.py from src/evenhung/cli/: change a command there. -->

In a checkout the program is `./evenhung`; where the package is installed it is `evenhung`.
What each command says of itself with `--help` stands below, word for word.

On a terminal a plan is a table of 80 columns or more.
In a pipe or a file it is plain lines, and each begins with its window and sash.
With `--json` it is [one JSON object](json-contract.md) and nothing else.

A command ends with one of these codes.

- 0: there is an answer, whatever it says.
- 1: a fault of ours; `EVENHUNG_TRACEBACK=1` shows what to send us.
- 2: refused; each fault is a line `path: value: what is allowed` on the error stream.
- 130: interrupted.
"""


def page() -> str:
    """Return the whole page as Markdown."""
    commands = get_group(app).commands
    sections = [_section("evenhung")]
    sections += [_section(f"evenhung {name}", name) for name in commands]
    return "\n".join([LEAD, *sections])


def _section(title: str, *command: str) -> str:
    return f"## {title}\n\n```text\n{help_of(*command)}```\n"


def help_of(*command: str) -> str:
    """Return what a command, or the program as a whole, says of itself, 80 columns wide."""
    shown = CliRunner().invoke(
        app, [*command, "--help"], prog_name="evenhung", terminal_width=COLUMNS, color=False
    )
    if shown.exit_code:
        raise RuntimeError(f"evenhung {' '.join(command)} --help: {shown.output}")
    lines = [line.rstrip() for line in shown.output.strip("\n").splitlines()]
    return "\n".join(lines) + "\n"


def main() -> None:
    """Write the page."""
    PAGE.write_text(page(), encoding="utf-8")


if __name__ == "__main__":
    main()
