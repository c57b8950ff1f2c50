"""Exit codes and streams: an answer, a refusal, a fault of ours, an interruption, a reader gone."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys

import pytest

from evenhung.cli import app, files
from evenhung.errors import UnknownReference


def test_a_plan_is_0_whatever_it_says(says, demo):
    code, lines, errors = says("plan", demo)
    assert code == 0
    assert lines[0].startswith("Tollgate House: ")
    assert any(": cannot run: " in line for line in lines)
    assert errors == []


def test_a_refused_survey_is_2_with_a_line_for_each_fault(says, tmp_path):
    survey = tmp_path / "house.toml"
    survey.write_text('form = 1\nhose = 1\n[house]\nname = "A"\nshown_in = "feet"\n')
    code, lines, errors = says("plan", str(survey))
    assert code == 2
    assert lines == []
    assert errors == [
        "house.shown_in: 'feet': one of 'imperial' or 'metric'",
        "hose: 1: no such key; nearest is 'house'",
    ]


@pytest.mark.parametrize(
    "arguments",
    [
        ("hang",),
        ("plan",),
        ("plan", "house.toml", "more.toml"),
        ("plan", "house.toml", "--unit", "metric"),
        ("plan", "house.toml", "--units", "feet"),
        ("plan", "house.toml", "--units"),
        ("inspect", "--quiet"),
        ("demo", "house.toml"),
    ],
)
def test_wrong_usage_is_2_and_says_what_is_wrong(says, arguments):
    code, lines, errors = says(*arguments)
    assert code == 2
    assert lines == []
    assert any(line.startswith("Error: ") for line in errors), errors


def test_no_command_at_all_is_wrong_usage_and_shows_the_commands(says):
    code, lines, errors = says()
    assert code == 2
    assert any("plan " in line for line in [*lines, *errors])


def test_a_fault_of_ours_is_1_and_is_not_blamed_on_the_survey(says, demo, monkeypatch):
    def broken(_survey, **_options):
        raise ZeroDivisionError("a wheel of no size")

    monkeypatch.setattr("evenhung.cli.plan.plan_house", broken)
    monkeypatch.delenv("EVENHUNG_TRACEBACK", raising=False)
    code, lines, errors = says("plan", demo)
    assert code == 1
    assert lines == []
    assert errors == [
        "evenhung: a fault of ours, not of your survey: ZeroDivisionError: a wheel of no size",
        "evenhung: set EVENHUNG_TRACEBACK=1 and run it again for what to send us",
    ]
    monkeypatch.setenv("EVENHUNG_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError, match="a wheel of no size"):
        says("plan", demo)


def test_any_error_raised_on_purpose_is_a_refusal(says, demo, monkeypatch):
    def refuse(_survey, **_options):
        raise UnknownReference("no such row")

    monkeypatch.setattr("evenhung.cli.plan.plan_house", refuse)
    assert says("plan", demo) == (2, [], ["no such row"])


def test_a_missing_file_and_a_folder_are_refused(says, tmp_path):
    assert says("plan", "no-such.toml") == (
        2,
        [],
        ["file: no-such.toml: a survey that can be read: No such file or directory"],
    )
    code, _, errors = says("inspect", str(tmp_path))
    assert code == 2
    assert errors == [f"file: {tmp_path}: a survey that can be read: Is a directory"]


def test_a_name_that_would_garble_the_line_is_written_in_ascii(says):
    code, _, errors = says("plan", "a\nb\x1b")
    assert code == 2
    assert errors == [r"file: 'a\nb\x1b': a survey that can be read: No such file or directory"]
    assert says("plan", "a\0b")[2] == [
        r"file: 'a\x00b': a survey that can be read: embedded null byte"
    ]


def test_standard_input_that_is_closed_is_refused(says, monkeypatch):
    monkeypatch.setattr(sys, "stdin", None)
    assert says("plan", "-") == (
        2,
        [],
        ["file: -: a survey that can be read: standard input is closed"],
    )


def test_no_more_is_read_than_a_survey_can_be(monkeypatch):
    class Endless(io.RawIOBase):
        given = 0

        def readable(self):
            return True

        def readinto(self, buffer):
            self.given += len(buffer)
            buffer[:] = b"#" * len(buffer)
            return len(buffer)

    endless = Endless()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BufferedReader(endless)))
    with pytest.raises(files.InvalidSurvey, match=r"^file: \(too large\): at most 20000000 bytes$"):
        files.survey_in("-")
    assert 20_000_000 < endless.given < 20_100_000


def test_the_version_is_printed(says):
    code, lines, errors = says("--version")
    assert code == 0
    assert len(lines) == 1
    assert lines[0].startswith("evenhung ")
    assert errors == []


def test_an_exit_that_is_no_number_is_a_fault_of_ours(monkeypatch):
    def leave(**_options):
        raise SystemExit("in words")

    monkeypatch.setattr(app, "app", leave)
    assert app.run([]) == 1


@pytest.mark.slow
def test_an_interrupted_command_is_130_without_a_traceback(process, tmp_path):
    survey = tmp_path / "house.toml"
    os.mkfifo(survey)
    waiting = process("plan", str(survey))
    with survey.open("wb"):  # which returns when the program has opened it too, and waits for text
        waiting.send_signal(signal.SIGINT)
        out, err = waiting.communicate(timeout=60)
    assert waiting.returncode == 130
    assert out == b""
    assert b"Traceback" not in err


@pytest.mark.slow
def test_interrupted_while_the_commands_are_loading_is_130_too(demo):
    program = (
        "import builtins, sys\n"
        "real = builtins.__import__\n"
        "def load(name, *rest):\n"
        "    if name == 'evenhung.cli.app': raise KeyboardInterrupt\n"
        "    return real(name, *rest)\n"
        "builtins.__import__ = load\n"
        "from evenhung.__main__ import main\n"
        "sys.exit(main())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, "plan", demo], capture_output=True, check=False
    )
    assert done.returncode == 130
    assert done.stderr == b""


@pytest.mark.slow
@pytest.mark.parametrize(
    "arguments", [("plan",), ("plan", "--json"), ("inspect",), ("schema",), ("demo", "--survey")]
)
def test_a_reader_that_has_read_enough_is_no_fault(process, demo, arguments):
    survey = [demo] if arguments[0] in ("plan", "inspect") else []
    left, right = os.pipe()
    os.close(left)  # nobody will ever read
    writing = process(*arguments, *survey, stdout=right)
    os.close(right)
    _, err = writing.communicate(timeout=60)
    assert writing.returncode == 0
    assert err == b""


@pytest.mark.slow
@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no full device here")  # noqa: PTH110
@pytest.mark.parametrize("arguments", [("plan",), ("plan", "--json"), ("inspect",)])
def test_a_full_disk_is_said_in_one_line(process, demo, arguments):
    with open("/dev/full", "wb") as full:  # noqa: PTH123 - a device, not a file
        writing = process(*arguments, demo, stdout=full)
        _, err = writing.communicate(timeout=60)
    assert writing.returncode == 2
    assert err == b"output: No space left on device: a place with room for the answer\n"


@pytest.mark.slow
def test_a_pipe_is_written_in_utf_8_whatever_the_locale(process):
    variables = {"PYTHONIOENCODING": "ascii", "LC_ALL": "C", "PYTHONUTF8": "0"}
    writing = process("plan", "-", "--json", variables=variables)
    out, err = writing.communicate(
        b'form = 1\n[house]\nname = "Gr\xc3\xa4fin \xc2\xbd"\n', timeout=60
    )
    assert writing.returncode == 0, err
    assert json.loads(out.decode())["house"]["name"] == "Gräfin ½"
