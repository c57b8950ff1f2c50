"""Help fits a small terminal, has examples that are right, and the shell completes."""

from __future__ import annotations

import json
import re
import shlex
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from typer.main import get_group

from evenhung.allot.watch import Progress
from evenhung.cli import options
from evenhung.cli.allot import Teller
from evenhung.cli.app import app

GROUP = get_group(app)
COMMANDS = list(GROUP.commands)

WANT_MORE = ("read", "serve", "backup")
"""Their examples want a workbook that is filled in, a browser, a folder of houses: other tests."""

SHARED = ("survey", "output", "replace", "paper", "with_allotment", "data", "units", "as_json")
"""What more than one command takes, in the order that every command has it in."""

PROGRESS = re.compile(r" *\d+ s: within \d+\.\d\d % of the best there can be")
"""What a solve that takes longer than a second says on standard error, how often nobody knows."""


@pytest.mark.parametrize("command", [[], *([command] for command in COMMANDS)])
@pytest.mark.parametrize("option", ["-h", "--help"])
def test_help_fits_80_columns(says, command, option):
    code, lines, errors = says(*command, option)
    assert (code, errors) == (0, [])
    assert max(map(len, lines)) <= 80
    assert lines[0].startswith(f"Usage: {' '.join(['evenhung', *command])} ")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_examples_of_itself(says, command):
    _, lines, _ = says(command, "--help")
    examples = [line.strip() for line in lines[lines.index("  Examples:") + 1 :]]
    assert examples
    assert all(example.startswith("evenhung ") for example in examples)
    assert any(example.startswith(f"evenhung {command}") for example in examples)


@pytest.fixture
def house(demo, tmp_path, monkeypatch):
    """Stand in a folder with what the examples speak of."""
    monkeypatch.chdir(tmp_path)
    survey = Path(demo).read_bytes()
    Path("house.toml").write_bytes(survey)
    Path("house.json").write_text(json.dumps(tomllib.loads(survey.decode())))
    booked = '\n[[booked]]\nwindow = "W2"\noperation = "splice"\nhours = 3\n'
    Path("last.toml").write_bytes(survey + booked.encode())


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize("command", [one for one in COMMANDS if one not in WANT_MORE])
def test_every_example_works(says, command):
    _, lines, _ = says(command, "--help")
    for line in lines[lines.index("  Examples:") + 1 :]:
        for left in ("sheets", "forms"):  # by the example before
            if "--replace" not in line and f"-o {left} " in f"{line} ":
                shutil.rmtree(left, ignore_errors=True)
        example, _, kept = line.partition(">")
        code, answer, errors = says(*shlex.split(example)[1:])
        assert code == 0, (line, errors)
        assert [said for said in errors if not _tells_of_progress(command, said)] == [], line
        assert answer, line
        if kept:
            Path(kept.strip()).write_text("\n".join(answer))


def _tells_of_progress(command, line):
    """Tell whether a line may come or not, by how long the machine takes."""
    return bool(PROGRESS.fullmatch(line)) or (command == "pack" and " of " in line)


def test_progress_is_told_in_the_words_that_are_let_pass(capsys):
    Teller().tell(Progress(bound=90.0, cost=100, seconds=2.5))
    _, said = capsys.readouterr()
    assert PROGRESS.fullmatch(said.rstrip("\n")), said


def test_what_is_quick_tells_of_no_progress(capsys):
    Teller().tell(Progress(bound=90.0, cost=100, seconds=1.5))
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize("command", COMMANDS)
def test_what_commands_share_is_alike_and_in_one_order(command):
    parameters = [one for one in GROUP.commands[command].params if one.name != "help"]
    names = [one.name for one in parameters]
    shared = [name for name in names if name in SHARED]
    assert shared == sorted(shared, key=SHARED.index)
    given = [one.name for one in parameters if one.required]
    assert names[: len(given)] == given, "what must be given comes first"
    own = [names.index(name) for name in names if name not in (*SHARED, *given)]
    later = [names.index(name) for name in shared if name not in given]
    assert not own or not later or max(own) < min(later), "then a command's own"


def test_what_commands_share_is_said_once():
    """The workbook's reader says of two options what is true of it alone."""
    folder = Path(options.__file__).parent
    written = [file.read_text() for file in folder.glob("*.py") if file.stem != "read"]
    for words in (
        '"--json"',
        'metavar="SURVEY", help="Survey',
        '"--allot"',
        '"imperial", "metric"',
    ):
        assert sum(text.count(words) for text in written) == 1, words


@pytest.mark.parametrize("given", ["nan", "inf", "eighty", "49.9", "99.5", ""])
def test_a_number_out_of_range_is_refused_with_what_is_allowed(says, demo, given):
    code, lines, errors = says("price", demo, "--confidence", given)
    assert (code, lines) == (2, [])
    refused = f"Invalid value for '--confidence': {given!r}: a number from 50 to 99"
    assert errors[-1] == f"Error: {refused}"


def test_a_number_without_an_upper_end_says_so(says, demo):
    _, _, errors = says("allot", demo, "--seconds", "-1")
    assert errors[-1] == "Error: Invalid value for '--seconds': '-1': a number from 0 up"


def test_the_commands_are_listed_with_what_they_do(says):
    _, lines, _ = says("--help")
    for command in COMMANDS:
        (line,) = [line for line in lines if line.startswith(f"  {command} ")]
        assert line.endswith("."), "a whole sentence"
        assert not line.endswith("..."), "and not cut off"


@pytest.mark.slow
@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_completion_script_is_produced(process, shell):
    completing = process(variables={"_EVENHUNG_COMPLETE": f"source_{shell}"})
    out, err = completing.communicate(timeout=60)
    assert completing.returncode == 0, err
    assert b"_EVENHUNG_COMPLETE" in out
    if shell == "bash":
        subprocess.run(["/bin/bash", "-n"], input=out, check=True)


@pytest.mark.slow
def test_the_shell_completes_commands(process):
    variables = {
        "_EVENHUNG_COMPLETE": "complete_bash",
        "COMP_WORDS": "evenhung pl",
        "COMP_CWORD": "1",
    }
    completing = process(variables=variables)
    out, _ = completing.communicate(timeout=60)
    assert out.split() == [b"plan"]


def test_options_of_completion_are_there(says):
    _, lines, _ = says("--help")
    assert any("--show-completion" in line for line in lines)
