"""The JSON Schema of the form: sound, and of one mind with the reader; and the form as a table."""

from __future__ import annotations

import copy
import json

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from evenhung.survey.document import Survey
from evenhung.survey.fields import Entry, Record
from evenhung.survey.schema import DIALECT, absence, form_rows, json_schema


@pytest.fixture(scope="session")
def validator():
    """What checks a document against the schema as a program of anyone else's would."""
    return jsonschema.Draft202012Validator(json.loads(json.dumps(json_schema())))


def test_the_schema_is_a_sound_one_of_its_dialect():
    schema = json_schema()
    assert schema["$schema"] == DIALECT
    jsonschema.Draft202012Validator.check_schema(schema)


def test_every_reference_in_the_schema_leads_to_a_part_of_it():
    schema = json_schema()
    names = {line.partition('"')[0] for line in json.dumps(schema).split("#/$defs/")[1:]}
    assert names == set(schema["$defs"])
    assert all(part["type"] == "object" for part in schema["$defs"].values())


def test_the_schema_accepts_the_demo_house(validator, tollgate):
    validator.validate(tollgate)


@settings(deadline=None, max_examples=50, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_the_schema_accepts_whatever_the_reader_does(validator, surveys, data):
    validator.validate(data.draw(surveys))


BAD = [
    (("form",), 2),
    (("form",), "1"),
    (("house",), ...),
    (("house", "name"), ""),
    (("house", "name"), " "),
    (("house", "name"), "a\nb"),
    (("house", "name"), "n" * 2001),
    (("house", "note"), "\x07"),
    (("house", "hose"), 1),
    (("house", "cord", "stretch_pct"), "1 %"),
    (("house", "cord", "stretch_pct"), 11),
    (("window",), {}),
    (("window", 0, "tag"), ...),
    (("window", 0, "upper", "height"), 840),
    (("window", 0, "upper", "height"), "8" * 41),
    (("window", 0, "upper", "runs"), True),
    (("window", 0, "upper", "panes"), {"across": 2}),
    (("window", 0, "upper", "nails"), {"count": 13}),
    (("window", 0, "upper", "slide_friction"), {"least": "4 N"}),
    (("window", 0, "upper", "slide_friction"), 10),
    (("window", 0, "upper", "readings"), {"raising": []}),
    (("window", 0, "upper", "readings"), {"raising": ["9 N"] * 10}),
]


@pytest.mark.parametrize(("place", "value"), BAD, ids=range(len(BAD)))
def test_the_schema_refuses_what_the_reader_does(validator, refused, tollgate, place, value):
    document = copy.deepcopy(tollgate)
    *way, last = place
    part = document
    for step in way:
        part = part[step]
    if value is ...:
        del part[last]
    else:
        part[last] = value
    assert not validator.is_valid(document)
    if place != ("form",):
        assert refused(document)


def test_a_range_of_a_quantity_is_told_in_words_and_examples():
    field = json_schema()["$defs"]["Box"]["properties"]["clear_width"]
    assert field["$comment"] == "a length from 150 mm to 3 m"
    assert '33½"' in field["examples"]
    assert field["description"] == "between the pulley stiles; required"


def test_the_table_has_every_field_of_every_record_once():
    rows = list(form_rows())
    places = [(row.record, row.field) for row in rows]
    assert len(places) == len(set(places))
    kinds, waiting = set(), [Survey]
    while waiting:
        kind = waiting.pop()
        if kind not in kinds:
            kinds.add(kind)
            waiting += [entry.part for entry in kind.entries.values() if entry.part]
    assert set(places) == {(kind.__name__, name) for kind in kinds for name in kind.entries}
    assert all(row.holds and row.says and row.absent for row in rows)


@pytest.mark.parametrize(
    ("record", "field", "holds"),
    [
        ("Survey", "form", "whole number, 1 to 1"),
        ("Survey", "window", "list: table: Window"),
        ("House", "name", "text"),
        ("House", "shown_in", '"imperial" or "metric"'),
        ("Cord", "stretch_pct", "number, 0 to 10"),
        ("Box", "clear_width", "a length from 150 mm to 3 m"),
        ("Sash", "slide_friction", "table: FrictionRange or a force from 0 N to 1000 N"),
        ("Readings", "raising", "list: a force from 0 N to 2000 N"),
    ],
)
def test_the_table_says_what_a_field_holds(record, field, holds):
    (row,) = [row for row in form_rows() if (row.record, row.field) == (record, field)]
    assert row.holds == holds


def test_absence_is_told_for_each_sort_of_field():
    def entry(absent, row=""):
        return Entry({}, "something", absent, row, None, None)

    assert absence(entry("")) == "required"
    assert absence(entry("assumed", "glass/a/b")) == "if absent: assumed, glass/a/b"
    assert absence(entry("softwood")) == "if absent: softwood"


def test_a_table_that_names_no_record_is_a_fault_of_the_declaration(monkeypatch):
    stray = Entry({"type": "typed-dict"}, "stray", "", "", None, None)
    monkeypatch.setattr(Survey, "entries", {"stray": stray})
    with pytest.raises(LookupError, match=r"^a field holds a table of keys but names no record$"):
        json_schema()
    assert issubclass(Survey, Record)
