"""Photos that are handed in: cleaned and kept, and made parts of their house."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings

from evenhung.store.parts import Key, new_id
from evenhung.store.photos import MOST_BYTES, keep_photo
from evenhung.web.records.merging import Edit

if TYPE_CHECKING:
    from collections.abc import Iterable

    from django.core.files.uploadedfile import UploadedFile


def taken_in(
    files: Iterable[UploadedFile], window: str, *, place: str = "", note: str = ""
) -> list[Edit]:
    """Keep photos of a window; give what is to be saved so that it has them.

    Parameters
    ----------
    files
        As they came.
    window
        The id of the window.
    place
        What they show, as `PLACES` has it.
    note
        What is said of them.

    Raises
    ------
    InvalidFile
        Where one of them is not a photo.
    """
    said = {"place": place, "note": note}
    stated = {name: value for name, value in said.items() if value}
    checksums = [_kept(file) for file in files]
    records = [{"id": new_id(), "sha256": one, "of": window, **stated} for one in checksums]
    return [Edit(Key("photo", one["id"]), 0, one) for one in records]


def _kept(file: UploadedFile) -> str:
    name = (file.name or "photo")[-60:]
    return keep_photo(settings.CONFIG.folder.photos, file.read(MOST_BYTES + 1), name=name)
