"""A whole house in one zip of open formats: its survey in TOML, its photos, what they show.

``survey.toml`` is the survey as ``evenhung plan`` reads it; ``photos.json`` says what each photo
shows; ``photos/`` holds them under the checksums of their bytes. What is taken out of one Evenhung
and brought into another is the same house.
"""

from __future__ import annotations

import hashlib
import json
import zipfile
from typing import IO, TYPE_CHECKING, Any

from evenhung.errors import InvalidFile
from evenhung.store.photos import CHECKSUM, MOST_BYTES, cleaned, keep_as_it_is, photo_file
from evenhung.survey import read_survey, written_survey
from evenhung.survey.reading import MOST_BYTES as MOST_OF_SURVEY

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from evenhung.survey import Survey

SURVEY, PHOTOS, FOLDER = "survey.toml", "photos.json", "photos/"
MOST_FILES = 5_000
MOST_UNPACKED = 4_000_000_000
"""All of the files together, unpacked [bytes]."""
MOST_PHOTO_RECORDS = 10_000_000
"""Unpacked size of what says which photo shows what [bytes]."""


def write_house(
    file: IO[bytes], survey: Survey, photos: Sequence[Mapping[str, Any]], folder: Path
) -> None:
    """Write a house with its photos into a zip.

    Parameters
    ----------
    file
        Where to.
    survey
        The survey.
    photos
        The records of its photos, each with its ``sha256``.
    folder
        Where photos are kept.

    Raises
    ------
    InvalidFile
        Where the file of a photo is not there.
    """
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr(SURVEY, written_survey(survey))
        packed.writestr(PHOTOS, json.dumps(list(photos), ensure_ascii=False, indent=2) + "\n")
        for checksum in sorted({str(photo["sha256"]) for photo in photos}):
            kept = photo_file(folder, checksum)
            if not kept.exists():
                raise InvalidFile("photo", checksum, "a photo that is still kept")
            packed.write(kept, f"{FOLDER}{checksum}.jpg", zipfile.ZIP_STORED)


def read_house(file: IO[bytes], folder: Path) -> tuple[Survey, list[dict[str, Any]]]:
    """Read a house out of a zip, and keep its photos.

    Nothing is unpacked under a name from the zip: only the names written above are looked for.

    Parameters
    ----------
    file
        The zip.
    folder
        Where photos are kept.

    Returns
    -------
    tuple of Survey and list of dict
        The survey and the records of its photos.

    Raises
    ------
    InvalidFile
        Where it is no zip, too large unpacked, or lacks something.
    InvalidSurvey
        Where the survey in it is refused.
    """
    try:
        with zipfile.ZipFile(file) as packed:
            _refuse_too_much(packed)
            survey = read_survey(_read(packed, SURVEY, MOST_OF_SURVEY))
            photos = _photo_records(packed)
            for photo in photos:
                _keep(packed, photo, folder)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError) as error:
        raise InvalidFile(
            "file", f"(no zip: {error})"[:120], "a house as it was taken out"
        ) from None
    return survey, photos


def _refuse_too_much(packed: zipfile.ZipFile) -> None:
    files = packed.infolist()
    if len(files) > MOST_FILES:
        raise InvalidFile("file", f"{len(files)} files in it", f"at most {MOST_FILES}")
    if (size := sum(one.file_size for one in files)) > MOST_UNPACKED:
        raise InvalidFile("file", f"{size} bytes unpacked", f"at most {MOST_UNPACKED}")


def _read(packed: zipfile.ZipFile, name: str, most: int) -> bytes:
    """Read one file, no more of it than is allowed, whatever the zip says of its size."""
    try:
        with packed.open(name) as file:
            data = file.read(most + 1)
    except KeyError:
        raise InvalidFile(name, "(absent)", "a file in the zip") from None
    if len(data) > most:
        raise InvalidFile(name, "(too large)", f"at most {most} bytes unpacked")
    return data


def _photo_records(packed: zipfile.ZipFile) -> list[dict[str, Any]]:
    if PHOTOS not in packed.namelist():
        return []
    try:
        records = json.loads(_read(packed, PHOTOS, MOST_PHOTO_RECORDS))
    except (ValueError, RecursionError):
        raise InvalidFile(PHOTOS, "(not JSON)", "a list of what each photo shows") from None
    if not isinstance(records, list) or not all(isinstance(one, dict) for one in records):
        raise InvalidFile(PHOTOS, "(no list)", "a list of what each photo shows")
    return records


def _keep(packed: zipfile.ZipFile, photo: dict[str, Any], folder: Path) -> None:
    """Keep the file of a photo; one that others made is cleaned like any that is handed in."""
    checksum = str(photo.get("sha256", ""))
    if not CHECKSUM.fullmatch(checksum):
        raise InvalidFile(PHOTOS, checksum[:80], "the checksum of each photo as sha256")
    if photo_file(folder, checksum).exists():
        return
    name = f"{FOLDER}{checksum}.jpg"
    data = _read(packed, name, MOST_BYTES)
    if hashlib.sha256(data).hexdigest() != checksum:
        raise InvalidFile(name, "(changed)", "the photo of this checksum")
    again = cleaned(data, name=name)
    photo["sha256"] = keep_as_it_is(folder, data if _is_ours(data) else again)


def _is_ours(data: bytes) -> bool:
    """Tell whether a photo carries nothing but its picture, and so may keep its bytes."""
    import io

    from PIL import Image

    from evenhung.store.photos import LONGEST_SIDE

    with Image.open(io.BytesIO(data)) as image:
        plain = set(image.info) <= {
            "jfif",
            "jfif_version",
            "jfif_unit",
            "jfif_density",
            "progressive",
            "progression",
        }
        return image.format == "JPEG" and plain and max(image.size) <= LONGEST_SIDE
