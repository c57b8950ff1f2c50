"""The real server: started twice, killed, cut off, on a full disk, without its database."""

from __future__ import annotations

import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import threading
import time
from contextlib import closing

import pytest

pytestmark = pytest.mark.slow


def window_of(server):
    """Begin the demo house over HTTP; give the address of its first window."""
    house = server.post("/demo/").headers["location"]
    page = server.get(house).text
    return re.search(rf'href="({house}window/(?!new)[^"]+)"', page)[1]


def test_it_says_where_it_is_and_ends_when_told(server):
    server.start()
    assert server.get("/").status == 200
    out, err = server.stop()
    assert (server.process.returncode, err) == (0, "")
    assert "Ctrl-C" not in out  # said once, at the start


def test_a_second_server_on_the_same_folder_is_refused_in_one_line(server):
    server.start()
    command = [sys.executable, "-m", "evenhung", "serve", "--data", str(server.data)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=30)
    assert done.returncode == 2
    (line,) = done.stderr.splitlines()
    assert f"a server already runs on it at {server.address}/" in line


def test_it_keeps_its_port_so_that_bookmarks_and_drafts_stay_good(server):
    first = server.start().address
    server.kill()
    assert server.start().address == first


def test_a_port_that_is_taken_is_refused_in_one_line(server):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        with pytest.raises(
            RuntimeError, match=f"--port: {port}: a port that no other program uses"
        ):
            server.start("--port", port)


def test_workers_end_soon_after_a_server_that_was_killed(server):
    server.start()
    port = int(server.address.rpartition(":")[2])
    os.kill(server.process.pid, signal.SIGKILL)
    server.process.communicate()
    deadline = time.monotonic() + 10
    while time.monotonic() < deadline:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
        except ConnectionRefusedError:
            break
        time.sleep(0.1)
    else:
        pytest.fail("its workers are still there")


def test_saves_over_the_network_outlive_a_kill(server):
    server.start()
    window = window_of(server)
    acknowledged = []

    def keep_saving():
        for turn in range(1000):
            answer = server.post(
                f"{window}edit/window/", base=turn + 1, **{"field.note": f"note {turn}"}
            )
            if answer.status != 302:
                break
            acknowledged.append(turn)

    saver = threading.Thread(target=_until_cut_off, args=(keep_saving,))
    saver.start()
    while len(acknowledged) < 5:
        time.sleep(0.01)
    server.kill()
    saver.join()
    with closing(sqlite3.connect(server.data / "evenhung.sqlite3")) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    server.start()
    history = server.get(f"{window.partition('window/')[0]}history/").text
    assert f"note {acknowledged[-1]}" in history


def _until_cut_off(work):
    try:
        work()
    except OSError:
        return


def test_a_photo_that_comes_half_is_not_kept(server):
    server.start()
    window = window_of(server)
    cookie = f"evenhung-form={server.cookies['evenhung-form']}"
    host = server.address.partition("//")[2]
    half = (
        '--x\r\nContent-Disposition: form-data; name="csrfmiddlewaretoken"\r\n\r\n'
        f"{server.token}\r\n"
        '--x\r\nContent-Disposition: form-data; name="place"\r\n\r\n\r\n'
        '--x\r\nContent-Disposition: form-data; name="photo"; filename="a.jpg"\r\n'
        "Content-Type: image/jpeg\r\n\r\n\xff\xd8\xff" + "x" * 50_000
    ).encode("latin-1")
    head = (
        f"POST {window}photos/ HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"
        f"Origin: {server.address}\r\nContent-Type: multipart/form-data; boundary=x\r\n"
        "Content-Length: 1000000\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", int(host.partition(":")[2]))) as connection:
        connection.sendall(head.encode() + half)
    time.sleep(0.3)
    page = server.get(f"{window}photos/")
    assert page.status == 200
    assert "whole.jpg" not in page.text
    assert not any((server.data / "photos").iterdir())


WITH_LITTLE_ROOM = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (400_000, 400_000))
from evenhung.__main__ import main
sys.exit(main())
"""


def test_a_full_disk_is_said_and_loses_nothing(server):
    """The limit on the size of files stands in for the disk: writing beyond it fails likewise."""
    server.start()
    window = window_of(server)
    server.stop()
    server.start(program=("-c", WITH_LITTLE_ROOM))
    statuses = []
    for turn in range(400):
        answer = server.post(
            f"{window}edit/window/", base=turn + 1, **{"field.note": f"{'x' * 1900}{turn}"}
        )
        statuses.append(answer.status)
        if answer.status != 302:
            break
    assert statuses[-1] == 507
    assert "The disk is full or failing, so nothing was saved" in answer.text
    kept = len(statuses) - 1
    server.kill()
    server.start()
    assert server.get(window).status == 200
    answer = server.post(f"{window}edit/window/", base=kept + 1, **{"field.note": "room again"})
    assert answer.status == 302


@pytest.fixture
def small_disk(tmp_path):
    """Give a disk of three megabytes; only root can have one."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=3m", "evenhung-test", str(disk)]
    if subprocess.run(mount, capture_output=True, check=False).returncode:
        pytest.skip("a disk of our own cannot be mounted here")
    yield disk
    subprocess.run(["umount", "-l", str(disk)], check=True)  # noqa: S607 the system's own


def test_a_disk_that_is_really_full_is_said_and_loses_nothing(server, small_disk):
    server.data = small_disk / "data"
    server.start()
    window = window_of(server)
    filler = small_disk / "filler"
    with pytest.raises(OSError, match="No space left"):
        filler.write_bytes(b"x" * 4_000_000)
    statuses = []
    while not statuses or (statuses[-1] == 302 and len(statuses) < 400):
        note = {"field.note": f"{'x' * 1900}{len(statuses)}"}
        answer = server.post(f"{window}edit/window/", base=len(statuses) + 1, **note)
        statuses.append(answer.status)
    assert (statuses[-1], "so nothing was saved" in answer.text) == (507, True)
    filler.unlink()
    saved = server.post(f"{window}edit/window/", base=len(statuses), **{"field.note": "room again"})
    assert saved.status == 302
    assert "room again" in server.get(f"{window}edit/window/").text
    server.kill()


def test_postgresql_that_is_restarted_is_waited_for_by_nobody(server, throwaway_postgresql):
    """A request that finds no database is told so; the next one after the restart is served."""
    with throwaway_postgresql.running() as database:
        server.variables["EVENHUNG_DATABASE_URL"] = database.url
        server.start()
        window = window_of(server)
        database.stop(at_once=True)
        typed = {"base": 1, "field.note": "typed while it was away"}
        answer = server.post(f"{window}edit/window/", **typed)
        assert answer.status == 503
        assert "does not answer, so nothing was saved" in answer.text
        database.start()
        answer = server.post(f"{window}edit/window/", **typed)
        assert answer.status == 302
        assert (
            "typed while it was away"
            in server.get(window).text + server.get(f"{window}edit/window/").text
        )
        server.kill()
