"""The program as it is started: in this process, or in one of its own where it counts."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from evenhung.cli.app import run

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "src/evenhung/store/demo/tollgate-house.toml"


@pytest.fixture
def demo():
    """The path of the survey of the demo house."""
    return str(DEMO)


@pytest.fixture
def tollgate():
    """The survey of the demo house, as plain data."""
    return tomllib.loads(DEMO.read_text())


@pytest.fixture
def says(capsys):
    """Gives ``says(*arguments)``: exit code, lines of output, lines of error."""

    def answer(*arguments):
        code = run(arguments)
        out, err = capsys.readouterr()
        return code, out.splitlines(), err.splitlines()

    return answer


@pytest.fixture
def process():
    """Gives ``process(*arguments, **options)``: the program just started, all its streams pipes."""
    begun = []

    def begin(*arguments, **options):
        variables = {**os.environ, "PYTHONPATH": str(ROOT / "src"), **options.pop("variables", {})}
        command = [sys.executable, *options.pop("flags", ()), "-m", "evenhung", *arguments]
        streams = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.PIPE)
        begun.append(subprocess.Popen(command, env=variables, **{**streams, **options}))
        return begun[-1]

    yield begin
    for one in begun:
        one.kill()
        one.communicate()
