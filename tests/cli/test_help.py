"""Help fits a small terminal, has examples that are right, and the shell completes."""

from __future__ import annotations

import shlex
import subprocess

import pytest

COMMANDS = ["plan", "takeoff", "price", "programme", "inspect", "demo", "schema"]


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
    assert all(example.startswith(f"evenhung {command}") for example in examples)


@pytest.mark.parametrize("command", COMMANDS)
def test_every_example_works(says, demo, tmp_path, monkeypatch, command):
    import json
    import tomllib
    from pathlib import Path

    monkeypatch.chdir(tmp_path)
    survey = Path(demo).read_bytes()
    Path("house.toml").write_bytes(survey)
    Path("house.json").write_text(json.dumps(tomllib.loads(survey.decode())))
    _, lines, _ = says(command, "--help")
    for line in lines[lines.index("  Examples:") + 1 :]:
        words = shlex.split(line.partition(">")[0])
        code, answer, errors = says(*words[1:])
        assert (code, errors) == (0, []), line
        assert answer, line


def test_the_commands_are_listed_with_what_they_do(says):
    _, lines, _ = says("--help")
    for command in COMMANDS:
        assert any(line.strip().startswith(f"{command} ") for line in lines)


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
