"""Go through docs/tutorial.md as its reader does, and write what the commands answer into it.

Run it after a change to what a command prints: ``python -m tools.tell_tutorial``; then read what
has changed, for the words around it may no longer fit. A test compares the page with what it tells.

A block of TOML that is in the survey already shows a part of it; any other is added to its end.
A block called `console` is commands, each after a dollar sign, and what they answer.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "tutorial.md"
SURVEYS = ROOT / "docs" / "tutorial"
HOUSE = "quince-cottage.toml"

BLOCK = re.compile(r"^```(toml|console)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
PROMPT = "$ "
REFUSED = 2


def retold(page: str) -> str:
    """Give the page with every answer as it is now.

    Raises
    ------
    RuntimeError
        If a command fails.
    """
    with tempfile.TemporaryDirectory() as folder:
        house = Path(folder)
        for survey in SURVEYS.glob("*.toml"):
            (house / survey.name).write_bytes(survey.read_bytes())
        return BLOCK.sub(lambda block: _told(block, house), page)


def _told(block: re.Match[str], folder: Path) -> str:
    language, text = block.groups()
    if language == "console":
        commands = [line for line in text.splitlines() if line.startswith(PROMPT)]
        answers = [f"{line}\n{_answer(line.removeprefix(PROMPT), folder)}" for line in commands]
        return f"```console\n{''.join(answers)}```"
    survey = folder / HOUSE
    so_far = survey.read_text(encoding="utf-8")
    if text not in so_far:
        survey.write_text(f"{so_far}\n{text}", encoding="utf-8")
    return block.group(0)


def _answer(command: str, folder: Path) -> str:
    """Give what a command prints, or by what it is refused; `evenhung` is this checkout's."""
    known = f'evenhung() {{ "{sys.executable}" -m evenhung "$@"; }}\n'
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    done = subprocess.run(
        ["/bin/sh", "-c", known + command],
        cwd=folder,
        env=variables,
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode not in (0, REFUSED):
        raise RuntimeError(f"{command}: {done.returncode}: {done.stderr}")
    return done.stderr if done.returncode == REFUSED else done.stdout


def main() -> None:
    """Write the page."""
    PAGE.write_text(retold(PAGE.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
