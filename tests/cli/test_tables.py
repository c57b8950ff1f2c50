"""At a terminal a plan is tables: within 80 columns, whatever windows and rooms are called."""

from __future__ import annotations

import io
import os

import pytest
from rich.cells import cell_len
from rich.console import Console

from evenhung.cli.lines import VERDICTS
from evenhung.cli.tables import STYLES, print_tables
from evenhung.plan import plan_house
from evenhung.survey import survey_from


def printed(document, width=80):
    """Give the lines that a terminal of some width shows of a survey's plan."""
    console = Console(width=width, file=io.StringIO(), force_terminal=True, color_system=None)
    print_tables(plan_house(survey_from(document)), console)
    return console.file.getvalue().splitlines()


@pytest.mark.parametrize("width", [80, 100, 200])
def test_the_demo_house_fits(tollgate, width):
    lines = printed(tollgate, width)
    assert max(map(cell_len, lines)) <= width
    text = "\n".join(lines)
    for word in ("Tollgate House", "W6", "cannot run", "hangs true", "Before a bead comes off"):
        assert word in text


@pytest.mark.parametrize(
    "name",
    [
        "W" * 2000,
        "first floor landing, north-east " * 60,
        "窓" * 1000,
        "e\u0301" * 900,
        "[bold]W1[/]",
    ],
    ids=["long", "words", "wide", "combining", "markup"],
)
def test_the_longest_names_fit(tollgate, name):
    tollgate["house"]["name"] = name
    tollgate["window"][0]["tag"] = name
    tollgate["window"][0]["room"] = name
    lines = printed(tollgate)
    assert max(map(cell_len, lines)) <= 80
    story = [line for line in lines if "hangs true" in line and "upper" in line]
    assert "lighter than its pair" in story[0]


def test_a_name_is_printed_as_it_is_and_never_taken_for_markup(tollgate):
    tollgate["window"][0]["tag"] = "[red]W1"
    assert any(line.startswith("[red]W1 ") for line in printed(tollgate))


def test_a_line_of_a_list_goes_on_under_its_beginning_and_parts_stand_apart(tollgate):
    lines = [line.rstrip() for line in printed(tollgate)]
    first = lines.index("Before a bead comes off") + 1
    assert lines[first].startswith(" - A sash held by one cord, or by none, may drop")
    assert lines[first + 1].startswith("   ")
    for heading in ("Repairs", "Taken for granted"):
        assert lines[lines.index(heading) - 1] == ""


def test_every_verdict_has_a_style():
    assert set(STYLES) == set(VERDICTS)


def test_a_house_without_windows_is_printed_too(tollgate):
    del tollgate["window"]
    assert "Tollgate House: no sashes" in "\n".join(printed(tollgate))


@pytest.mark.slow
def test_a_real_terminal_of_80_columns_gets_tables(process, demo):
    import pty
    import struct
    import termios
    from fcntl import ioctl

    ours, theirs = pty.openpty()
    ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    hidden = ("COLUMNS", "LINES", "NO_COLOR", "FORCE_COLOR")
    variables = {name: value for name, value in os.environ.items() if name not in hidden}
    drawing = process("plan", demo, stdout=theirs, variables={**variables, "TERM": "dumb"})
    os.close(theirs)
    shown = b""
    while piece := _read(ours):
        shown += piece
    os.close(ours)
    assert drawing.wait(timeout=60) == 0
    lines = shown.decode().splitlines()
    assert any(line.startswith("Window") and "What to do, and why" in line for line in lines)
    assert max(map(cell_len, lines)) <= 80


def _read(end):
    try:
        return os.read(end, 4096)
    except OSError:  # Linux says so where the other end of a terminal is closed
        return b""
