"""A real PostgreSQL for the length of a test run: in a folder of its own, gone afterwards.

``with running() as database:`` gives it; ``is_there()`` tells whether this machine can run one.
"""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import tempfile
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

DEBIAN = Path("/usr/lib/postgresql")
"""Where Debian keeps its programs, by version, out of everybody's path."""
USER = "postgres"
"""Whom root hands it to: PostgreSQL refuses to run as root."""
SETTINGS = {
    "listen_addresses": "127.0.0.1",
    "unix_socket_directories": "",
    "max_connections": "60",
    "shared_buffers": "32MB",
}


@dataclass(frozen=True)
class Database:
    """A database that is running."""

    folder: Path
    port: int

    @property
    def url(self) -> str:
        """Its address, for EVENHUNG_DATABASE_URL."""
        return f"postgresql://evenhung@127.0.0.1:{self.port}/postgres"

    def start(self) -> None:
        """Start it, and wait until it answers."""
        options = " ".join(f"-c {name}='{value}'" for name, value in SETTINGS.items())
        log = self.folder / "log"
        _run(
            self.folder,
            *("pg_ctl", "--pgdata", str(self.folder / "data"), "--log", str(log), "--wait"),
            *("--silent", "--options", f"-p {self.port} {options}", "start"),
        )

    def stop(self, *, at_once: bool = False) -> None:
        """Stop it: in order, or at once as a loss of power would."""
        mode = "immediate" if at_once else "fast"
        data = str(self.folder / "data")
        _run(self.folder, "pg_ctl", "--pgdata", data, "--silent", "--mode", mode, "--wait", "stop")


def is_there() -> bool:
    """Tell whether this machine has what is needed."""
    return _program("initdb") is not None and (
        os.getuid() != 0 or shutil.which("runuser") is not None
    )


@contextmanager
def running() -> Iterator[Database]:
    """Run a PostgreSQL of our own."""
    with tempfile.TemporaryDirectory(prefix="evenhung-postgresql-") as name:
        folder = Path(name)
        if os.getuid() == 0:
            shutil.chown(folder, USER)
        data = str(folder / "data")
        _run(
            folder,
            *("initdb", "--pgdata", data, "--username", "evenhung", "--auth", "trust"),
            *("--encoding", "UTF8", "--no-locale", "--no-sync"),
        )
        database = Database(folder, _free_port())
        database.start()
        try:
            yield database
        finally:
            database.stop(at_once=True)


def _program(name: str) -> str | None:
    found = shutil.which(name)
    if found:
        return found
    versions = sorted(DEBIAN.glob(f"*/bin/{name}"), key=lambda path: int(path.parts[-3]))
    return str(versions[-1]) if versions else None


def _run(folder: Path, name: str, *arguments: str) -> None:
    program = _program(name)
    if program is None:
        raise FileNotFoundError(f"{name}: a program of PostgreSQL")
    become = ["runuser", "-u", USER, "--"] if os.getuid() == 0 else []
    with (folder / f"{name}.said").open("wb") as said:
        done = subprocess.run(
            [*become, program, *arguments],
            cwd=folder,
            stdin=subprocess.DEVNULL,
            stdout=said,
            stderr=subprocess.STDOUT,
            check=False,
        )
    if done.returncode:
        raise RuntimeError(f"{name}: {(folder / f'{name}.said').read_text()[-500:]}")


def _free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as free:
        return int(free.getsockname()[1])
