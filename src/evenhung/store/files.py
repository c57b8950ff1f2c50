"""Files that are whole or not there: written aside, flushed to the disk, then renamed."""

from __future__ import annotations

import os
import tempfile
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO, TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

ASIDE = ".part-"
"""How the names of unfinished files begin: what a killed program leaves is known by it."""


@contextmanager
def written_aside(path: Path, *, mode: int = 0o600) -> Iterator[IO[bytes]]:
    """Open a file to write; it takes its name only when it is whole and on the disk.

    Parameters
    ----------
    path
        The name it is to have; a file of that name is replaced in one step.
    mode
        Who may read and write it.

    Yields
    ------
    file
        What to write to.

    Raises
    ------
    OSError
        Where it cannot be written; whatever stood there before still stands.
    """
    descriptor, name = tempfile.mkstemp(prefix=ASIDE, dir=path.parent)
    aside = Path(name)
    try:
        with os.fdopen(descriptor, "w+b") as file:
            os.fchmod(descriptor, mode)
            yield file
            file.flush()
            os.fsync(descriptor)
        aside.replace(path)
        flush_folder(path.parent)
    except BaseException:
        with suppress(FileNotFoundError):
            aside.unlink()
        raise


def write_whole(path: Path, data: bytes, *, mode: int = 0o600) -> None:
    """Write a file in one step: afterwards it holds all of the data, or what it held before.

    Parameters
    ----------
    path
        The file.
    data
        What it is to hold.
    mode
        Who may read and write it.

    Raises
    ------
    OSError
        Where it cannot be written.
    """
    with written_aside(path, mode=mode) as file:
        file.write(data)


def flush_folder(folder: Path) -> None:
    """Let a new name in a folder outlast a loss of power."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def clear_unfinished(folder: Path) -> int:
    """Delete what writers that were killed have left; give how many files that was."""
    left = [path for path in folder.rglob(f"{ASIDE}*") if path.is_file()]
    for path in left:
        path.unlink(missing_ok=True)
    return len(left)
