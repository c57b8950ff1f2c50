"""A whole ``plan`` of ten windows, process and all, against a bare import of numpy and pydantic.

The target is a ratio of at most 1.6. What Evenhung imports on the way, and what not, is listed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import tomli_w
from surveys import house_of

ROOT = Path(__file__).parent.parent
TARGET = 1.6
ROUNDS = 41
HEAVY = ("numpy", "rich", "scipy", "pydantic", "typer", "pydantic_core")


def main() -> list[str]:
    """Run the two in turn and give the figures as lines of Markdown."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    with tempfile.TemporaryDirectory() as folder:
        survey = Path(folder) / "ten.toml"
        survey.write_text(tomli_w.dumps(house_of(10)), encoding="utf-8")
        plan = ("plan", str(survey), "--json")
        commands = {
            "`import numpy, pydantic`": (sys.executable, "-c", "import numpy, pydantic"),
            "`evenhung plan` by the launcher": (str(ROOT / "evenhung"), *plan),
            "`python -m evenhung plan`": (sys.executable, "-m", "evenhung", *plan),
        }
        least = dict.fromkeys(commands, float("inf"))
        for _ in range(ROUNDS):
            for name, command in commands.items():
                least[name] = min(least[name], _seconds(command, clean))
        listing = subprocess.run(
            (sys.executable, "-X", "importtime", "-m", "evenhung", *plan),
            env=clean,
            capture_output=True,
            text=True,
            check=True,
        ).stderr
    bare = least["`import numpy, pydantic`"]
    lines = ["| process | ms | ratio |", "| --- | ---: | ---: |"]
    lines += [f"| {name} | {1000 * one:.0f} | {one / bare:.2f} |" for name, one in least.items()]
    return [*lines, "", *_imports(listing), "", f"Target: a ratio of at most {TARGET}."]


def _seconds(command: tuple[str, ...], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - start


def _imports(listing: str) -> list[str]:
    """Give the import-time budget: which heavy packages load, and what each costs."""
    cost = {}
    for line in listing.splitlines():
        if line.startswith("import time:") and "cumulative" not in line:
            _, cumulative, name = line.removeprefix("import time:").split("|")
            cost[name.strip()] = int(cumulative)
    lines = ["| package | loaded by a plan | ms, all below it included |", "| --- | --- | ---: |"]
    for name in HEAVY:
        spent = f"{cost[name] / 1000:.0f}" if name in cost else ""
        lines.append(f"| {name} | {'yes' if name in cost else 'no'} | {spent} |")
    return lines


if __name__ == "__main__":
    print("\n".join(main()))
