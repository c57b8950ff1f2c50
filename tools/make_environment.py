"""Make the environment that Evenhung runs in: aside, under a lock, whole or not at all.

Called by ``tools/environment.sh`` with the Python it found; needs the standard library only.

The environment is built in ``<folder>.making`` and renamed to ``<folder>`` when all else is done.
So whatever stops us, a killed process, a full disk, a lost connection, ``<folder>`` is either as it
was or whole, and the next start clears what was left and begins again.
A folder without our mark is never touched, however it is named.
"""

from __future__ import annotations

import argparse
import fcntl
import os
import re
import shutil
import subprocess
import sys
import time
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

LAYOUT = 1
"""Counted up when an environment made by older code must be made again (see environment.sh)."""

MARK = ".made-by-evenhung"
"""The first file in every folder that we make, and the last one to go."""

LOCKS = {"run.txt": False, "dev.txt": True}
"""The lock files in requirements/, and whether each is for development only."""

NEEDS_SYSTEM_PACKAGE = 3
"""Exit code: a package of the operating system is missing."""

BASE = os.path.realpath(sys._base_executable)  # type: ignore[attr-defined] # as venv does
"""The Python to build on, by its real path: python3.11, not python3.

When the system moves on to another version that path is gone, which is noticed; python3 would be
there, and not fit.
"""

UNREACHABLE = re.compile(
    "Failed to establish|name resolution|Name or service|getaddrinfo|unreachable|"
    "Connection refused|ProxyError|timed out|TimeoutError|NewConnectionError|NameResolutionError",
    re.IGNORECASE,
)
"""How pip's library words a network that is not there."""


class SetUpError(Exception):
    """The environment cannot be made; the message is one line for the person who started it."""

    def __init__(self, message: str, code: int = 1) -> None:
        super().__init__(message)
        self.code = code


@dataclass(frozen=True)
class Environment:
    """An environment of this checkout: where it is, and what it holds."""

    folder: Path
    root: Path
    development: bool

    @property
    def making(self) -> Path:
        """Where it is built; longer than `folder`, so no script outgrows its first line."""
        return self.folder.with_name(self.folder.name + ".making")

    @property
    def former(self) -> Path:
        """Where the one that it replaces waits to be cleared."""
        return self.folder.with_name(self.folder.name + ".former")

    @property
    def settings(self) -> Path:
        """The file that makes a folder an environment."""
        return self.folder / "pyvenv.cfg"

    @property
    def lock_file(self) -> Path:
        """Locked by whoever is building; it stays, empty."""
        return self.folder.with_name(self.folder.name + ".lock")

    def locks(self) -> dict[str, bytes]:
        """Contents of the lock files it is made by, by name."""
        return {
            name: (self.root / "requirements" / name).read_bytes()
            for name, for_development in LOCKS.items()
            if self.development or not for_development
        }

    def stamp(self) -> bytes:
        """The line that says, once all else is done, what the environment was made for."""
        return b"layout %d of %s\n" % (LAYOUT, os.fsencode(self.root))

    def is_ready(self) -> bool:
        """Whether it is whole and up to date, as environment.sh asks, but under the lock."""
        expected = {"stamp": self.stamp(), **self.locks()}
        try:
            found = {name: (notes_of(self.folder) / name).read_bytes() for name in expected}
        except (FileNotFoundError, NotADirectoryError):
            return False
        python = self.folder / "bin" / "python"
        return found == expected and os.access(python, os.X_OK) and self.settings.is_file()


def notes_of(folder: Path) -> Path:
    """Where an environment keeps its stamp and the locks it was made by."""
    return folder / "lib" / "evenhung"


def main() -> int:
    """Make the environment that the command line names; give the exit code."""
    parser = argparse.ArgumentParser(description="Make the environment that Evenhung runs in.")
    parser.add_argument("root", type=Path, help="the checkout")
    parser.add_argument("folder", type=Path, help="the environment")
    parser.add_argument("purpose", choices=["run", "development"], help="what it is to hold")
    arguments = parser.parse_args()
    try:
        development = arguments.purpose == "development"
        make(arguments.root, arguments.folder.resolve(), development=development)
    except SetUpError as error:
        say(str(error))
        return error.code
    except OSError as error:
        say(f"cannot set up in {arguments.folder}: {error}; EVENHUNG_ENV may name another folder")
        return 1
    except KeyboardInterrupt:
        say("stopped; the next start sets up again")
        return 130
    return 0


def say(line: str) -> None:
    """Tell the person one line; standard output belongs to the program."""
    print(f"evenhung: {line}", file=sys.stderr, flush=True)


def make(root: Path, folder: Path, *, development: bool) -> None:
    """Make or renew the environment in `folder` unless it is ready, alone.

    Parameters
    ----------
    root
        The checkout; its ``src`` becomes importable in the environment.
    folder
        Where the environment is to be; its parents are made.
    development
        Whether the development tools are wanted as well. An environment that has them keeps them.

    Raises
    ------
    SetUpError
        If a folder in the way is not ours, no environment can be made by this Python, or pip fails.
    OSError
        If the disk is full or a folder cannot be written.
    """
    if "\n" in str(root):
        raise SetUpError(f"the checkout's path {str(root)!r} has a line break in it: move it")
    development = development or (notes_of(folder) / "dev.txt").exists()
    environment = Environment(folder, root, development)
    folder.parent.mkdir(parents=True, exist_ok=True)
    with held(
        environment.lock_file, busy=f"{folder} is being set up by another start; waiting"
    ) as lock:
        if environment.is_ready():
            return
        for path in (folder, environment.making, environment.former):
            refuse_if_foreign(path)
        pip = borrowed_pip(lock)
        started = time.monotonic()
        say(f"setting up in {folder}, once; this takes about half a minute ...")
        build(environment, pip, lock)
        replace(environment)
        say(f"ready after {time.monotonic() - started:.0f} s")


@contextmanager
def held(lock_file: Path, *, busy: str) -> Iterator[int]:
    """Hold the lock, or say `busy` and wait for it; a process that dies frees it.

    Yields the open file: a child that inherits it keeps the lock while it lives, so that a pip
    whose parent was killed cannot write into a folder that the next start has taken over.
    """
    with lock_file.open("ab") as file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say(busy)
            fcntl.flock(file, fcntl.LOCK_EX)
        yield file.fileno()


def refuse_if_foreign(folder: Path) -> None:
    """Refuse to take the place of anything that we did not make; an empty folder is free."""
    if (folder / MARK).is_file() or not os.path.lexists(folder):
        return
    if not folder.is_dir():
        raise SetUpError(
            f"{folder} is not a folder: move it, or name another folder by EVENHUNG_ENV"
        )
    if any(folder.iterdir()):
        raise SetUpError(
            f"{folder} has files that Evenhung did not put there, and they are left alone: "
            "move it, or name another folder by EVENHUNG_ENV"
        )


def borrowed_pip(lock: int) -> list[str]:
    """Give the pip that serves a Python without ensurepip (Debian's bare python3); else nothing.

    A pip of 22.3 or newer can install into another environment than its own.
    """
    if find_spec("ensurepip"):
        return []
    pip = [BASE, "-I", "-m", "pip", "--python"]
    try:
        run([*pip, BASE, "--version"], lock, "no pip")
    except SetUpError as error:
        raise SetUpError(
            f"this Python ({BASE}) has no ensurepip and no usable pip: install python3-venv "
            "(Debian, Ubuntu: apt-get install python3-venv) and start again",
            NEEDS_SYSTEM_PACKAGE,
        ) from error
    return pip


def build(environment: Environment, pip: list[str], lock: int) -> None:
    """Build the whole environment aside, by `pip` if borrowed; leave none of it on failure."""
    making = environment.making
    python = str(making / "bin" / "python")
    no_environment = "an environment could not be made"
    clear(making)
    try:
        making.mkdir()
        (making / MARK).touch()
        venv = [BASE, "-I", "-m", "venv", "--without-pip", "--prompt", "evenhung", str(making)]
        run(venv, lock, no_environment)
        if not pip:
            run([python, "-I", "-m", "ensurepip", "--default-pip"], lock, no_environment)
        install([*pip, python] if pip else [python, "-I", "-m", "pip"], environment, lock)
        link_checkout(making, environment.root)
        rename_within(making, environment.folder)
        write_stamp(environment)
    except BaseException:
        clear(making)
        raise


def install(pip: list[str], environment: Environment, lock: int) -> None:
    """Install exactly what the lock files name, each file checked by its hash."""
    files = [str(environment.root / "requirements" / name) for name in environment.locks()]
    arguments = [argument for file in files for argument in ("--requirement", file)]
    options = ["--no-deps", "--require-hashes", "--no-input", "--disable-pip-version-check"]
    version = ".".join(map(str, sys.version_info[:2]))
    failure = f"its packages could not be installed for Python {version} (tried with 3.11 to 3.14)"
    run([*pip, "install", *options, *arguments], lock, failure)


def run(command: list[str], lock: int, failure: str) -> None:
    """Run a command to its end, in silence; if it fails, raise `failure` with its last word."""
    done = subprocess.run(
        command,
        check=False,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        env=clean_variables(),
        pass_fds=(lock,),
    )
    if done.returncode:
        reason = last_word(done.stdout)
        if "No matching distribution" in reason and UNREACHABLE.search(done.stdout):
            failure = "there is no network"
        raise SetUpError(f"{failure} ({reason})")


def clean_variables() -> dict[str, str]:
    """Give the variables for a child: ours, less those that bend Python or move where pip installs.

    Where packages come from stays as the person has set it. Unless they said otherwise, pip builds
    nothing from source and gives up soon on a network that is not there.
    """
    bent = {"PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_PYTHON", "PIP_REQUIRE_VIRTUALENV"}
    kept = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith("PYTHON") and name not in bent
    }
    return {"PIP_ONLY_BINARY": ":all:", "PIP_RETRIES": "2", **kept, "PIP_USER": "0"}


def last_word(output: str) -> str:
    """The last error line of a program's output, else its last line."""
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    lines = [line for line in lines if not line.startswith("[notice]")] or ["it said nothing"]
    return next((line for line in reversed(lines) if line.startswith("ERROR")), lines[-1])


def link_checkout(folder: Path, root: Path) -> None:
    """Make the checkout's ``src`` importable in the environment, as it stands and changes."""
    (packages,) = (folder / "lib").glob("python*/site-packages")
    (packages / "evenhung-checkout.pth").write_bytes(os.fsencode(root / "src") + b"\n")


def rename_within(making: Path, folder: Path) -> None:
    """Let the scripts in ``bin`` name the folder they go to, not the one they were made in."""
    for file in (*(making / "bin").iterdir(), making / "pyvenv.cfg"):
        if file.is_symlink() or not file.is_file():
            continue
        contents = file.read_bytes()
        renamed = contents.replace(os.fsencode(making), os.fsencode(folder))
        if renamed != contents:
            file.write_bytes(renamed)


def write_stamp(environment: Environment) -> None:
    """Say that the environment is whole, as the last thing done to it."""
    notes = notes_of(environment.making)
    notes.mkdir()
    for name, contents in environment.locks().items():
        (notes / name).write_bytes(contents)
    (notes / "stamp").write_bytes(environment.stamp())


def replace(environment: Environment) -> None:
    """Put the finished environment in its place; one that stood there goes."""
    clear(environment.former)
    if environment.folder.exists():
        environment.folder.rename(environment.former)
    environment.making.rename(environment.folder)
    clear(environment.former)


def clear(folder: Path) -> None:
    """Delete a folder of ours, its mark last: stopped midway, it is still known as ours."""
    if not folder.exists():
        return
    for path in folder.iterdir():
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        elif path.name != MARK:
            path.unlink()
    (folder / MARK).unlink(missing_ok=True)
    folder.rmdir()


if __name__ == "__main__":
    sys.exit(main())
