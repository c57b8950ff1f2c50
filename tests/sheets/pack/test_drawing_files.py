"""Every drawing as files of its own: named for its window, clean, the same bytes each time."""

from __future__ import annotations

import io
import re
from xml.etree import ElementTree as ET

import ezdxf
import pytest

from evenhung.sheets.pack.drawing_files import drawing_files

pytestmark = pytest.mark.slow  # sheets are set by the dozen, or a process is waited for


def made(house, ending):
    return {one.name: one.make() for one in drawing_files(house) if one.name.endswith(ending)}


def test_a_window_has_each_of_its_drawings_in_both_formats(house_of):
    names = [one.name for one in drawing_files(house_of("plain")) if "/W1-" in one.name]
    views = ("elevation", "jamb-right", "meeting-rails", "upper-shut", "upper-open")
    views = (*views, "lower-shut", "lower-open", "fabric")
    assert names == [f"drawings/W1-{view}.{kind}" for view in views for kind in ("svg", "dxf")]


@pytest.mark.parametrize("which", ["plain", "longest", "emptiest"])
def test_every_name_is_its_own_and_safe_on_every_system(house_of, which):
    names = [one.name for one in drawing_files(house_of(which))]
    assert len({name.lower() for name in names}) == len(names)
    for name in names:
        assert re.fullmatch(r"drawings/[A-Za-z0-9-]{1,80}\.(svg|dxf)", name), name


@pytest.mark.parametrize("which", ["plain", "emptiest"])
def test_every_exchange_file_is_audited_clean(house_of, which):
    files = made(house_of(which), ".dxf")
    assert files
    for name, data in files.items():
        audit = ezdxf.read(io.StringIO(data.decode())).audit()
        assert not audit.errors, name
        assert not audit.fixes, name


def test_every_picture_carries_its_look_and_its_words(house_of):
    for name, data in made(house_of("plain"), ".svg").items():
        svg = ET.fromstring(data)  # noqa: S314 - we wrote it
        assert float(svg.get("width")) > 100.0, name
        assert svg.find("{*}style").text.startswith(".drawing"), name
        assert svg.find("{*}title").text.startswith("W"), name


@pytest.mark.parametrize("ending", [".svg", ".dxf"])
def test_the_same_house_gives_the_same_bytes(house_of, ending):
    first = made(house_of("emptiest"), ending)
    assert first == made(house_of("emptiest"), ending)


def test_no_clock_and_no_chance_is_in_an_exchange_file(house_of):
    (data, *_) = made(house_of("emptiest"), ".dxf").values()
    lines = [line.strip() for line in data.decode().splitlines()]
    for name in ("$TDCREATE", "$TDUPDATE"):
        assert float(lines[lines.index(name) + 2]) == pytest.approx(2451545.0, abs=1.0)
    for name in ("$VERSIONGUID", "$FINGERPRINTGUID"):
        assert lines[lines.index(name) + 2] == "{00000000-0000-0000-0000-000000000000}"
