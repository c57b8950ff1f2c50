"""The other side of an errand: what its own process does with what it is told.

What is asked is the first line of the standard input. When that input ends, the server is gone, and
nobody is left to want it.
"""

from __future__ import annotations

import json
import os
import sys
import threading
import time
import traceback
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TypeAlias

from evenhung.web.errand.standing import FAILED, STOPPED, ErrandFolder, Standing

if TYPE_CHECKING:
    from collections.abc import Callable

    Make: TypeAlias = Callable[[ErrandFolder, Standing, dict[str, Any]], Standing]
    """Makes what is asked and gives how it then stands."""

TICK_S = 0.3
"""How often it is looked whether somebody wants it to stop [s]."""


class Stopped(Exception):
    """Somebody wants it to stop."""


def run(make: Make, *, is_cut_short: bool = False) -> NoReturn:
    """Read what is asked, make it, say what came of it.

    Its last word said, the process ends at once: while it is there, no other can be sent.

    Parameters
    ----------
    make
        Makes it; raises `Stopped` where it has looked and somebody wants it to stop.
    is_cut_short
        Whether it is ended from outside where somebody wants that, for it cannot look itself.
    """
    asked = json.loads(sys.stdin.buffer.readline())
    threading.Thread(target=_end_with_the_server, daemon=True).start()
    folder = ErrandFolder(Path(asked["errands"]), asked["house"])
    standing = Standing(**asked["standing"])
    last_word = threading.Lock()
    if is_cut_short:
        told = (folder, standing, last_word)
        threading.Thread(target=_end_when_asked, args=told, daemon=True).start()
    try:
        standing = make(folder, standing, asked)
    except Stopped:
        standing = replace(standing, state=STOPPED)
    except Exception as fault:
        traceback.print_exc()
        standing = replace(standing, state=FAILED, reason=f"{type(fault).__name__}: {fault}")
    sys.stderr.flush()
    with last_word:
        folder.write(standing)
        os._exit(int(standing.state == FAILED))


def _end_with_the_server() -> None:
    while os.read(sys.stdin.fileno(), 4096):
        pass
    os._exit(1)


def _end_when_asked(
    folder: ErrandFolder, standing: Standing, last_word: threading.Lock
) -> NoReturn:
    while True:
        time.sleep(TICK_S)
        with last_word:
            if folder.stop.exists():
                folder.write(replace(standing, state=STOPPED))
                os._exit(0)
