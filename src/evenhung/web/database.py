"""The database brought up to date before a server starts on it, with a copy of what it was."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from evenhung.errors import InvalidSetting
from evenhung.store.files import flush_folder

if TYPE_CHECKING:
    from pathlib import Path

    from evenhung.web.config import Config

SETTINGS = "evenhung.web.settings"


def make_ready() -> None:
    """Make Django ready in this process; the variables of the configuration must be set."""
    import django

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", SETTINGS)
    django.setup()


def bring_up_to_date(config: Config) -> None:
    """Bring the tables of the database to what this program needs.

    An older database in the data folder is first copied aside, as it was.

    Raises
    ------
    InvalidSetting
        Where the database was made by a newer program, or does not answer.
    """
    make_ready()
    from django.core.management import call_command
    from django.db import DatabaseError, connection
    from django.db.migrations.executor import MigrationExecutor

    try:
        executor = MigrationExecutor(connection)
        known = set(executor.loader.disk_migrations or ())
        applied = set(executor.loader.applied_migrations or ())
        if newer := sorted(
            name for app, name in applied - known if app in executor.loader.migrated_apps
        ):
            raise InvalidSetting(
                "database", newer[-1], "a database of this Evenhung or an older one"
            )
        if executor.migration_plan(executor.loader.graph.leaf_nodes()):
            if applied and not config.database:
                copy_aside(config.folder.database)
            call_command("migrate", verbosity=0, interactive=False)
    except DatabaseError as error:
        said = str(error).strip().splitlines()[0] if str(error).strip() else type(error).__name__
        raise InvalidSetting("database", said, "a database that answers") from None
    finally:
        connection.close()


def copy_aside(database: Path) -> Path:
    """Copy a SQLite file as it stands, whole, beside it; give where the copy is."""
    number = 1
    while (copy := database.with_name(f"{database.name}.before-{number}")).exists():
        number += 1
    with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(copy)) as target:
        source.backup(target)
    copy.chmod(0o600)
    flush_folder(copy.parent)
    return copy
