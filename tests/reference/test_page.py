"""The page of reference values is what its tool writes."""

import importlib.util
from pathlib import Path

import pytest

from evenhung.reference import SUBJECTS, rows, sources

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def tool():
    spec = importlib.util.spec_from_file_location(
        "write_reference_page", ROOT / "tools" / "write_reference_page.py"
    )
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_page_is_up_to_date(tool):
    written = (ROOT / "docs" / "reference-values.md").read_text(encoding="utf-8")
    assert written == tool.page(), "run: python tools/write_reference_page.py"


def test_every_row_and_every_source_is_on_it(tool):
    page = tool.page()
    assert page.count("\n| ") == sum(len(rows(subject)) + 2 for subject in SUBJECTS) + 2 + len(
        sources()
    )
    assert page.count("kept beside") == 1 + sum(
        not row.chosen for subject in SUBJECTS for row in rows(subject)
    )


def test_a_printed_unit_is_shown_beside_ours(tool):
    page = tool.page()
    assert "| cast iron | density | 451 lb/ft3 | 7224.3 kg/m3 |" in page
    assert "| running clearance | each_side | 1/16 in | 1.5875 mm | 0.02 in |" in page


def test_main_writes_the_file(tool, tmp_path, monkeypatch):
    monkeypatch.setattr(tool, "PAGE", tmp_path / "page.md")
    tool.main()
    assert (tmp_path / "page.md").read_text(encoding="utf-8") == tool.page()


def test_a_bar_in_a_cell_does_not_break_the_table(tool):
    assert tool.table(("a", "b"), [("x|y", "z")]).splitlines()[2] == "| x\\|y | z |"
