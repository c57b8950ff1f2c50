"""Photos: checked, turned upright, stripped of where and when they were taken, bounded in size.

Each is kept under the checksum of its bytes, so the same photo is kept once and never changes.
"""

from __future__ import annotations

import hashlib
import io
import re
import warnings
from typing import IO, TYPE_CHECKING

from PIL import Image, ImageOps, UnidentifiedImageError

from evenhung.errors import InvalidFile
from evenhung.store.files import write_whole

if TYPE_CHECKING:
    from pathlib import Path

MOST_BYTES = 30_000_000
"""A photo that is handed in; phones make 2 to 15 MB."""
MOST_PIXELS = 120_000_000
"""More would need more than half a gigabyte to open."""
LONGEST_SIDE = 2400
"""Pixels of the longer side as kept: enough to read a mark cast on a weight."""
SMALL_SIDE = 360
"""Pixels of the longer side in lists."""
QUALITY = 85
FORMATS = ("JPEG", "PNG", "WEBP")
CHECKSUM = re.compile(r"[0-9a-f]{64}")

ALLOWED = "a photo in JPEG, PNG or WebP, of at most 30 MB"


def keep_photo(folder: Path, data: bytes, *, name: str = "photo") -> str:
    """Keep a photo that someone hands in.

    Parameters
    ----------
    folder
        Where photos are kept.
    data
        The file as it came.
    name
        What to call it in a refusal.

    Returns
    -------
    str
        The checksum that it is kept and found by.

    Raises
    ------
    InvalidFile
        Where it is not a photo, is cut short, or is larger than can be opened safely.
    """
    return keep_as_it_is(folder, cleaned(data, name=name))


def cleaned(data: bytes, *, name: str = "photo") -> bytes:
    """Give a photo anew as a JPEG: upright, bounded, with nothing in it but the picture.

    Raises
    ------
    InvalidFile
        Where it is not a photo that can be opened.
    """
    image = _opened(data, name)
    image.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    return _written(image)


def small_file(folder: Path, checksum: str) -> Path:
    """Give where a small one of a photo lies; made on the first call.

    Raises
    ------
    InvalidFile
        Where there is no such photo.
    """
    whole = photo_file(folder, checksum)
    place = whole.with_suffix(".small")
    if not place.exists():
        if not whole.exists():
            raise InvalidFile("photo", checksum, "a photo that is kept")
        with Image.open(whole) as image:
            image.thumbnail((SMALL_SIDE, SMALL_SIDE), Image.Resampling.LANCZOS)
            write_whole(place, _written(image))
    return place


def keep_as_it_is(folder: Path, data: bytes) -> str:
    """Keep a photo that has been cleaned already; give its checksum."""
    checksum = hashlib.sha256(data).hexdigest()
    place = photo_file(folder, checksum)
    if not place.exists():
        place.parent.mkdir(exist_ok=True, mode=0o700)
        write_whole(place, data)
    return checksum


def photo_file(folder: Path, checksum: str) -> Path:
    """Give where a photo is kept.

    Raises
    ------
    InvalidFile
        Where it is not the checksum of anything: no path gets in by it.
    """
    if not CHECKSUM.fullmatch(checksum):
        raise InvalidFile("photo", checksum[:80], "the 64 figures of a checksum")
    return folder / checksum[:2] / f"{checksum}.jpg"


def _opened(data: bytes, name: str) -> Image.Image:
    if len(data) > MOST_BYTES:
        raise InvalidFile(name, f"{len(data)} bytes", ALLOWED)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # we count ourselves
            with Image.open(io.BytesIO(data), formats=FORMATS) as image:
                _refuse_bomb(image, name)
                image.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
                upright = ImageOps.exif_transpose(image)
                return upright.convert("RGB")
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        if isinstance(error, InvalidFile):
            raise
        said = "a file cut short" if "truncated" in str(error) else "not such a photo"
        raise InvalidFile(name, said, ALLOWED) from None
    except Image.DecompressionBombError:
        raise InvalidFile(name, "a picture of too many pixels", _fewer()) from None


def _refuse_bomb(image: Image.Image, name: str) -> None:
    width, height = image.size
    if width * height > MOST_PIXELS:
        raise InvalidFile(name, f"{width} x {height} pixels", _fewer())


def _fewer() -> str:
    return f"at most {MOST_PIXELS // 1_000_000} million pixels"


def _written(image: Image.Image) -> bytes:
    file: IO[bytes] = io.BytesIO()
    image.save(file, "JPEG", quality=QUALITY, optimize=True, progressive=True)
    file.seek(0)
    return file.read()
