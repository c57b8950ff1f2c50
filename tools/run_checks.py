"""Run the checks: what CI runs, in CI's order, no more and no less.

Started by ``./check`` with the Python of the environment, so that every tool is at hand.

The first stage that fails ends the run with its exit code: the stages stand in the order of
their cost, and what a later one finds in code that an earlier one refuses is seldom worth the wait.
The tests come last, and the last line counts them.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
import xml.etree.ElementTree as ET
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).resolve().parent.parent
BUILD = ROOT / "build"
TESTS_REPORT = BUILD / "tests.xml"

SHELL_SCRIPTS = ["evenhung", "check", "tools/environment.sh", "tools/relock", ".ci/run"]

SCRIPTS_OF_PAGES = "src/evenhung/web/static/evenhung"
LINT_OF_SCRIPTS = [
    "--quiet",
    "--deny-warnings",
    *("-Dcorrectness", "-Dsuspicious", "-Dperf"),
    "-Aunicorn/require-post-message-target-origin",  # of windows; ours go to and from a worker
]

GATED = ["quantities", "physics", "survey"]
"""Packages of src/evenhung whose every line and branch must have been reached."""

MOST_WORKERS = 4
"""Each has a server, a browser and a solver of its own."""

MARKERS = {"quick": "not slow and not long", "standard": "not long", "full": ""}
"""Which tests each kind of run takes, by their markers."""


class StageError(Exception):
    """A stage failed: its output, or this message, says why."""

    def __init__(self, message: str, code: int = 1) -> None:
        super().__init__(message)
        self.code = code


def main() -> int:
    """Run the stages of the kind that the command line names; give the exit code."""
    parser = argparse.ArgumentParser(prog="./check", description="Prove that all is in order.")
    parser.add_argument(
        "kind",
        nargs="?",
        default="standard",
        choices=sorted(MARKERS),
        help="quick: style, types and the fast tests; full: also benchmarks and the long tests",
    )
    kind = parser.parse_args().kind
    BUILD.mkdir(exist_ok=True)
    TESTS_REPORT.unlink(missing_ok=True)
    code = run(stages(kind))
    if TESTS_REPORT.exists():
        print(count_of_tests(TESTS_REPORT))
    return code


def stages(kind: str) -> dict[str, Callable[[], None]]:
    """Give the stages of a kind of run, in order, by their headings."""
    layers = ["lint-imports", "--no-logo", "--cache-dir", "build/import-linter"]
    chosen: dict[str, Callable[[], None]] = {
        "format: ruff": lambda: tool("ruff", "format", "--check", "--quiet"),
        "style: ruff": lambda: tool("ruff", "check", "--quiet"),
        "shell scripts: shellcheck": lambda: tool("shellcheck", *SHELL_SCRIPTS),
        "scripts of pages: oxlint": lambda: tool("oxlint", *LINT_OF_SCRIPTS, SCRIPTS_OF_PAGES),
        "types: mypy": lambda: tool("mypy"),
        "layers: import-linter": lambda: tool(*layers),
    }
    if kind == "quick":
        return {**chosen, "tests: pytest": lambda: test(MARKERS[kind])}
    chosen["documents: sphinx"] = build_documents
    chosen["wheel, alone: build"] = lambda: tool("python", "tools/prove_wheel.py")
    if kind == "full":
        chosen["benchmarks"] = measure
    chosen["tests: pytest, coverage"] = lambda: test(MARKERS[kind], "--cov", "--cov-report=")
    chosen["reach of the tests: coverage"] = prove_reach
    chosen["tests of the app, on PostgreSQL"] = lambda: test_on_postgresql(MARKERS[kind])
    return chosen


def run(chosen: dict[str, Callable[[], None]]) -> int:
    """Run stages until one fails, each under its heading and with its time; give the exit code."""
    for heading, stage in chosen.items():
        print(f"== {heading}", flush=True)
        started = time.monotonic()
        try:
            stage()
        except StageError as error:
            print(f"== {heading}: FAILED, {error}", flush=True)
            return error.code
        print(f"   {time.monotonic() - started:.1f} s", flush=True)
    return 0


def tool(name: str, *arguments: str) -> None:
    """Run one of the environment's programs in the checkout, its output shown.

    It gets none of the caller's Python settings, and finds the environment's programs first.

    Raises
    ------
    StageError
        If it fails.
    """
    variables = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    programs = Path(sys.executable).parent
    variables["PATH"] = os.pathsep.join([str(programs), variables.get("PATH", os.defpath)])
    command = [str(programs / name), *arguments]
    done = subprocess.run(command, cwd=ROOT, env=variables, check=False)
    if done.returncode:
        raise StageError(f"{name} ended with {done.returncode}", done.returncode)


def test(markers: str, *options: str) -> None:
    """Run the tests and doctests that `markers` chooses, in random order, on several cores."""
    workers = min(MOST_WORKERS, os.cpu_count() or 1)
    spread = ["-n", str(workers), "--dist", "worksteal"]
    tool("pytest", *spread, *options, f"--junitxml={TESTS_REPORT}", "-m", markers)


def test_on_postgresql(markers: str) -> None:
    """Run the app's tests again on a real PostgreSQL, where this machine has one."""
    sys.path.insert(0, str(ROOT))
    from tools import throwaway_postgresql

    if not throwaway_postgresql.is_there():
        print("   NOT RUN: no PostgreSQL on this machine (initdb, pg_ctl, postgres)")
        return
    with throwaway_postgresql.running() as database:
        os.environ["EVENHUNG_DATABASE_URL"] = database.url
        try:
            tool(
                "pytest", "tests/web", f"--junitxml={BUILD / 'tests-postgresql.xml'}", "-m", markers
            )
        finally:
            del os.environ["EVENHUNG_DATABASE_URL"]


def count_of_tests(report: Path) -> str:
    """Give the line that closes the run, from pytest's own report."""
    count: Counter[str] = Counter()
    for suite in ET.parse(report).getroot().iter("testsuite"):  # noqa: S314 pytest wrote it
        for kind in ("tests", "failures", "errors", "skipped"):
            count[kind] += int(suite.get(kind, 0))
    failed = count["failures"] + count["errors"]
    passed = count["tests"] - failed - count["skipped"]
    return f"{passed} passed, {failed} failed, {count['skipped']} skipped"


def prove_reach() -> None:
    """Print how much of each package the tests reached; refuse less than all of a gated one."""
    tool("coverage", "json", "--quiet")
    figures = json.loads((BUILD / "coverage" / "figures.json").read_text())
    reached: Counter[str] = Counter()
    present: Counter[str] = Counter()
    for name, file in figures["files"].items():
        package = Path(name).relative_to("src/evenhung").parts[0].removesuffix(".py")
        summary = file["summary"]
        reached[package] += summary["covered_lines"] + summary["covered_branches"]
        present[package] += summary["num_statements"] + summary["num_branches"]
    for package in sorted(present, key=lambda package: (package not in GATED, package)):
        percent = 100 * reached[package] / present[package] if present[package] else 100
        demand = "  of 100 demanded" if package in GATED else ""
        print(f"   {package:12}{percent:8.2f} % of lines and branches{demand}")
    if short := [name for name in GATED if not 0 < present[name] == reached[name]]:
        included = ",".join(f"src/evenhung/{name}.py,src/evenhung/{name}/**" for name in short)
        tool("coverage", "report", f"--include={included}")
        raise StageError(f"the tests do not reach all of {', '.join(short)}")


def build_documents() -> None:
    """Build the documents; a warning is an error."""
    if not (ROOT / "docs" / "conf.py").exists():
        raise StageError("docs/conf.py is missing, so the documents cannot be built")
    options = ["-W", "--keep-going", "--quiet", "-b", "html", "-d", "build/docs/doctrees"]
    tool("sphinx-build", *options, "docs", "build/docs/html")


def measure() -> None:
    """Run the benchmarks, once there are some."""
    if (ROOT / "benchmarks" / "run.py").exists():
        tool("python", "benchmarks/run.py")
    else:
        print("   none yet: there is no benchmarks/run.py")


if __name__ == "__main__":
    sys.exit(main())
