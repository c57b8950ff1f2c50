"""The server: one to a data folder, on this machine alone or shared with the network around it."""

from __future__ import annotations

import os
import socket
import threading
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from evenhung.errors import InvalidSetting
from evenhung.store.certificate import certificate_for
from evenhung.store.files import clear_unfinished, write_whole
from evenhung.web.database import bring_up_to_date

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.web.config import Config

WORKERS, THREADS = 2, 4
ALONE, ANYONE = "127.0.0.1", "0.0.0.0"  # noqa: S104 only when it is shared, over TLS
LONGEST_WAIT = 30
"""How long a start may take before it is said to have failed [s]."""


@dataclass(frozen=True, slots=True)
class Reached:
    """Where a server that has started can be reached."""

    address: str
    fingerprint: str = ""
    """Of its certificate; empty where it is not shared."""


def serve(
    config: Config,
    *,
    port: int | None,
    started: Callable[[Reached], None],
    keeper: Callable[[], tuple[str, str]] | None = None,
) -> None:
    """Run the server until it is told to stop.

    Parameters
    ----------
    config
        What it is started with.
    port
        The port; None takes the one it had last, or a free one.
    started
        Called once with where it can be reached.
    keeper
        Asks for the first name and passphrase, should a shared server have none; None cannot ask.

    Raises
    ------
    InvalidSetting
        Where the folder is in use, the port is taken, or nobody could log in to a shared one.
    """
    config.folder.prepare()
    with config.folder.locked():
        clear_unfinished(config.folder.path)
        os.environ.update(config.as_variables())
        bring_up_to_date(config)
        _mark_lost_runs()
        if config.is_shared:
            _see_to_keeper(keeper)
        chosen = _port(config, port)
        _run(config, chosen, started)


def _mark_lost_runs() -> None:
    """Say of what the last server was working out that it is lost."""
    from evenhung.web.allotment.solving import mark_lost

    mark_lost()


def _see_to_keeper(ask: Callable[[], tuple[str, str]] | None) -> None:
    """See to it that somebody can log in before anybody can come."""
    from evenhung.web.access.models import Person
    from evenhung.web.access.people import add_person, has_keeper

    if has_keeper():
        return
    if ask is None:
        raise InvalidSetting(
            "--share",
            "(no passphrase)",
            "a keeper with a passphrase: run it at a terminal, which asks for one",
        )
    name, passphrase = ask()
    add_person(name, Person.KEEPER, passphrase)


def _port(config: Config, wanted: int | None) -> int:
    """Find a port: the one asked for, or last time's, so that bookmarks and drafts stay good."""
    host = ANYONE if config.is_shared else ALONE
    if wanted is not None:
        if not _is_free(host, wanted):
            raise InvalidSetting("--port", str(wanted), "a port that no other program uses")
        return wanted
    file = config.folder.path / "port"
    last = file.read_text(encoding="ascii").strip() if file.exists() else ""
    if last.isdecimal() and _is_free(host, int(last)):
        return int(last)
    with socket.create_server((host, 0)) as free:
        port = int(free.getsockname()[1])
    write_whole(file, str(port).encode())
    return port


def _is_free(host: str, port: int) -> bool:
    try:
        socket.create_server((host, port)).close()
    except (OSError, OverflowError):
        return False
    return True


def _run(config: Config, port: int, started: Callable[[Reached], None]) -> None:
    from granian.constants import Interfaces
    from granian.log import LogLevels
    from granian.server import Server

    folder, fingerprint = config.folder, ""
    if config.is_shared:
        fingerprint = certificate_for(folder, config.hosts)
    os.environ["EVENHUNG_SERVER"] = str(os.getpid())
    scheme = "https" if config.is_shared else "http"
    host = config.hosts[0] if config.is_shared and config.hosts else ALONE
    reached = Reached(f"{scheme}://{host}:{port}/", fingerprint)
    folder.note_address(reached.address)
    server = Server(
        "evenhung.web.wsgi:application",
        address=ANYONE if config.is_shared else ALONE,
        port=port,
        interface=Interfaces.WSGI,
        workers=WORKERS,
        blocking_threads=THREADS,
        backlog=256,
        log_level=LogLevels.error,
        respawn_failed_workers=True,
        ssl_cert=folder.certificate if config.is_shared else None,
        ssl_key=folder.certificate_key if config.is_shared else None,
    )
    threading.Thread(target=_announce, args=(port, reached, started), daemon=True).start()
    server.serve()


def _announce(port: int, reached: Reached, started: Callable[[Reached], None]) -> None:
    """Say where the server is, once it answers."""
    deadline = time.monotonic() + LONGEST_WAIT
    while time.monotonic() < deadline:
        try:
            socket.create_connection((ALONE, port), timeout=1).close()
        except OSError:
            time.sleep(0.02)
        else:
            started(reached)
            return
