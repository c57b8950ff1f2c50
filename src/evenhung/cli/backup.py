"""``evenhung backup``: all houses and photos in one file, and back again."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from evenhung.cli.options import Data
from evenhung.errors import InvalidSetting

EXAMPLES = """\b
Examples:
  evenhung backup monday.zip
  evenhung backup --restore monday.zip --data new-folder
"""


def backup(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The backup, a zip.")],
    restore: Annotated[
        bool, typer.Option("--restore", help="Restore FILE into an empty folder instead.")
    ] = False,
    data: Data = None,
) -> None:
    """Write all houses and photos into one file, or restore them.

    The server may go on while a backup is written.
    """
    from evenhung.store.folder import DataFolder
    from evenhung.web.config import Config
    from evenhung.web.database import bring_up_to_date

    config = Config.from_variables()
    if data is not None:
        config = replace(config, folder=DataFolder(data))
    _refuse_what_cannot_be(file, config.folder.path, restore=restore)
    config.folder.prepare()
    os.environ.update(config.as_variables())
    if restore:
        with config.folder.locked():
            bring_up_to_date(config)
            from evenhung.web.backup import restore_backup

            kept = restore_backup(file, config.folder.photos)
        print(f"restored {kept.houses} houses, {kept.rows} rows and {kept.photos} photos")
        return
    bring_up_to_date(config)
    from evenhung.web.backup import write_backup

    kept = write_backup(file, config.folder.photos)
    print(f"{file}: {kept.houses} houses, {kept.rows} rows and {kept.photos} photos")


def _refuse_what_cannot_be(file: Path, data: Path, *, restore: bool) -> None:
    if restore and not file.is_file():
        raise InvalidSetting("FILE", str(file), "a backup that is there")
    if not restore and not file.parent.is_dir():
        raise InvalidSetting("FILE", str(file), "a file in a folder that is there")
    if not restore and not data.is_dir():
        raise InvalidSetting("--data", str(data), "a folder that holds houses")
