"""``demo``: the main job on a house of our own invention, in whatever folder one stands in."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

NAME = "tollgate-house.toml"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    """Stand in an empty folder, as a user of no particular launcher."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("EVENHUNG_CALLED", raising=False)
    return tmp_path


def test_it_writes_the_survey_plans_it_and_says_what_to_try(says, demo, folder):
    code, lines, errors = says("demo")
    assert (code, errors) == (0, [])
    assert lines[0].startswith("Tollgate House: ")
    assert (folder / NAME).read_bytes() == Path(demo).read_bytes()
    assert f"The survey is in {NAME}. Try next:" in lines


def test_what_it_says_to_try_works(says):
    _, lines, _ = says("demo")
    tries = [shlex.split(line) for line in lines if line.startswith("  evenhung ")]
    assert [words[1] for words in tries] == ["plan", "inspect", "price", "programme"]
    for _, *words in tries:
        code, answer, errors = says(*words)
        assert (code, errors) == (0, [])
        assert answer


def test_a_survey_that_is_there_already_is_left_as_it_was(says, folder):
    mine = b'form = 1\n[house]\nname = "Mine"\n'
    (folder / NAME).write_bytes(mine)
    code, lines, errors = says("demo")
    assert (code, errors) == (0, [])
    assert (folder / NAME).read_bytes() == mine
    assert any(f"{NAME} was here already and is left as it was" in line for line in lines)


def test_a_folder_that_cannot_be_written_to_is_refused_in_one_line(says, folder):
    gone = folder / "gone"
    gone.mkdir()
    os.chdir(gone)
    gone.rmdir()
    code, lines, errors = says("demo")
    os.chdir(folder)
    assert code == 2
    assert lines == []
    assert errors == [f"file: {NAME}: a folder that can be written to: No such file or directory"]


@pytest.mark.skipif(os.getuid() != 0, reason="only root can become nobody")
@pytest.mark.slow
def test_a_folder_of_someone_else_is_refused_in_one_line(folder):
    (folder / "mine").mkdir()
    (folder / "mine").chmod(0o755)
    program = (
        "import os, sys\n"
        "from evenhung.cli.app import run\n"
        "run(['demo'])\n"  # loads what the second run needs, from where nobody may read
        "os.chdir('mine')\n"
        "os.setuid(65534)\n"
        "sys.exit(run(['demo']))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert re.fullmatch(
        rf"file: {NAME}: a folder that can be written to: (Permission|Read-only)[^\n]*\n",
        done.stderr,
    )


def test_the_survey_alone_is_printed_and_nothing_is_written(says, demo, folder):
    code, lines, errors = says("demo", "--survey")
    assert (code, errors) == (0, [])
    assert lines == Path(demo).read_text().splitlines()
    assert list(folder.iterdir()) == []
