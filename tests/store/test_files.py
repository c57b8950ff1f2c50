"""Files are whole or not there, whatever stops the writer."""

from __future__ import annotations

import subprocess
import sys

import pytest

from evenhung.store.files import clear_unfinished, write_whole, written_aside


def test_what_is_written_is_there_for_its_owner_alone(tmp_path):
    file = tmp_path / "kept"
    write_whole(file, b"one")
    write_whole(file, b"two")
    assert file.read_bytes() == b"two"
    assert file.stat().st_mode & 0o777 == 0o600
    assert list(tmp_path.iterdir()) == [file]


def test_a_writer_that_fails_leaves_what_stood_there(tmp_path):
    file = tmp_path / "kept"
    write_whole(file, b"one")
    with pytest.raises(TypeError, match="bytes-like"), written_aside(file) as aside:
        aside.write("no bytes")
    assert file.read_bytes() == b"one"
    assert list(tmp_path.iterdir()) == [file]


WRITES_TOO_MUCH = """
import pathlib, resource, signal, sys
from evenhung.store.files import write_whole
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
try:
    write_whole(pathlib.Path(sys.argv[1]), b"x" * 10_000)
except OSError:
    sys.exit(7)
"""


def test_a_disk_with_no_room_leaves_what_stood_there(tmp_path):
    write_whole(tmp_path / "kept", b"one")
    arguments = [sys.executable, "-B", "-c", WRITES_TOO_MUCH, str(tmp_path / "kept")]
    assert subprocess.run(arguments, check=False, timeout=30).returncode == 7
    assert (tmp_path / "kept").read_bytes() == b"one"
    assert len(list(tmp_path.iterdir())) == 1


KILLED = """
import sys, pathlib
from evenhung.store.files import written_aside
with written_aside(pathlib.Path(sys.argv[1])) as file:
    file.write(b"half")
    file.flush()
    print("half", flush=True)
    sys.stdin.read()
"""


def test_a_killed_writer_leaves_nothing_but_what_is_cleared(tmp_path):
    with subprocess.Popen(
        [sys.executable, "-c", KILLED, str(tmp_path / "kept")],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    ) as process:
        assert process.stdout.readline() == b"half\n"
        process.kill()
    assert not (tmp_path / "kept").exists()
    assert clear_unfinished(tmp_path) == 1
    assert list(tmp_path.iterdir()) == []
