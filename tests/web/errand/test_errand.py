"""An errand: one at a time, in a process of its own, watched, stopped, found lost."""

from __future__ import annotations

import dataclasses
import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from evenhung.web.errand.sending import Busy, Errand, send
from evenhung.web.errand.standing import (
    FAILED,
    LOST,
    MAKING,
    READY,
    STOPPED,
    ErrandFolder,
    Standing,
    claimed,
)
from evenhung.web.records.latest import latest_change

RUNS = """
from dataclasses import replace
from evenhung.web.errand.running import Stopped, run
from evenhung.web.errand.standing import READY
def make(folder, standing, asked):
    {body}
run(make, is_cut_short={cut_short})
"""
SAYS = (
    'return replace(standing, state=READY, says=asked["survey"]["house"]["name"], done=asked["n"])'
)
SLEEPS = "import time; time.sleep(60)"
LOOKS = """
    import time
    while not folder.stop.exists(): time.sleep(0.02)
    raise Stopped"""
NOW = Standing(MAKING, "Ada", 0.0, 1)


def program(body, *, cut_short=False):
    """The arguments of a Python that runs an errand of this body."""
    return ("-c", RUNS.format(body=body, cut_short=cut_short))


def soon(look, seconds=30.0):
    """Wait for something to be true; give it."""
    deadline = time.monotonic() + seconds
    while not (found := look()):
        assert time.monotonic() < deadline, "it never came"
        time.sleep(0.02)
    return found


@pytest.fixture
def errands(tmp_path):
    """A folder of errands; what is still run at the end is stopped."""
    folder = tmp_path / "errands"
    yield folder
    for one in folder.glob("*/"):
        (one / "stop").touch()
    claim = soon(lambda: not folder.exists() or claimed(folder))
    if claim is not True:
        os.close(claim)


@pytest.fixture
def sent(errands, small_house):
    """Gives ``sent(body, **more)``: an errand of the small house sent; its folder."""

    def make(body, *, cut_short=False, house=small_house, command=None, **asked):
        command = command or program(body, cut_short=cut_short)
        send(house, Errand(errands, command, "Ada", {"how": "well"}, asked))
        return ErrandFolder(errands, house.pk)

    return make


def ended(folder):
    return soon(lambda: (now := folder.read()) and not now.is_making and now)


def test_what_was_never_asked_for_has_no_standing(tmp_path):
    folder = ErrandFolder(tmp_path, "a")
    assert folder.read() is None
    folder.ask_to_stop()
    assert not folder.path.exists()


def test_a_standing_reads_back_as_it_was_written(tmp_path):
    folder = ErrandFolder(tmp_path / "errands", "a")
    folder.prepare()
    said = Standing(READY, "Ada", 12.5, 3, {"paper": "a4"}, 2, 5, "cards", "none")
    folder.write(said)
    assert folder.read() == said
    assert oct(folder.path.stat().st_mode & 0o777) == "0o700"


def test_one_that_nobody_runs_is_lost(tmp_path):
    folder = ErrandFolder(tmp_path / "errands", "a")
    folder.prepare()
    folder.write(NOW)
    assert folder.read() == dataclasses.replace(NOW, state=LOST)
    claim = claimed(tmp_path / "errands")
    assert folder.read() == NOW
    os.close(claim)


def test_there_is_one_claim_at_a_time_and_it_ends_with_its_holder(tmp_path):
    first = claimed(tmp_path)
    assert first is not None
    assert claimed(tmp_path) is None
    os.close(first)
    again = claimed(tmp_path)
    assert again is not None
    os.close(again)


def test_to_prepare_is_to_forget_that_somebody_wanted_it_to_stop(tmp_path):
    folder = ErrandFolder(tmp_path, "a")
    folder.prepare()
    folder.ask_to_stop()
    assert folder.stop.exists()
    folder.prepare()
    assert not folder.stop.exists()


def test_it_is_made_from_the_house_as_it_stands(sent, small_house, small_survey):
    standing = ended(sent(SAYS, n=7))
    assert (standing.state, standing.done, standing.who) == (READY, 7, "Ada")
    assert standing.says == small_survey["house"]["name"]
    assert standing.change == latest_change(small_house)
    assert standing.wanted == {"how": "well"}


def test_another_is_refused_while_one_is_run_and_taken_when_it_has_ended(sent, errands, demo_house):
    folder = sent(LOOKS)
    with pytest.raises(Busy):
        sent(SAYS, house=demo_house, n=1)
    assert ErrandFolder(errands, demo_house.pk).read() is None
    folder.ask_to_stop()
    assert ended(folder).state == STOPPED
    assert ended(sent(SAYS, house=demo_house, n=1)).state == READY


def test_one_that_cannot_look_is_cut_short(sent):
    folder = sent(SLEEPS, cut_short=True)
    folder.ask_to_stop()
    assert ended(folder).state == STOPPED


def test_one_that_fails_says_why(sent, capfd):
    standing = ended(sent('raise OSError(28, "No space left on device")'))
    assert standing.state == FAILED
    assert standing.reason == "OSError: [Errno 28] No space left on device"
    assert "Traceback" in soon(lambda: capfd.readouterr().err)


def test_one_that_dies_without_a_word_is_lost(sent):
    assert ended(sent("import os; os._exit(9)")).state == LOST


def test_a_program_that_cannot_be_started_is_a_failure_and_lets_go(sent, monkeypatch):
    monkeypatch.setattr(sys, "executable", "/nowhere/python")
    standing = ended(sent(SAYS, n=1))
    assert standing.state == FAILED
    assert "/nowhere/python" in standing.reason
    monkeypatch.undo()
    assert ended(sent(SAYS, n=1)).state == READY


def test_it_ends_when_nobody_is_left_to_want_it(tmp_path):
    """Its input is closed, as it is when the server is killed."""
    folder = ErrandFolder(tmp_path / "errands", "a")
    folder.prepare()
    asked = {
        "errands": str(tmp_path / "errands"),
        "house": "a",
        "standing": dataclasses.asdict(NOW),
        "survey": {},
    }
    source = str(Path(__file__).parents[3] / "src")
    process = subprocess.Popen(
        [sys.executable, *program(SLEEPS)],
        stdin=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": source},
    )
    process.stdin.write(json.dumps(asked).encode() + b"\n")
    process.stdin.flush()
    process.stdin.close()
    assert process.wait(timeout=20) == 1
    assert folder.read() is None
