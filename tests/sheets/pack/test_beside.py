"""Files that a process of their own makes: the same bytes, a plain word where it fails, an end."""

from __future__ import annotations

import subprocess

import pytest

from evenhung.sheets.pack import beside
from evenhung.sheets.pack.beside import BESIDE, pack_in_making
from evenhung.sheets.pack.files import pack_files


def test_what_is_made_beside_is_the_same_byte_for_byte(house_of):
    house = house_of("plain", linked=True)
    here = {one.name: one.make() for one in pack_files(house) if one.name in BESIDE}
    with pack_in_making(house) as files:
        assert [one.name for one in files] == [one.name for one in pack_files(house)]
        assert {one.name: one.make() for one in files if one.name in BESIDE} == here


def test_all_else_is_made_here(house_of, monkeypatch):
    monkeypatch.setattr(beside, "COMMAND", ("-c", "raise SystemExit('not asked')"))
    house = house_of("plain")
    with pack_in_making(house) as files:
        (cords,) = (one for one in files if one.name == "cords.csv")
        assert cords.make() == next(
            one.make() for one in pack_files(house) if one.name == cords.name
        )


def test_what_the_process_failed_with_is_told(house_of, monkeypatch):
    monkeypatch.setattr(beside, "COMMAND", ("-c", "raise OSError('no room')"))
    says = "the process beside ended with 1: OSError: no room"
    with pack_in_making(house_of("plain")) as files, pytest.raises(RuntimeError, match=says):
        next(one for one in files if one.name in BESIDE).make()


def test_the_process_ends_with_whoever_waits_for_it(house_of, monkeypatch):
    started, begin = [], subprocess.Popen
    monkeypatch.setattr(beside, "COMMAND", ("-c", "import time; time.sleep(600)"))
    monkeypatch.setattr(
        beside.subprocess,
        "Popen",
        lambda *asked, **more: started.append(begin(*asked, **more)) or started[0],
    )
    with pack_in_making(house_of("plain")):
        assert started[0].poll() is None
    assert started[0].poll() is not None
