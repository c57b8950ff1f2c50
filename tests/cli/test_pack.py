"""``pack``: into a folder whole or not at all, and never over what is there unless asked."""

from __future__ import annotations

import errno
import json
from pathlib import Path

import pytest

from evenhung.cli import folder as folders

pytestmark = pytest.mark.slow  # sheets are set by the dozen, or a process is waited for

ON = ("--on", "2026-03-09")


def test_a_folder_of_sheets(says, demo, tmp_path):
    code, out, err = says("pack", demo, "-o", str(tmp_path / "sheets"), *ON)
    assert code == 0
    assert [Path(line).name for line in out] == [
        one.split(": ")[0] for one in map(str, map(_name, out))
    ]
    assert all(Path(line).stat().st_size > 100 for line in out)
    assert sorted(path.name for path in (tmp_path / "sheets").iterdir()) == sorted(map(_name, out))
    assert err[0].strip() == f"1 of {len(out)}: house sheet"
    assert [path.name for path in tmp_path.iterdir()] == ["sheets"]


def _name(line):
    return Path(line).name


def test_modules_of_the_folder_we_stand_in_are_not_imported(says, demo, tmp_path, monkeypatch):
    for name in ("pickle.py", "json.py", "evenhung.py"):
        (tmp_path / name).write_text("raise SystemExit('the wrong module')")
    monkeypatch.chdir(tmp_path)
    code, _, err = says("pack", demo, "-o", "sheets", *ON)
    assert (code, [line for line in err if "wrong module" in line]) == (0, [])


def test_one_object_for_scripts(says, demo, tmp_path):
    code, out, _ = says("pack", demo, "-o", str(tmp_path / "s"), "--json", "--allot", *ON)
    assert code == 0
    found = json.loads("\n".join(out))
    assert found["form"] == 1
    assert "bench-cards.pdf" in found["files"]
    assert found["folder"] == str(tmp_path / "s")


def test_what_is_there_is_left_alone(says, demo, tmp_path):
    (tmp_path / "lists.pdf").write_text("mine")
    code, out, err = says("pack", demo, "-o", str(tmp_path), *ON)
    assert (code, out) == (2, [])
    (line,) = err
    assert line.startswith("output: ")
    assert "lists.pdf" in line
    assert "--replace" in line
    assert [path.name for path in tmp_path.iterdir()] == ["lists.pdf"]
    assert (tmp_path / "lists.pdf").read_text() == "mine"


def test_what_is_there_is_replaced_if_asked_and_the_rest_kept(says, demo, tmp_path):
    (tmp_path / "lists.pdf").write_text("mine")
    (tmp_path / "photo.jpg").write_text("mine too")
    code, _, _ = says("pack", demo, "-o", str(tmp_path), "--replace", *ON)
    assert code == 0
    assert (tmp_path / "lists.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "photo.jpg").read_text() == "mine too"
    assert not list(tmp_path.glob(".making-*"))


def test_drawings_come_in_a_folder_of_their_own(says, demo, tmp_path):
    sheets = tmp_path / "sheets"
    code, out, err = says("pack", demo, "-o", str(sheets), "--drawings", *ON)
    assert code == 0
    assert out[-1] == str(sheets / "drawings")
    assert len([line for line in err if line.endswith(": drawings of W1")]) == 1
    first = {path.name: path.read_bytes() for path in (sheets / "drawings").iterdir()}
    assert {"W1-jamb-right.dxf", "W6-lower-open.svg"} <= set(first)
    code, _, err = says("pack", demo, "-o", str(sheets), "--drawings", *ON)
    assert code == 2
    assert "--replace" in err[0]
    (sheets / "drawings" / "mine.dxf").write_text("mine")
    code, _, _ = says("pack", demo, "-o", str(sheets), "--drawings", "--replace", *ON)
    assert code == 0
    again = {path.name: path.read_bytes() for path in (sheets / "drawings").iterdir()}
    assert again == {**first, "mine.dxf": b"mine"}


def test_a_full_disk_leaves_nothing_half_written(says, demo, tmp_path, monkeypatch):
    write, written = Path.write_bytes, []

    def full(path, data):
        written.append(path)
        if len(written) == 3:
            raise OSError(errno.ENOSPC, "No space left on device")
        return write(path, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    code, out, err = says("pack", demo, "-o", str(tmp_path / "sheets"), *ON)
    assert (code, out) == (2, [])
    assert err[-1].endswith("a folder that can be written to: No space left on device")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_written_to_is_one_line(says, demo, tmp_path):
    code, out, err = says("pack", demo, "-o", str(tmp_path / "no" / "such"), *ON)
    assert (code, out) == (2, [])
    assert err == [
        f"output: '{tmp_path}/no/such': a folder that can be written to: No such file or directory"
    ]


def test_a_file_is_no_folder(says, demo, tmp_path):
    (tmp_path / "file").write_text("mine")
    code, _, err = says("pack", demo, "-o", str(tmp_path / "file"), "--replace", *ON)
    assert code == 2
    assert err == [f"output: '{tmp_path}/file': a folder; this is a file"]


def test_a_fault_half_way_leaves_nothing(tmp_path):
    def broken():
        raise KeyError("a fault of ours")

    with pytest.raises(KeyError, match="a fault of ours"):
        folders.write_folder(
            tmp_path / "s",
            [("a", lambda: b"a"), ("b", broken)],
            replace=False,
            tell=lambda _: None,
        )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("option", "value", "allowed"),
    [
        ("--on", "9/3/2026", "--on: '9/3/2026': a day, year first"),
        ("--hank", "12", "--hank: '12': "),
        ("--hank", "2 mm", "--hank: '2 mm': a length from 1 m to 1000 m"),
        (
            "--link",
            "https://sash.example/",
            "--link: 'https://sash.example/': an address with {window}",
        ),
        ("--labels", "9x9", "--labels: '9x9': on a4 paper one of 70x37, 105x57"),
    ],
)
def test_a_wrong_wish_is_refused_before_anything_is_made(
    says, demo, tmp_path, option, value, allowed
):
    code, out, err = says("pack", demo, "-o", str(tmp_path / "s"), option, value)
    assert (code, out) == (2, [])
    assert err[0].startswith(allowed)
    assert list(tmp_path.iterdir()) == []
