"""The data folder: where the database, the photos and the keys of one set of houses lie."""

from __future__ import annotations

import errno
import fcntl
import os
import secrets
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from evenhung.errors import InvalidSetting
from evenhung.store.files import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class DataFolder:
    """A folder that holds all that is kept; its owner alone may look into it."""

    path: Path

    @property
    def database(self) -> Path:
        """The SQLite file, where no other database is named."""
        return self.path / "evenhung.sqlite3"

    @property
    def photos(self) -> Path:
        """The photos, each under the checksum of its bytes."""
        return self.path / "photos"

    @property
    def certificate(self) -> Path:
        """The certificate made on this machine, for other devices on the network."""
        return self.path / "certificate.pem"

    @property
    def certificate_key(self) -> Path:
        """The private key of the certificate."""
        return self.path / "certificate-key.pem"

    def prepare(self) -> None:
        """Make the folder if it is not there, and close it to everybody else.

        Raises
        ------
        InvalidSetting
            Where it cannot be made or written to.
        """
        try:
            self.path.mkdir(parents=True, exist_ok=True, mode=0o700)
            self.photos.mkdir(exist_ok=True, mode=0o700)
            self.path.chmod(0o700)
        except OSError as error:
            raise InvalidSetting(
                "data folder", str(self.path), f"a folder that can be written to: {error.strerror}"
            ) from None

    def secret(self) -> str:
        """Give the key that sessions and forms are signed with; made on the first call."""
        file = self.path / "secret-key"
        if not file.exists():
            write_whole(file, secrets.token_urlsafe(48).encode())
        return file.read_text(encoding="ascii")

    @contextmanager
    def locked(self) -> Iterator[None]:
        """Hold the folder for one server; the system frees it when its holder dies.

        Raises
        ------
        InvalidSetting
            Where another server holds it: the message says where that one can be reached.
        """
        with (self.path / "in-use").open("a+", encoding="utf-8") as file:
            try:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except OSError as error:
                if error.errno not in (errno.EAGAIN, errno.EACCES):
                    raise
                raise InvalidSetting(
                    "data folder", str(self.path), f"a folder not in use; {self._holder()}"
                ) from None
            yield

    def note_address(self, address: str) -> None:
        """Write down where the server can be reached, for whoever finds the folder in use."""
        (self.path / "in-use").write_text(f"{os.getpid()}\n{address}\n", encoding="utf-8")

    def _holder(self) -> str:
        lines = (self.path / "in-use").read_text(encoding="utf-8").splitlines()
        if len(lines) < 2:  # noqa: PLR2004 the number of its process, and its address
            return "another server is starting on it"
        return f"a server already runs on it at {lines[1]} (process {lines[0]})"
