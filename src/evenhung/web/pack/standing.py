"""How the making of a pack stands: one small file beside the pack, written by who makes it.

A pack is a thing of the day that can be made again, so no database keeps it. Who makes one holds a
lock as long as it lives; where a file says "making" and nobody holds the lock, it is lost.
"""

from __future__ import annotations

import fcntl
import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING, Any

from evenhung.store.files import write_whole

if TYPE_CHECKING:
    from pathlib import Path

MAKING, READY, FAILED, STOPPED, LOST = "making", "ready", "failed", "stopped", "lost"


@dataclass(frozen=True, slots=True)
class Standing:
    """One making of a pack, so far or at its end."""

    state: str
    who: str
    started: float
    """When it was begun, in seconds since 1970."""
    change: int
    """The number of the change that the house stood at."""
    paper: str
    is_drawn: bool
    is_allotted: bool
    done: int = 0
    """How many files are made."""
    of: int = 0
    says: str = ""
    """What is being made."""
    reason: str = ""
    """Why it failed."""


class PackFolder:
    """Where the pack of one house lies, with how its making stands."""

    def __init__(self, packs: Path, house: str) -> None:
        self.path = packs / house
        self._packs = packs

    @property
    def zip(self) -> Path:
        """The pack itself, there once it is ready."""
        return self.path / "pack.zip"

    @property
    def stop(self) -> Path:
        """There when somebody wants it to stop."""
        return self.path / "stop"

    def prepare(self) -> None:
        """Make the folder, closed to everybody else."""
        for folder in (self._packs, self.path):
            folder.mkdir(mode=0o700, exist_ok=True)
        self.stop.unlink(missing_ok=True)

    def write(self, standing: Standing) -> None:
        """Say how it stands."""
        write_whole(self.path / "standing.json", json.dumps(asdict(standing)).encode())

    def read(self) -> Standing | None:
        """Give how it stands; None where no pack was ever asked for."""
        standing = self._as_written()
        if standing is None or standing.state != MAKING or self._is_being_made():
            return standing
        standing = self._as_written()  # it may have ended between the two looks
        if standing is not None and standing.state == MAKING:
            return replace(standing, state=LOST)
        return standing

    def _as_written(self) -> Standing | None:
        try:
            held: dict[str, Any] = json.loads((self.path / "standing.json").read_bytes())
        except FileNotFoundError:
            return None
        return Standing(**held)

    def _is_being_made(self) -> bool:
        descriptor = claimed(self._packs)
        if descriptor is None:
            return True
        os.close(descriptor)
        return False


def claimed(packs: Path) -> int | None:
    """Claim the making of packs: one at a time, as long as the descriptor is open anywhere.

    Parameters
    ----------
    packs
        The folder that all packs lie in.

    Returns
    -------
    int or None
        A descriptor to hand to who makes it; None where a pack is being made.
    """
    descriptor = os.open(packs / "making", os.O_RDWR | os.O_CREAT, 0o600)
    with suppress(BlockingIOError):
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return descriptor
    os.close(descriptor)
    return None
