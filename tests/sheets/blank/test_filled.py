"""A survey written into the workbook is read back as it was: every field of the form is carried."""

from __future__ import annotations

import io
import json
import math
import tomllib

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from evenhung.cli.app import run
from evenhung.errors import InvalidSurvey
from evenhung.reference import keys
from evenhung.sheets.blank.columns import forms
from evenhung.sheets.blank.filled import LONGEST_TEXT, filled_workbook
from evenhung.sheets.blank.reading import read_workbook
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from
from evenhung.survey.document import Survey

from ...survey.conftest import mended, records

HOUSE = {"name": "Alder Row"}
FIRST_TWO = keys("labour")[:2]


def again(document):
    return read_workbook(filled_workbook(survey_from(document)))


def alder_row(**house):
    return {"form": 1, "house": HOUSE | house}


def test_the_demo_house_comes_back_as_it_was():
    survey = survey_from(tomllib.loads(SURVEY.read_text(encoding="utf-8")))
    back = read_workbook(filled_workbook(survey))
    assert back == survey
    assert told(back.as_typed()) == told(survey.as_typed())


def places(kind, way=""):
    """Every field of the form that holds a value: the path to it, of lists their own."""
    for name, entry in kind.entries.items():
        here = f"{way}.{name}".lstrip(".")
        if entry.part is None or entry.schema["type"] == "tagged-union":
            yield here
        if entry.part is not None:
            yield from places(entry.part, here)


def test_every_field_of_the_form_has_a_cell():
    carried = set()
    for form in forms():
        ways = [form.upright_path or form.list_path]
        if not ways[0]:
            fields = [form.in_window] if form.in_window else ["upper", "lower"]
            ways = [f"window.{field}" for field in fields]
        carried |= {f"{way}.{column.path}" for way in ways for column in form.columns}
    assert set(places(Survey)) - carried == {"form"}


SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]


@pytest.mark.slow
@settings(deadline=None, max_examples=25, phases=[Phase.generate], suppress_health_check=SLOW)
@given(st.data())
def test_any_survey_comes_back_as_it_was(data):
    document = data.draw(records(Survey).map(mended))
    back = again(document)
    assert alike(bared(back.as_typed()), bared(document)), (told(document), told(back.as_typed()))


def bared(held):
    """Leave out what the workbook does not carry: tables and lists with nothing in them."""
    if isinstance(held, dict):
        inside = {name: bared(value) for name, value in held.items()}
        return {name: value for name, value in inside.items() if value not in ({}, [])}
    return [bared(one) for one in held] if isinstance(held, list) else held


def told(document):
    """Tell a survey with its keys in no order."""
    return json.dumps(document, sort_keys=True)


def alike(one, other):
    """Compare two surveys, their numbers to fifteen figures."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(alike(one[name], other[name]) for name in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, int | float) and isinstance(other, int | float):
        return math.isclose(one, other, rel_tol=1e-14)
    return one == other


@pytest.mark.parametrize(
    "note",
    [
        "=1+1",
        "#N/A",
        "1/2",
        "007",
        " measured twice \n\tonce by torch\n",
        "typed elsewhere\r\nwith other line ends\r",
        "_x000D_ is no carriage return",
        "a & b < c > 'd' \"e\"",
        "窓 · ½ · \N{SNOWFLAKE}\N{GRINNING FACE}",
        "a noncharacter \ufffe",
    ],
)
def test_a_text_comes_back_letter_by_letter(note):
    assert again(alder_row(note=note)).house.note == note


@pytest.mark.parametrize(
    "exclusions",
    [
        ["scaffolding", "skips"],
        ["scaffolding; towers", "skips"],
        ["one; two"],
        [" with blanks about it ", "skips"],
        ["_x003B_", "a\N{NO-BREAK SPACE}"],
    ],
)
def test_a_list_comes_back_item_by_item(exclusions):
    back = again(alder_row(price={"exclusions": exclusions}))
    assert back.house.price.exclusions == tuple(exclusions)


def test_a_list_too_long_for_a_cell_is_refused_and_not_cut():
    exclusions = [f"{number} {'x' * 1990}" for number in range(20)]
    with pytest.raises(InvalidSurvey) as refused:
        filled_workbook(survey_from(alder_row(price={"exclusions": exclusions})))
    (fault,) = refused.value.faults
    assert str(fault).startswith("house.price.exclusions: (")
    assert f"at most {LONGEST_TEXT} letters" in str(fault)


def test_hours_of_one_value_and_of_three_both_come_back():
    rates = [
        {"operation": FIRST_TWO[0], "hours": 2},
        {"operation": FIRST_TWO[1], "hours": {"least": 1, "likely": 2.5, "most": 4}},
    ]
    assert again(alder_row(rate=rates)).as_typed()["house"]["rate"] == rates


def test_the_same_survey_is_the_same_workbook():
    survey = survey_from(tomllib.loads(SURVEY.read_text(encoding="utf-8")))
    assert filled_workbook(survey) == filled_workbook(survey)


def test_what_the_app_gives_is_kept_out_of_sight():
    book = load_workbook(io.BytesIO(filled_workbook(survey_from(alder_row()))))
    heads = {cell.value: cell.column_letter for cell in book["Windows"][1]}
    assert book["Windows"].column_dimensions[heads["id"]].hidden
    assert not book["Windows"].column_dimensions[heads["tag"]].hidden


def test_the_command_fills_in_a_survey(tmp_path, capsys):
    house = tmp_path / "house.toml"
    house.write_bytes(SURVEY.read_bytes())
    assert run(["blank", "-o", str(tmp_path / "forms"), "--filled", str(house)]) == 0
    out = tmp_path / "again.toml"
    assert run(["read", str(tmp_path / "forms" / "survey.xlsx"), "-o", str(out)]) == 0
    assert tomllib.loads(out.read_text()) == tomllib.loads(house.read_text())
    assert run(["blank", "-o", str(tmp_path / "other"), "--filled", str(tmp_path / "no.toml")]) == 2
    assert "a survey that can be read" in capsys.readouterr().err
    assert not (tmp_path / "other").exists()
