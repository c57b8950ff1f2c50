"""A backup is proved by restoring it: into a new folder, into another kind of database."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
import threading
import zipfile
from datetime import UTC, datetime

import pytest
from django.db import connection
from PIL import Image

from evenhung.store.parts import Key, new_id
from evenhung.store.photos import keep_photo
from evenhung.web.access.people import add_person
from evenhung.web.backup import write_backup
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import save

pytestmark = pytest.mark.slow


def evenhung(*arguments, database=""):
    variables = {**os.environ, "EVENHUNG_DATABASE_URL": database}
    command = [sys.executable, "-m", "evenhung", *map(str, arguments)]
    return subprocess.run(command, env=variables, capture_output=True, text=True, check=False)


@pytest.fixture
def backup(tmp_path, data_folder, demo_house):
    """Give a backup of a house with a history and a photo, and of someone's passphrase."""
    key = next(part.key for part in standing_parts(demo_house) if part.key.kind == "window")
    save(demo_house, [Edit(key, 1, {"note": "seen"})], who="Ben")
    file = io.BytesIO()
    Image.effect_noise((80, 60), 30).convert("RGB").save(file, "JPEG")
    photo = {"sha256": keep_photo(data_folder / "photos", file.getvalue()), "of": key.ident}
    save(demo_house, [Edit(Key("photo", new_id()), 0, photo)], who="Ben")
    add_person(f"Ann {new_id()}", "keeper", "oak sill and iron weight")
    made = tmp_path / "backup.zip"
    write_backup(made, data_folder / "photos")
    return made


def contents(file):
    """Give all that a backup holds but the time it was made."""
    with zipfile.ZipFile(file) as zipped:
        held = {name: zipped.read(name) for name in zipped.namelist()}
    summary = json.loads(held.pop("backup.json"))
    summary.pop("made")
    return summary, held


def test_these_tests_run_on_the_database_that_was_named():
    named = os.environ.get("EVENHUNG_DATABASE_URL")
    assert connection.vendor == ("postgresql" if named else "sqlite")


def test_a_backup_restored_is_the_same_to_the_byte(backup, tmp_path):
    there, again = tmp_path / "there", tmp_path / "again.zip"
    done = evenhung("backup", "--restore", backup, "--data", there)
    assert (done.returncode, done.stderr) == (0, "")
    assert evenhung("backup", again, "--data", there).returncode == 0
    assert contents(again) == contents(backup)
    assert backup.stat().st_mode & 0o777 == again.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("microsecond", [0, 123, 456789])
def test_a_moment_comes_back_to_the_microsecond(
    demo_house, data_folder, tmp_path, microsecond, monkeypatch
):
    when = datetime(2026, 11, 29, 20, 56, 19, microsecond, tzinfo=UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: when)
    key = next(part.key for part in standing_parts(demo_house) if part.key.kind == "window")
    save(demo_house, [Edit(key, 1, {"note": "seen"})], who="Ben")
    made, there, again = tmp_path / "made.zip", tmp_path / "there", tmp_path / "again.zip"
    write_backup(made, data_folder / "photos")
    assert evenhung("backup", "--restore", made, "--data", there).returncode == 0
    assert evenhung("backup", again, "--data", there).returncode == 0
    assert contents(again) == contents(made)
    assert when.isoformat().encode() in contents(made)[1]["tables/changes.jsonl"]


def test_it_can_be_restored_into_postgresql_and_worked_on(backup, tmp_path, throwaway_postgresql):
    there, again = tmp_path / "there", tmp_path / "again.zip"
    with throwaway_postgresql.running() as database:
        done = evenhung("backup", "--restore", backup, "--data", there, database=database.url)
        assert (done.returncode, done.stderr) == (0, "")
        assert evenhung("backup", again, "--data", there, database=database.url).returncode == 0
        assert contents(again) == contents(backup)
        begin = (
            "from evenhung.web.database import make_ready; make_ready();"
            "from evenhung.survey import survey_from;"
            "from evenhung.web.records.beginning import begin;"
            "begin(survey_from({'form': 1, 'house': {'name': 'Ferry Row'}}), who='Ann')"
        )
        variables = {"EVENHUNG_DATABASE_URL": database.url, "EVENHUNG_DATA": str(there)}
        subprocess.run([sys.executable, "-c", begin], env={**os.environ, **variables}, check=True)


def test_nothing_is_restored_over_what_is_kept(backup, tmp_path):
    there = tmp_path / "there"
    evenhung("backup", "--restore", backup, "--data", there)
    done = evenhung("backup", "--restore", backup, "--data", there)
    assert done.returncode == 2
    assert done.stderr.startswith("--data: (houses in it)")


@pytest.mark.parametrize("fault", ["cut short", "a row lost", "a photo changed", "no backup"])
def test_one_that_is_not_whole_restores_nothing(backup, tmp_path, fault):
    there, broken = tmp_path / "there", tmp_path / "broken.zip"
    data = backup.read_bytes()
    if fault in ("cut short", "no backup"):
        broken.write_bytes(data[: len(data) // 2] if fault == "cut short" else b"PK")
    else:
        with zipfile.ZipFile(backup) as whole, zipfile.ZipFile(broken, "w") as other:
            for name in whole.namelist():
                held = whole.read(name)
                if fault == "a row lost" and name == "tables/revisions.jsonl":
                    held = held[: held.rindex(b"{")]
                if fault == "a photo changed" and name.startswith("photos/"):
                    held += b"x"
                other.writestr(name, held)
    done = evenhung("backup", "--restore", broken, "--data", there)
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)
    restored = evenhung("backup", tmp_path / "after.zip", "--data", there)
    assert ": 0 houses, 0 rows" in restored.stdout


def keep_saving(house, key, stop):
    number = 1
    while not stop.is_set():
        save(house, [Edit(key, number, {"note": f"{number}"})], who="Ben")
        number += 1
    connection.close()


def test_a_backup_written_while_someone_saves_is_of_one_moment(demo_house, data_folder, tmp_path):
    key = next(part.key for part in standing_parts(demo_house) if part.key.kind == "window")
    stop = threading.Event()
    saver = threading.Thread(target=keep_saving, args=(demo_house, key, stop))
    saver.start()
    sizes = set()
    for _ in range(3):
        write_backup(tmp_path / "moment.zip", data_folder / "photos")
        _, held = contents(tmp_path / "moment.zip")
        changes = {json.loads(line)["pk"] for line in held["tables/changes.jsonl"].splitlines()}
        rows = [json.loads(line)["fields"] for line in held["tables/revisions.jsonl"].splitlines()]
        assert {row["change"] for row in rows} == changes
        sizes.add(len(rows))
    stop.set()
    saver.join()
    assert len(sizes) > 1  # it did save meanwhile


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("backup", "nowhere/backup.zip"), "FILE: nowhere/backup.zip: a file in a folder"),
        (("backup", "--restore", "nowhere.zip"), "FILE: nowhere.zip: a backup that is there"),
        (("backup", "x.zip", "--data", "nowhere"), "--data: nowhere: a folder that holds houses"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(arguments, said):
    done = evenhung(*arguments)
    assert (done.returncode, done.stderr.startswith(said)) == (2, True)
