"""Let the database itself refuse to change or delete what was saved."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from django.db import migrations

if TYPE_CHECKING:
    from django.db.backends.base.schema import BaseDatabaseSchemaEditor

TABLES = ("records_revision", "records_change")

SQLITE = """
CREATE TRIGGER {table}_no_{word} BEFORE {word} ON {table}
BEGIN SELECT RAISE(ABORT, 'what was saved is never changed or deleted'); END
"""

POSTGRESQL_FUNCTION = """
CREATE OR REPLACE FUNCTION records_only_added() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION 'what was saved is never changed or deleted'
    USING ERRCODE = 'integrity_constraint_violation'; END $$
"""
POSTGRESQL = """
CREATE TRIGGER {table}_only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON {table}
FOR EACH STATEMENT EXECUTE FUNCTION records_only_added()
"""


def forbid(_apps: Any, editor: BaseDatabaseSchemaEditor) -> None:
    """Put the triggers up."""
    if editor.connection.vendor == "postgresql":
        editor.execute(POSTGRESQL_FUNCTION)
        for table in TABLES:
            editor.execute(POSTGRESQL.format(table=table))
        return
    for table in TABLES:
        for word in ("UPDATE", "DELETE"):
            editor.execute(SQLITE.format(table=table, word=word))


class Migration(migrations.Migration):
    """Triggers on revisions and changes."""

    dependencies: ClassVar = [("records", "0001_initial")]
    operations: ClassVar = [migrations.RunPython(forbid, migrations.RunPython.noop)]
