"""A house in a zip: what is read is what was written, and nothing else gets in."""

from __future__ import annotations

import io
import json
import zipfile

import pytest
from PIL import Image

from evenhung.errors import InvalidFile, InvalidSurvey
from evenhung.store.demo import SURVEY
from evenhung.store.housezip import read_house, write_house
from evenhung.store.photos import keep_photo, photo_file
from evenhung.survey import read_survey


@pytest.fixture
def kept(tmp_path):
    folder = tmp_path / "photos"
    folder.mkdir()
    file = io.BytesIO()
    Image.effect_noise((300, 200), 40).convert("RGB").save(file, "JPEG")
    return folder, keep_photo(folder, file.getvalue())


def zipped(**files):
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in files.items():
            packed.writestr(name, data)
    file.seek(0)
    return file


SMALL = b'form = 1\n[house]\nname = "Alder Row"\n'


def test_what_is_read_is_what_was_written(kept, tmp_path):
    folder, checksum = kept
    survey = read_survey(SURVEY.read_bytes())
    photos = [{"id": "p1", "sha256": checksum, "of": "w1", "note": "the mark 9"}]
    file = io.BytesIO()
    write_house(file, survey, photos, folder)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    assert read_house(file, elsewhere) == (survey, photos)
    there = photo_file(elsewhere, checksum).read_bytes()
    assert there == photo_file(folder, checksum).read_bytes()


def test_a_photo_that_carries_more_than_its_picture_is_cleaned(tmp_path):
    exif = Image.Exif()
    exif[0x010E] = "behind the church"
    file = io.BytesIO()
    Image.new("RGB", (60, 40), "white").save(file, "JPEG", exif=exif)
    data = file.getvalue()
    import hashlib

    checksum = hashlib.sha256(data).hexdigest()
    packed = zipped(
        **{
            "survey.toml": SMALL,
            "photos.json": json.dumps([{"id": "p", "sha256": checksum, "of": "w"}]),
            f"photos/{checksum}.jpg": data,
        }
    )
    _, (photo,) = read_house(packed, tmp_path)
    assert photo["sha256"] != checksum
    assert b"church" not in photo_file(tmp_path, photo["sha256"]).read_bytes()


def test_nothing_is_unpacked_by_a_name_from_the_zip(tmp_path):
    folder = tmp_path / "photos"
    folder.mkdir()
    packed = zipped(**{"survey.toml": SMALL, "../escaped.jpg": b"x", "/escaped.jpg": b"x"})
    survey, photos = read_house(packed, folder)
    assert (survey.house.name, photos) == ("Alder Row", [])
    assert sorted(tmp_path.rglob("*")) == [folder]


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({}, "survey.toml: .absent."),
        ({"survey.toml": b"#" + b" " * 25_000_000}, "survey.toml: .too large."),
        ({"survey.toml": SMALL, "photos.json": "{"}, "photos.json: .not JSON."),
        ({"survey.toml": SMALL, "photos.json": "[" * 100_000}, "photos.json: .not JSON."),
        ({"survey.toml": SMALL, "photos.json": "{}"}, "photos.json: .no list."),
        ({"survey.toml": SMALL, "photos.json": '[{"sha256": "../x"}]'}, "the checksum of each"),
        (
            {"survey.toml": SMALL, "photos.json": json.dumps([{"sha256": "0" * 64}])},
            "photos/0+.jpg: .absent.",
        ),
        (
            {
                "survey.toml": SMALL,
                "photos.json": json.dumps([{"sha256": "0" * 64}]),
                f"photos/{'0' * 64}.jpg": b"other",
            },
            "the photo of this checksum",
        ),
        (
            {"survey.toml": SMALL, **{f"photos/{number}.jpg": b"" for number in range(5001)}},
            "at most 5000",
        ),
    ],
    ids=["empty", "bomb", "half", "deep", "table", "path", "lost", "changed", "many"],
)
def test_a_zip_that_is_not_a_house_is_refused(tmp_path, files, said):
    with pytest.raises(InvalidFile, match=said):
        read_house(zipped(**files), tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_zip_that_would_unpack_to_too_much_is_refused_unread(tmp_path, monkeypatch):
    monkeypatch.setattr("evenhung.store.housezip.MOST_UNPACKED", 1_000_000)
    with pytest.raises(InvalidFile, match="bytes unpacked"):
        read_house(zipped(**{"survey.toml": SMALL, "bomb": b"\0" * 2_000_000}), tmp_path)


def test_what_is_no_zip_is_refused(tmp_path):
    with pytest.raises(InvalidFile, match="no zip"):
        read_house(io.BytesIO(b"PK\x03\x04 and then nothing"), tmp_path)


def test_a_survey_of_a_newer_form_is_refused_by_name(tmp_path):
    packed = zipped(**{"survey.toml": SMALL.replace(b"form = 1", b"form = 99")})
    with pytest.raises(InvalidSurvey, match="written by a newer Evenhung"):
        read_house(packed, tmp_path)
