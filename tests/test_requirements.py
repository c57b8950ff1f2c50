"""The requirements: what is locked, how, and that the other places that name it agree."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.mark.parametrize("lock", ["run.txt", "dev.txt", "bench.txt"])
def test_a_lock_pins_every_package_by_hash_and_names_no_place(lock):
    text = (ROOT / "requirements" / lock).read_text()
    assert "://" not in text
    assert "--find" not in text
    packages = [line for line in text.splitlines() if line and line[0] not in " #"]
    entries = text.replace("\\\n", "").splitlines()
    hashed = [line for line in entries if "==" in line and "--hash=sha256:" in line]
    assert len(packages) == len(hashed) > 0


@pytest.mark.parametrize("other", ["dev.txt", "bench.txt"])
def test_the_locks_agree(other):
    def pins(lock: str) -> dict[str, str]:
        lines = (ROOT / "requirements" / lock).read_text().splitlines()
        return dict(line.split(" ")[0].split("==") for line in lines if "==" in line)

    run, dev = pins("run.txt"), pins(other)
    assert {name: dev[name] for name in run.keys() & dev.keys()} == {
        name: run[name] for name in run.keys() & dev.keys()
    }


def test_every_dependency_has_a_line_that_justifies_it():
    listed = [
        line
        for name in ("run.in", "dev.in", "bench.in")
        for line in (ROOT / "requirements" / name).read_text().splitlines()
        if line and line[0] not in "#-"
    ]
    lines = (ROOT / "docs" / "dependencies.md").read_text().splitlines()
    justified = [line.split("**")[1] for line in lines if line.startswith("- **")]
    assert sorted(justified) == sorted(re.split(r"[<>=[]", line)[0] for line in listed)


def test_the_package_asks_for_what_is_locked():
    asked = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["dependencies"]
    lines = (ROOT / "requirements" / "run.in").read_text().splitlines()
    assert sorted(asked) == sorted(line for line in lines if line and line[0] != "#")
