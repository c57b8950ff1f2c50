"""The data folder: closed to others, held by one server at a time."""

from __future__ import annotations

import pytest

from evenhung.errors import InvalidSetting
from evenhung.store.folder import DataFolder


@pytest.fixture
def folder(tmp_path):
    folder = DataFolder(tmp_path / "data")
    folder.prepare()
    return folder


def test_its_owner_alone_may_look_into_it(folder):
    assert folder.path.stat().st_mode & 0o777 == 0o700
    assert folder.photos.is_dir()


def test_its_secret_is_made_once(folder):
    secret = folder.secret()
    assert len(secret) == 64
    assert DataFolder(folder.path).secret() == secret
    assert (folder.path / "secret-key").stat().st_mode & 0o777 == 0o600


def test_it_is_held_by_one_at_a_time(folder):
    with folder.locked():
        folder.note_address("http://127.0.0.1:8421/")
        with (
            pytest.raises(InvalidSetting, match=r"already runs on it at http://127.0.0.1:8421/"),
            DataFolder(folder.path).locked(),
        ):
            pass
    with folder.locked():
        pass


def test_one_that_is_only_starting_is_said_to_be(folder):
    with (
        folder.locked(),
        pytest.raises(InvalidSetting, match="another server is starting"),
        folder.locked(),
    ):
        pass


def test_what_cannot_be_a_folder_is_refused(tmp_path):
    (tmp_path / "file").write_text("not a folder")
    with pytest.raises(InvalidSetting, match="a folder that can be written to"):
        DataFolder(tmp_path / "file" / "data").prepare()
