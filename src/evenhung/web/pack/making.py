"""The maker in a process of its own: begun, stopped, found lost. Nothing waits for it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time
from contextlib import suppress
from dataclasses import asdict
from typing import TYPE_CHECKING, NamedTuple

from django.conf import settings

from evenhung.store.parts import record_of
from evenhung.web.pack.standing import FAILED, MAKING, PackFolder, Standing, claimed
from evenhung.web.records.latest import latest_change, standing_parts, survey_document

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from evenhung.web.records.models import House

COMMAND = ("-m", "evenhung.web.pack.maker")
"""What Python is started with."""

PATIENCE_S = 0.5
"""How long to wait for a maker that has said its last word and is not gone yet [s]."""


class Busy(Exception):
    """Another pack is being made."""


class Wanted(NamedTuple):
    """How a pack is wanted, and by whom."""

    paper: str
    is_drawn: bool
    is_allotted: bool
    who: str
    link: str
    """What the codes on tags open; ``{window}`` stands for the window's id."""
    name: str
    """Of the folder within the zip."""
    on: date


def packs() -> Path:
    """Give the folder that all packs lie in."""
    folder: Path = settings.CONFIG.folder.path / "packs"
    return folder


def folder_of(house: House) -> PackFolder:
    """Give where the pack of a house lies."""
    return PackFolder(packs(), house.pk)


def begin_pack(house: House, wanted: Wanted) -> None:
    """Start to make the pack of a house as it now stands.

    Parameters
    ----------
    house
        The house.
    wanted
        How it is wanted.

    Raises
    ------
    Busy
        Where another one is being made: there is one at a time.
    """
    folder = folder_of(house)
    packs().mkdir(mode=0o700, exist_ok=True)
    claim = _claimed_soon()
    if claim is None:
        raise Busy
    try:
        folder.prepare()
        standing = Standing(
            state=MAKING,
            who=wanted.who,
            started=time.time(),
            change=latest_change(house),
            paper=wanted.paper,
            is_drawn=wanted.is_drawn,
            is_allotted=wanted.is_allotted,
        )
        folder.write(standing)
        _start(house, folder, standing, wanted, claim)
    finally:
        os.close(claim)  # the maker holds it from here on


def _claimed_soon() -> int | None:
    """Claim the making, also where the last maker is just about to let go of it."""
    deadline = time.monotonic() + PATIENCE_S
    while (claim := claimed(packs())) is None and time.monotonic() < deadline:
        time.sleep(PATIENCE_S / 20.0)
    return claim


def _start(
    house: House, folder: PackFolder, standing: Standing, wanted: Wanted, claim: int
) -> None:
    parts = [part for part in standing_parts(house) if record_of(part.key.kind)]
    asked = {
        "packs": str(packs()),
        "house": house.pk,
        "standing": asdict(standing),
        "survey": survey_document(parts),
        "link": wanted.link,
        "name": wanted.name,
        "on": wanted.on.isoformat(),
    }
    try:
        process = subprocess.Popen(  # noqa: S603 our own program, with arguments of ours
            [sys.executable, *COMMAND], stdin=subprocess.PIPE, pass_fds=(claim,)
        )
    except OSError as fault:
        folder.write(_failed(standing, str(fault)))
        return
    threading.Thread(
        target=_see_off, args=(process, json.dumps(asked).encode()), daemon=True
    ).start()


def _failed(standing: Standing, reason: str) -> Standing:
    return Standing(**{**asdict(standing), "state": FAILED, "reason": reason})


def _see_off(process: subprocess.Popen[bytes], asked: bytes) -> None:
    """Tell the maker what is asked, and keep its input open until it has ended."""
    if process.stdin is None:
        raise OSError("the maker has no input")
    with suppress(BrokenPipeError):  # then it has ended, and its standing says so
        process.stdin.write(asked + b"\n")
        process.stdin.flush()
    process.wait()
    with suppress(BrokenPipeError):
        process.stdin.close()


def stop_pack(house: House) -> None:
    """Ask for an end before the next file; what was ready before stays."""
    folder = folder_of(house)
    with suppress(FileNotFoundError):  # no pack was ever asked for
        folder.stop.touch(mode=0o600)
