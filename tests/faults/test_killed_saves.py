"""Killed in the middle of saves: what was acknowledged is there, and the database is sound.

One process makes Django ready and then forks a saver for every kill, so that a kill costs a tenth
of a second. The saver has four threads on three windows of one house and says after each save what
was acknowledged; it is killed at a random moment.
"""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

SAVERS = """
import os, sys, threading
os.environ["EVENHUNG_DATA"] = sys.argv[1]
os.environ["EVENHUNG_DATABASE_URL"] = ""
from evenhung.web.config import Config
from evenhung.web.database import bring_up_to_date
bring_up_to_date(Config.from_variables())
from django.db import connections
from evenhung.store.demo import SURVEY
from evenhung.survey import read_survey
from evenhung.web.records.beginning import begin
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import House
from evenhung.web.records.saving import Saved, save

house = begin(read_survey(SURVEY.read_bytes()), who="Ann")

def keep_saving(number):
    key = [part.key for part in standing_parts(house) if part.key.kind == "window"][number % 3]
    for turn in range(100_000):
        (part,) = (part for part in standing_parts(house) if part.key == key)
        text = f"{os.getpid()}-{number}-{turn}"
        outcome = save(house, [Edit(key, part.number, {f"note": text})], who=f"saver {number}")
        if isinstance(outcome, Saved) and outcome.change:
            os.write(1, f"kept {outcome.change.number} {text}\\n".encode())

connections.close_all()
for line in sys.stdin:
    saver = os.fork()
    if not saver:
        for number in range(4):
            threading.Thread(target=keep_saving, args=(number,)).start()
        threading.Event().wait()
    os.write(1, f"saver {saver}\\n".encode())
    os.waitpid(saver, 0)
    os.write(1, b"gone\\n")
"""

LATEST_IS_LAST = """
SELECT count(*) FROM records_part AS part JOIN records_revision AS latest
ON latest.id = part.latest_id
WHERE latest.number != (SELECT max(number) FROM records_revision WHERE part_id = part.id)
"""
WITHOUT_REVISION = """
SELECT count(*) FROM records_change
WHERE id NOT IN (SELECT change_id FROM records_revision)
"""


def one_kill(savers, chance):
    """Let a saver run and kill it; give what was acknowledged."""
    savers.stdin.write("go\n")
    savers.stdin.flush()
    pid = int(savers.stdout.readline().removeprefix("saver "))
    kept = [savers.stdout.readline()]  # the first save: from here on any moment will do
    time.sleep(chance.uniform(0, 0.06))
    os.kill(pid, signal.SIGKILL)
    while (line := savers.stdout.readline()) != "gone\n":
        kept.append(line)
    return dict(line.split()[1:] for line in kept if line.endswith("\n"))


def notes_kept(database):
    """Check that the database is sound; give the note that each change has left."""
    with closing(sqlite3.connect(database)) as connection:
        assert connection.execute("PRAGMA quick_check").fetchall() == [("ok",)]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        assert connection.execute(LATEST_IS_LAST).fetchone() == (0,)
        assert connection.execute(WITHOUT_REVISION).fetchone() == (0,)
        rows = connection.execute(
            "SELECT number, summary FROM records_change WHERE number > 1"
        ).fetchall()
    return {str(number): summary for number, summary in rows}


def kill_often(folder, times, seed):
    chance = random.Random(seed)
    acknowledged = {}
    with subprocess.Popen(
        [sys.executable, "-c", SAVERS, str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as savers:
        for turn in range(times):
            acknowledged |= one_kill(savers, chance)
            if turn % 10 == 0 or turn == times - 1:
                kept = notes_kept(Path(folder) / "evenhung.sqlite3")
                lost = [
                    n for n, text in acknowledged.items() if f"note {text}" not in kept.get(n, "")
                ]
                assert lost == []
        savers.stdin.close()
    return len(acknowledged)


@pytest.mark.slow
def test_30_kills_lose_nothing_that_was_acknowledged(tmp_path):
    assert kill_often(tmp_path, 30, seed=1) >= 30


@pytest.mark.long
def test_1000_kills_lose_nothing_that_was_acknowledged(tmp_path):
    assert kill_often(tmp_path, 1000, seed=2) >= 1000
