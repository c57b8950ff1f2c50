"""Photos: what is kept of them, and what is refused."""

from __future__ import annotations

import io
import struct
import zlib

import pytest
from PIL import Image

from evenhung.errors import InvalidFile
from evenhung.store.photos import LONGEST_SIDE, cleaned, keep_photo, photo_file, small_file

ORIENTATION, GPS, TAKEN = 0x0112, 0x8825, 0x0132


def photo(size=(400, 300), *, kind="JPEG", exif=None):
    image = Image.new("RGB", size, "white")
    image.paste("red", (0, 0, size[0] // 4, size[1] // 4))  # marks the corner that is up and left
    file = io.BytesIO()
    image.save(file, kind, **({"exif": exif} if exif else {}))
    return file.getvalue()


def opened(data):
    return Image.open(io.BytesIO(data))


def is_red(image, x, y):
    red, green, _ = image.getpixel((x, y))
    return red > 200 and green < 80


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photo_is_kept_under_its_checksum_once(tmp_path, kind):
    first = keep_photo(tmp_path, photo(kind=kind))
    assert keep_photo(tmp_path, photo(kind=kind)) == first
    kept = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert kept == [photo_file(tmp_path, first)]
    assert opened(kept[0].read_bytes()).format == "JPEG"


def test_a_photo_taken_sideways_is_turned_upright():
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # turn by a quarter, clockwise, to look at it
    turned = opened(cleaned(photo((400, 300), exif=exif)))
    assert turned.size == (300, 400)
    assert is_red(turned, 290, 10)
    assert not is_red(turned, 10, 10)


def test_where_and_when_it_was_taken_is_gone():
    exif = Image.Exif()
    exif[TAKEN] = "2026:01:02 03:04:05"
    exif.get_ifd(GPS).update({1: "N", 2: (51.0, 30.0, 0.0), 3: "W", 4: (0.0, 7.0, 0.0)})
    data = photo(exif=exif)
    assert b"2026:01:02" in data
    kept = cleaned(data)
    assert b"2026:01:02" not in kept
    assert b"Exif" not in kept
    assert not opened(kept).getexif()


def test_a_large_photo_is_made_smaller(tmp_path):
    checksum = keep_photo(tmp_path, photo((5000, 2500)))
    assert opened(photo_file(tmp_path, checksum).read_bytes()).size == (LONGEST_SIDE, 1200)
    assert max(opened(small_file(tmp_path, checksum).read_bytes()).size) == 360


def png_of(width, height):
    """A PNG that says it is huge and holds next to nothing."""

    def chunk(name, data):
        return (
            struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        )

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return (
        b"\x89PNG\r\n\x1a\n"
        + head
        + chunk(b"IDAT", zlib.compress(b"\0" * 1000))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("size", [(30_000, 30_000), (12_000, 12_000)])
def test_a_picture_that_would_fill_the_memory_is_refused_unopened(size):
    with pytest.raises(InvalidFile, match="million pixels"):
        cleaned(png_of(*size))


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "not such a photo"),
        (b"GIF89a" + b"\0" * 50, "not such a photo"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not such a photo"),
        (photo((2000, 1500))[:9000], "cut short"),
    ],
    ids=["nothing", "gif", "svg", "half"],
)
def test_what_is_no_whole_photo_is_refused(tmp_path, data, said):
    with pytest.raises(InvalidFile, match=said):
        keep_photo(tmp_path, data, name="IMG_1.jpg")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["../../etc/passwd", "a" * 63, "A" * 64, ""])
def test_no_path_gets_in_by_a_checksum(tmp_path, name):
    with pytest.raises(InvalidFile, match="64 figures"):
        photo_file(tmp_path, name)
