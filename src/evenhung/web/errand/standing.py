"""How an errand stands: one small file beside what it makes, written by whoever runs it.

What it makes is a thing of the day that can be made again, so no database keeps it. Who runs one
holds a lock as long as it lives; where a file says "making" and nobody holds the lock, it is lost.
"""

from __future__ import annotations

import fcntl
import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass, field, replace
from typing import TYPE_CHECKING, Any

from evenhung.store.files import write_whole

if TYPE_CHECKING:
    from pathlib import Path

MAKING, READY, FAILED, STOPPED, LOST = "making", "ready", "failed", "stopped", "lost"


@dataclass(frozen=True, slots=True)
class Standing:
    """One errand, so far or at its end."""

    state: str
    who: str
    started: float
    """When it was begun, in seconds since 1970."""
    change: int
    """The number of the change that the house stood at."""
    wanted: dict[str, Any] = field(default_factory=dict)
    """How it is wanted, by words of the errand's own."""
    done: int = 0
    """How many pieces of it are done."""
    of: int = 0
    says: str = ""
    """What is being done."""
    reason: str = ""
    """Why it failed."""

    @property
    def is_making(self) -> bool:
        """True while somebody is at it."""
        return self.state == MAKING


class ErrandFolder:
    """Where what one house is given lies, with how its making stands.

    Parameters
    ----------
    errands
        The folder of all errands of one kind.
    house
        The id of the house.
    """

    def __init__(self, errands: Path, house: str) -> None:
        self.path = errands / house
        self._errands = errands

    @property
    def stop(self) -> Path:
        """There when somebody wants it to stop."""
        return self.path / "stop"

    def prepare(self) -> None:
        """Make the folder, closed to everybody else."""
        for folder in (self._errands, self.path):
            folder.mkdir(mode=0o700, exist_ok=True)
        self.stop.unlink(missing_ok=True)

    def ask_to_stop(self) -> None:
        """Ask for an end; what was ready before stays."""
        with suppress(FileNotFoundError):  # nothing was ever asked for
            self.stop.touch(mode=0o600)

    def write(self, standing: Standing) -> None:
        """Say how it stands."""
        write_whole(self.path / "standing.json", json.dumps(asdict(standing)).encode())

    def read(self) -> Standing | None:
        """Give how it stands; None where nothing was ever asked for."""
        standing = self._as_written()
        if standing is None or not standing.is_making or self._is_being_made():
            return standing
        standing = self._as_written()  # it may have ended between the two looks
        if standing is not None and standing.is_making:
            return replace(standing, state=LOST)
        return standing

    def _as_written(self) -> Standing | None:
        try:
            held: dict[str, Any] = json.loads((self.path / "standing.json").read_bytes())
        except FileNotFoundError:
            return None
        return Standing(**held)

    def _is_being_made(self) -> bool:
        descriptor = claimed(self._errands)
        if descriptor is None:
            return True
        os.close(descriptor)
        return False


def claimed(errands: Path) -> int | None:
    """Claim the running of errands: one at a time, as long as the descriptor is open anywhere.

    Parameters
    ----------
    errands
        The folder of all errands of one kind.

    Returns
    -------
    int or None
        A descriptor to hand to who runs it; None where one is being run.
    """
    descriptor = os.open(errands / "making", os.O_RDWR | os.O_CREAT, 0o600)
    with suppress(BlockingIOError):
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return descriptor
    os.close(descriptor)
    return None
