"""A backup of everything in one zip of open formats, and restoring it into an empty place.

The rows are written as JSON, one to a line, so a backup of one database can be restored into
another: from a SQLite file to PostgreSQL and back.
"""

from __future__ import annotations

import io
import json
import zipfile
from contextlib import contextmanager
from datetime import datetime
from typing import IO, TYPE_CHECKING, Any, NamedTuple

from django.core import serializers
from django.core.management.color import no_style
from django.core.serializers.json import DjangoJSONEncoder
from django.db import connection, transaction
from django.db.models import OuterRef, Subquery
from django.utils import timezone

from evenhung.errors import InvalidFile, InvalidSetting
from evenhung.store.files import written_aside
from evenhung.store.photos import CHECKSUM, keep_as_it_is, photo_file
from evenhung.web.access.models import Person, VisitorLink
from evenhung.web.records.models import Change, House, Part, Revision

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from django.db.models import Model

LAYOUT = 1
"""Counted up when a backup is laid out in another way."""
CONTENTS, TABLES, PHOTOS = "backup.json", "tables/", "photos/"
KEPT: dict[str, type[Model]] = {
    "houses": House,
    "parts": Part,
    "changes": Change,
    "revisions": Revision,
    "people": Person,
    "visitor-links": VisitorLink,
}
"""What is kept, each after what it belongs to. Sessions are not: everybody logs in again."""


class Backup(NamedTuple):
    """What a backup holds."""

    rows: int
    houses: int
    photos: int


def write_backup(file: Path, photos: Path) -> Backup:
    """Write everything into one file, as it stood at one moment; the server may go on.

    Parameters
    ----------
    file
        The file; it is there only when it is whole.
    photos
        Where photos are kept.

    Raises
    ------
    OSError
        Where it cannot be written.
    """
    with (
        written_aside(file) as target,
        zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as zipped,
    ):
        with _one_moment():
            counts = {name: _write_table(zipped, name, model) for name, model in KEPT.items()}
        checksums = _kept_photos(photos)
        for checksum in checksums:
            name = f"{PHOTOS}{checksum}.jpg"
            zipped.write(photo_file(photos, checksum), name, zipfile.ZIP_STORED)
        contents = {
            "layout": LAYOUT,
            "made": timezone.now().isoformat(),
            "rows": counts,
            "photos": len(checksums),
        }
        zipped.writestr(CONTENTS, json.dumps(contents, indent=2) + "\n")
    return Backup(sum(counts.values()), counts["houses"], len(checksums))


@contextmanager
def _one_moment() -> Iterator[None]:
    """See the database as it stands now, while others go on saving."""
    begin = {
        "sqlite": "BEGIN DEFERRED",  # a snapshot of the log, which holds nobody up
        "postgresql": "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY",
    }
    with connection.cursor() as cursor:
        cursor.execute(begin[connection.vendor])
        try:
            yield
        finally:
            cursor.execute("ROLLBACK")


class _ToTheMicrosecond(DjangoJSONEncoder):
    """Writes a moment as exactly as it is kept: Django's own leaves out all below a millisecond."""

    def default(self, o: object) -> object:
        return o.isoformat() if isinstance(o, datetime) else super().default(o)


def _write_table(zipped: zipfile.ZipFile, name: str, model: type[Model]) -> int:
    count = 0
    with zipped.open(f"{TABLES}{name}.jsonl", "w", force_zip64=True) as raw:
        for row in model._default_manager.order_by("pk").iterator():
            raw.write(serializers.serialize("jsonl", [row], cls=_ToTheMicrosecond).encode())
            count += 1
    return count


def _kept_photos(photos: Path) -> list[str]:
    return sorted(path.stem for path in photos.glob("*/*.jpg") if CHECKSUM.fullmatch(path.stem))


def restore_backup(file: Path, photos: Path) -> Backup:
    """Restore everything from a backup into a database in which nothing has been kept yet.

    Parameters
    ----------
    file
        The backup.
    photos
        Where photos are kept.

    Raises
    ------
    InvalidFile
        Where it is no backup, or not whole: then nothing is restored.
    InvalidSetting
        Where something is kept already.
    """
    if any(model._default_manager.exists() for model in KEPT.values()):
        raise InvalidSetting("--data", "(houses in it)", "an empty data folder to restore into")
    try:
        with zipfile.ZipFile(file) as zipped, transaction.atomic():
            contents = _contents(zipped)
            for name in KEPT:
                _restore_table(zipped, name, contents["rows"][name])
            _find_latest()
            _reset_counters()
            restored = _restore_photos(zipped, photos)
            if restored != contents["photos"]:
                raise InvalidFile(file.name, f"{restored} photos", f"{contents['photos']} photos")
    except (zipfile.BadZipFile, KeyError, serializers.base.DeserializationError, EOFError) as error:
        raise InvalidFile(file.name, f"({error})"[:160], "a whole backup") from None
    return Backup(sum(contents["rows"].values()), contents["rows"]["houses"], restored)


def _contents(zipped: zipfile.ZipFile) -> dict[str, Any]:
    contents: dict[str, Any] = json.loads(zipped.read(CONTENTS))
    if contents.get("layout") != LAYOUT:
        raise InvalidFile(
            CONTENTS, f"layout {contents.get('layout')}", f"layout {LAYOUT}, of this Evenhung"
        )
    return contents


def _restore_table(zipped: zipfile.ZipFile, name: str, expected: int) -> None:
    count = 0
    with zipped.open(f"{TABLES}{name}.jsonl") as raw:
        for row in _rows(raw):
            if isinstance(row, Part):
                row.latest_id = None  # its revisions come later
            row.save_base(raw=True, force_insert=True)
            count += 1
    if count != expected:
        raise InvalidFile(name, f"{count} rows", f"{expected} rows")


def _find_latest() -> None:
    """Let every part know its latest revision again: the one of the highest number."""
    highest = Revision.objects.filter(part=OuterRef("pk")).order_by("-number")
    Part.objects.update(latest=Subquery(highest.values("pk")[:1]))


def _rows(raw: IO[bytes]) -> Iterator[Model]:
    for row in serializers.deserialize("jsonl", io.TextIOWrapper(raw, "utf-8")):
        yield row.object


def _reset_counters() -> None:
    """Let new rows be numbered after those that were restored."""
    statements = connection.ops.sequence_reset_sql(no_style(), list(KEPT.values()))
    with connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


def _restore_photos(zipped: zipfile.ZipFile, photos: Path) -> int:
    names = [name for name in zipped.namelist() if name.startswith(PHOTOS)]
    for name in names:
        checksum = keep_as_it_is(photos, zipped.read(name))
        if name != f"{PHOTOS}{checksum}.jpg":
            raise InvalidFile(name, "(changed)", "the photo of this checksum")
    return len(names)
