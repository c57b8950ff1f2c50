"""A folder of files, written aside and put in place at once: whole, or not at all."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from evenhung.cli.refusal import refused

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from evenhung.errors import InvalidSurvey

MOST_NAMED = 3
"""Files named in a refusal; of more, how many."""


def write_folder(
    folder: Path,
    files: Sequence[tuple[str, Callable[[], bytes]]],
    *,
    replace: bool,
    tell: Callable[[int], None],
) -> None:
    """Write files into a folder.

    Parameters
    ----------
    folder
        Made if it is not there; the folder above it must be.
    files
        The name of each, with slashes where it lies deeper, and what makes it.
    replace
        Whether files of these names that are there already are replaced.
    tell
        Called with the number of each file as it is begun.

    Raises
    ------
    InvalidSurvey
        If the folder cannot be written to, or files are there already and shall not be replaced;
        nothing is changed then.
    """
    _refuse_if_there(folder, [name for name, _ in files], replace=replace)
    try:
        aside = Path(tempfile.mkdtemp(prefix=".making-", dir=_standing(folder)))
    except OSError as error:
        raise _unwritable(folder, error) from None
    try:
        for number, (name, make) in enumerate(files):
            tell(number)
            (aside / name).parent.mkdir(exist_ok=True)
            (aside / name).write_bytes(make())
        _put_in_place(aside, folder, [name for name, _ in files], replace=replace)
    except OSError as error:
        raise _unwritable(folder, error) from None
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def _standing(folder: Path) -> Path:
    """Give the folder itself if it is there, else the one above it: a rename stays on one disk."""
    return folder if folder.is_dir() else folder.absolute().parent


def _put_in_place(aside: Path, folder: Path, names: list[str], *, replace: bool) -> None:
    _refuse_if_there(folder, names, replace=replace)
    if not folder.exists():
        aside.chmod(0o755)
        aside.rename(folder)
        return
    for name in names:
        (folder / name).parent.mkdir(exist_ok=True)
    for name in names:
        (aside / name).replace(folder / name)


def _refuse_if_there(folder: Path, names: list[str], *, replace: bool) -> None:
    if folder.exists() and not folder.is_dir():
        raise refused("output", str(folder), "a folder; this is a file")
    there = [name for name in names if (folder / name).exists()]
    if there and not replace:
        some = ", ".join(there[:MOST_NAMED])
        more = f" and {len(there) - MOST_NAMED} more" if len(there) > MOST_NAMED else ""
        raise refused(
            "output",
            str(folder),
            f"a folder without {some}{more}, which are there already; or --replace",
        )


def _unwritable(folder: Path, error: OSError) -> InvalidSurvey:
    return refused(
        "output", str(folder), f"a folder that can be written to: {error.strerror or error}"
    )
