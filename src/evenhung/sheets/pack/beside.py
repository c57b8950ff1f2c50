"""Files of a pack that a process of their own makes, while all others are made here.

To work a programme out takes about as long as to set all sheets; side by side a pack is ready as
soon as the longer of both. The bytes are the same either way.
"""

from __future__ import annotations

import pickle
import subprocess
import sys
import tempfile
from contextlib import contextmanager
from functools import cached_property, partial
from typing import TYPE_CHECKING

from evenhung.sheets.pack.files import pack_files

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator
    from typing import IO

    from evenhung.sheets.pack.files import PackFile, Wish
    from evenhung.sheets.pack.house import PackHouse

COMMAND = ("-I", "-m", "evenhung.sheets.pack.beside")
"""What Python is started with; -I: no module of the folder we stand in is taken for ours."""

BESIDE = ("marking-strips.pdf", "programme.pdf", "programme.ics")
"""Files that take about half of all; none of them asks for an address in the app."""


@contextmanager
def pack_in_making(
    house: PackHouse, wish: Wish | None = None, names: Collection[str] = BESIDE
) -> Iterator[list[PackFile]]:
    """Give the files of a pack, some of them begun already.

    Parameters
    ----------
    house, wish
        As `pack_files` takes them.
    names
        Those that a process of their own makes. It is ended with the context, whether it is done
        or not.

    Yields
    ------
    list of PackFile
        As `pack_files` gives them. What is begun is waited for when its turn comes, and a
        RuntimeError says where its process has failed.
    """
    files = pack_files(house, wish)
    with tempfile.TemporaryFile() as asked, tempfile.TemporaryFile() as made:
        told = house._replace(edition=house.edition._replace(address_of=None))
        pickle.dump((told, wish, tuple(names)), asked)
        asked.seek(0)
        other = _Other(asked, made)
        try:
            yield [
                one._replace(make=partial(other.file, one.name)) if one.name in names else one
                for one in files
            ]
        finally:
            other.end()


class _Other:
    """The process that makes them."""

    def __init__(self, asked: IO[bytes], made: IO[bytes]) -> None:
        self._made, self._said = made, tempfile.TemporaryFile()  # noqa: SIM115 closed in `end`
        self._process = subprocess.Popen(  # noqa: S603 our own program, with arguments of ours
            [sys.executable, *COMMAND], stdin=asked, stdout=made, stderr=self._said
        )

    def file(self, name: str) -> bytes:
        """Give a file that it makes, when all of them are made."""
        return self._files[name]

    @cached_property
    def _files(self) -> dict[str, bytes]:
        if self._process.wait():
            self._said.seek(0)
            said = self._said.read().decode(errors="replace").strip().rpartition("\n")[2]
            raise RuntimeError(f"the process beside ended with {self._process.returncode}: {said}")
        self._made.seek(0)
        files: dict[str, bytes] = pickle.load(self._made)  # noqa: S301 our own process wrote it
        return files

    def end(self) -> None:
        """End it, if it has not ended."""
        self._process.kill()
        self._process.wait()
        self._said.close()


def main() -> None:
    """Make the files that the standard input asks for; they go to the standard output."""
    house, wish, names = pickle.load(sys.stdin.buffer)  # noqa: S301 our own process wrote it
    files = {one.name: one.make() for one in pack_files(house, wish) if one.name in names}
    pickle.dump(files, sys.stdout.buffer)


if __name__ == "__main__":
    main()
