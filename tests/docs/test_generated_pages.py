"""Each generated page is what its tool writes, and leaves nothing out."""

import json
import re

import jsonschema
import pytest

from evenhung.plan.catalogue import ENTRIES
from evenhung.survey.schema import form_rows

PAGES = [
    ("write_form_page", "PAGE", "page", "docs/survey-form.md"),
    ("write_form_page", "SCHEMA", "schema", "docs/survey-form.schema.json"),
    ("write_notes_page", "PAGE", "page", "docs/note-codes.md"),
    ("write_cli_page", "PAGE", "page", "docs/command-line.md"),
]


@pytest.mark.parametrize(("name", "place", "write", "path"), PAGES, ids=[row[3] for row in PAGES])
def test_the_page_is_up_to_date(tool, root, name, place, write, path):
    module = tool(name)
    assert getattr(module, place) == root / path
    written = (root / path).read_text(encoding="utf-8")
    assert written == getattr(module, write)(), f"run: python -m tools.{name}"


@pytest.mark.parametrize("name", ["write_form_page", "write_notes_page", "write_cli_page"])
def test_main_writes_what_the_page_should_be(tool, tmp_path, monkeypatch, name):
    module = tool(name)
    places = {"PAGE": "page", "SCHEMA": "schema"}
    for place, write in places.items():
        if hasattr(module, place):
            monkeypatch.setattr(module, place, tmp_path / write)
    module.main()
    for place, write in places.items():
        if hasattr(module, place):
            assert (tmp_path / write).read_text(encoding="utf-8") == getattr(module, write)()


def test_every_note_is_on_its_page_once(tool):
    found = re.findall(r"^\| `([a-z-]+)` \|", tool("write_notes_page").page(), re.MULTILINE)
    assert sorted(found) == sorted(ENTRIES)


def test_a_severity_without_a_section_is_refused(tool, monkeypatch):
    module = tool("write_notes_page")
    monkeypatch.delitem(module.MEANING, "info")
    with pytest.raises(LookupError, match="severities"):
        module.page()


def test_every_field_of_the_form_is_on_its_page(tool):
    page = tool("write_form_page").page()
    sections = dict(re.findall(r"^## (\w+)\n(.*?)(?=^## |\Z)", page, re.MULTILINE | re.DOTALL))
    for row in form_rows():
        assert f"| `{row.field}` |" in sections[row.record]
        assert row.says in sections[row.record]


def test_every_link_within_the_form_page_leads_to_a_section(tool):
    page = tool("write_form_page").page()
    targets = set(re.findall(r"\]\(#(\w+)\)", page))
    sections = {name.lower() for name in re.findall(r"^## (\w+)$", page, re.MULTILINE)}
    assert len(targets) > 10
    assert targets <= sections


def test_the_published_schema_is_a_schema(root):
    schema = json.loads((root / "docs/survey-form.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["required"] == ["form", "house"]


def test_every_command_has_a_section_with_its_own_help(tool, root):
    module = tool("write_cli_page")
    page = module.page()
    files = (root / "src/evenhung/cli").glob("*.py")
    commands = {file.stem for file in files if "EXAMPLES = " in file.read_text(encoding="utf-8")}
    sections = re.findall(r"^## evenhung (\w+)$", page, re.MULTILINE)
    assert set(sections) == commands
    for command in sections:
        assert f"Usage: evenhung {command} " in page


def test_help_is_the_same_on_a_wide_terminal_and_fits_a_narrow_one(tool, monkeypatch):
    module = tool("write_cli_page")
    usual = module.help_of("plan")
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert module.help_of("plan") == usual
    assert max(len(line) for line in usual.splitlines()) <= module.COLUMNS


def test_a_command_that_is_not_there_has_no_help(tool):
    with pytest.raises(RuntimeError, match="evenhung wash --help"):
        tool("write_cli_page").help_of("wash")
