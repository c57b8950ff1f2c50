"""An errand sent to a process of its own. Nothing waits for it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time
from contextlib import suppress
from dataclasses import asdict, replace
from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.store.parts import record_of
from evenhung.web.errand.standing import FAILED, MAKING, ErrandFolder, Standing, claimed
from evenhung.web.records.latest import latest_change, standing_parts, survey_document

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from evenhung.web.records.models import House

PATIENCE_S = 0.5
"""How long to wait for a process that has said its last word and is not gone yet [s]."""


class Busy(Exception):
    """Another errand of this kind is being run."""


class Errand(NamedTuple):
    """What is sent."""

    errands: Path
    """The folder of all errands of its kind."""
    command: Sequence[str]
    """What Python is started with."""
    who: str
    wanted: dict[str, Any]
    """How it is wanted, as its standing tells it."""
    asked: dict[str, Any]
    """What else its process has to know."""


def send(house: House, errand: Errand) -> None:
    """Send an errand on a house as it now stands.

    Raises
    ------
    Busy
        Where another one of its kind is being run: there is one at a time.
    """
    errand.errands.mkdir(mode=0o700, exist_ok=True)
    claim = _claimed_soon(errand.errands)
    if claim is None:
        raise Busy
    try:
        folder = ErrandFolder(errand.errands, house.pk)
        folder.prepare()
        standing = Standing(MAKING, errand.who, time.time(), latest_change(house), errand.wanted)
        folder.write(standing)
        _start(house, folder, standing, errand, claim)
    finally:
        os.close(claim)  # the process holds it from here on


def _claimed_soon(errands: Path) -> int | None:
    """Claim the running, also where the last process is just about to let go of it."""
    deadline = time.monotonic() + PATIENCE_S
    while (claim := claimed(errands)) is None and time.monotonic() < deadline:
        time.sleep(PATIENCE_S / 20.0)
    return claim


def _start(
    house: House, folder: ErrandFolder, standing: Standing, errand: Errand, claim: int
) -> None:
    parts = [part for part in standing_parts(house) if record_of(part.key.kind)]
    asked = {
        "errands": str(errand.errands),
        "house": house.pk,
        "standing": asdict(standing),
        "survey": survey_document(parts),
        **errand.asked,
    }
    try:
        process = subprocess.Popen(  # noqa: S603 our own program, with arguments of ours
            [sys.executable, *errand.command], stdin=subprocess.PIPE, pass_fds=(claim,)
        )
    except OSError as fault:
        folder.write(replace(standing, state=FAILED, reason=str(fault)))
        return
    threading.Thread(
        target=_see_off, args=(process, json.dumps(asked).encode()), daemon=True
    ).start()


def _see_off(process: subprocess.Popen[bytes], asked: bytes) -> None:
    """Tell the process what is asked, and keep its input open until it has ended."""
    if process.stdin is None:
        raise OSError("the process has no input")
    with suppress(BrokenPipeError):  # then it has ended, and its standing says so
        process.stdin.write(asked + b"\n")
        process.stdin.flush()
    process.wait()
    with suppress(BrokenPipeError):
        process.stdin.close()
