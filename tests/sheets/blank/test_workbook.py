"""The workbook: filled in and read back it is the same survey; whatever is wrong has its cell."""

from __future__ import annotations

import io
import tomllib
from datetime import date

import pytest
from openpyxl import Workbook, load_workbook

from evenhung.cli.app import run
from evenhung.errors import InvalidSurvey
from evenhung.sheets.blank.columns import forms
from evenhung.sheets.blank.reading import read_workbook
from evenhung.sheets.blank.workbook import HEAD_ROWS, blank_workbook
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

FIRST = HEAD_ROWS + 1


def tollgate():
    text = SURVEY.read_text(encoding="utf-8")
    survey = tomllib.loads(text)
    survey["booked"] = [dict(one) for one in BOOKED]
    survey["window"][1]["needed"] = [
        {"first": "2026-03-20", "last": "2026-03-22", "note": "guests"}
    ]
    survey["house"]["stock"] |= {"most_pieces": 3, "kerf": "3 mm", "ready_made": [READY_MADE]}
    survey["decision"] = [dict(one) for one in DECISIONS]
    return survey


READY_MADE = {"name": "round 7", "mass": "7 lb", "length": "16 in", "price": "9.50", "count": 4}
DECISIONS = (
    {"what": "hang", "sash": "W2 lower", "side": "left", "weight": "B", "by": "the joiner"},
    {"what": "never", "sash": "W3 lower", "weight": "A", "note": "its eye is cracked"},
    {
        "what": "hung",
        "sash": "W1 upper",
        "side": "right",
        "weight": "W1 upper right",
        "weighed": "9 lb 12 oz",
        "on": "2026-03-09",
    },
)
BOOKED = (
    {"window": "W1", "operation": "re-cord a side", "hours": 0.5, "quantity": 2, "by": "Ines"},
    {"window": "W2", "operation": "splice", "hours": 3.25, "on": "2026-03-10", "note": "sill too"},
)
OF_WINDOWS = {"Findings": "finding", "Symptoms": "symptom", "Rooms needed": "needed"}
LISTS = {
    "Make-weights": "house.stock.make_weight",
    "Bars": "house.stock.bar",
    "Ready-made weights": "house.stock.ready_made",
    "Crew": "house.price.crew",
    "Options": "house.price.option",
    "Own hours": "house.rate",
    "Material prices": "house.material",
    "Decisions": "decision",
    "Booked hours": "booked",
    "Loose weights": "weight",
}
UPRIGHT = {"Price": "house.price", "Programme": "house.programme", "House": "house"}


def taken(survey, path):
    """Take out of a survey what stands at a path."""
    *way, last = path.split(".")
    for step in way:
        survey = survey[step]
    return survey.pop(last)


@pytest.fixture(scope="module")
def made():
    return blank_workbook()


@pytest.fixture
def book(made):
    return load_workbook(io.BytesIO(made))


@pytest.fixture
def filled(filled_in):
    """Give the workbook with the demo house in it, for a test to change."""
    return load_workbook(io.BytesIO(filled_in))


@pytest.fixture(scope="module")
def filled_in(made):
    """Give the saved workbook with the demo house in it, as a person would fill it in."""
    book = load_workbook(io.BytesIO(made))
    survey = tollgate()
    for name, path in LISTS.items():
        for number, record in enumerate(taken(survey, path)):
            _fill(book[name], FIRST + number, record)
    for name, path in UPRIGHT.items():
        rows = {cell.value: cell.row for cell in book[name]["A"]}
        for field, value in _flat(taken(survey, path)):
            book[name].cell(rows[field], 2).value = _in_a_cell(value)
    for number, window in enumerate(survey["window"]):
        sashes = {place: window.pop(place) for place in ("upper", "lower") if place in window}
        for name, field in OF_WINDOWS.items():
            for record in window.pop(field, ()):
                row = next(row for row in range(FIRST, 999) if not book[name].cell(row, 1).value)
                _fill(book[name], row, {"window": window["tag"], **record})
        _fill(book["Windows"], FIRST + number, window)
        for place, sash in sashes.items():
            row = next(row for row in range(FIRST, 999) if not book["Sashes"].cell(row, 1).value)
            _fill(book["Sashes"], row, {"window": window["tag"], "place": place, **sash})
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def _fill(sheet, row, record):
    heads = {cell.value: cell.column for cell in sheet[1]}
    for path, value in _flat(record):
        sheet.cell(row, heads[path]).value = _in_a_cell(value)


def _in_a_cell(value):
    return "; ".join(value) if isinstance(value, list) else value


def _flat(record, prefix=""):
    for name, value in record.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{prefix}{name}.")
        else:
            yield f"{prefix}{name}", value


def read(book):
    data = io.BytesIO()
    book.save(data)
    return read_workbook(data.getvalue())


def refusals(book):
    with pytest.raises(InvalidSurvey) as refused:
        read(book)
    return [str(fault) for fault in refused.value.faults]


def test_a_filled_workbook_is_the_survey(filled):
    assert read(filled) == survey_from(tollgate())


def test_columns_may_stand_in_any_order(filled):
    sheet = filled["Windows"]
    sheet.move_range(f"B1:B{sheet.max_row}", cols=sheet.max_column)
    assert read(filled) == survey_from(tollgate())


def test_every_field_of_the_form_has_its_column(book):
    for form in forms():
        sheet = book[form.name]
        names = sheet["A"][1:] if form.is_upright else sheet[1]
        assert [cell.value for cell in names] == [column.path for column in form.columns]
        assert all(column.says and column.allowed for column in form.columns)


def test_choices_can_be_picked_and_hints_are_shown(book):
    rules = {
        str(rule.sqref).split(":")[0]: rule
        for rule in book["Sashes"].data_validations.dataValidation
    }
    heads = {cell.value: cell.coordinate.rstrip("1") for cell in book["Sashes"][1]}
    timber = rules[f"{heads['timber']}{FIRST}"]
    assert timber.type == "list"
    assert timber.formula1.startswith("Choices!$")
    height = rules[f"{heads['height']}{FIRST}"]
    assert "overall, horns left out" in height.prompt
    assert book["Choices"].sheet_state == "hidden"


def test_cells_keep_what_is_typed(book):
    assert book["Windows"].column_dimensions["A"].number_format == "@"


def test_the_blank_workbook_is_the_same_every_time():
    assert blank_workbook() == blank_workbook()


def test_a_blank_one_says_what_is_wanting(book):
    assert refusals(book) == ["House!B2 (name): (absent): required: what the house is called"]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("sheet", "cell", "value", "says"),
    [
        ("Sashes", "height", 838, "838: a length from 100 mm to 2.5 m, with its unit, as text"),
        ("Sashes", "height", "838", "'838': add a unit: 838 mm or 838 in"),
        ("Sashes", "height", "=A1", "'=A1': a value, not a formula"),
        ("Sashes", "height", date(2026, 3, 9), "a text: the program of tables made a date"),
        ("Sashes", "panes.across", "many", "'many': whole number, 1 to 12, in figures"),
        ("Sashes", "panes.across", 2.5, "2.5: a whole number"),
        ("Sashes", "window", "W99", "'W99': the tag of a window of the sheet Windows: W1, W2"),
        ("Sashes", "place", "middle", "'middle': upper or lower"),
        ("Sashes", "timber", "scotch mist", "a timber of the reference: one of"),
        ("Windows", "tag", 7, "7: text, as text: format the cell as text and type it again"),
        ("Windows", "pulley.friction", "0,15", "'0,15': number, 0 to 1, in figures, such as 0.15"),
        ("Windows", "box.clear_width", "90 m", "'90 m': a length from 150 mm to 3 m"),
        ("Loose weights", "metal", "gold", "'gold': one of"),
        ("Make-weights", "mass", "1/4", "'1/4': add a unit: "),
        ("Bars", "metal", "gold", "'gold': one of"),
        (
            "Bars",
            "price",
            16.5,
            "16.5: an amount in figures, such as 2.40, as text: format the cell",
        ),
        ("Bars", "length", "12 m", "'12 m': a length from 100 mm to 10 m"),
        ("Ready-made weights", "count", "some", "'some': whole number, 0 to 10000, in figures"),
        ("Findings", "window", "W99", "'W99': the tag of a window of the sheet Windows: W1, W2"),
        ("Findings", "part", "left gizmo", "'left gizmo': one of"),
        ("Findings", "seen", "seized", "seized: of left staff bead: one of sound, rot, split"),
        ("Findings", "length", 95, "95: a length from 1 mm to 5 m, with its unit, as text"),
        ("Findings", "length", "95", "'95': add a unit: 95 mm or 95 in"),
        ("Findings", "moisture_pct", "wet", "'wet': number, 0 to 100, in figures"),
        ("Findings", "historic", "yes", "yes: nothing, for left staff bead has none"),
        ("Symptoms", "what", "squeaks", "'squeaks': did you mean 'sweats'? one of"),
        ("Symptoms", "window", None, "'(empty)': the tag of a window of the sheet Windows"),
        ("Decisions", "what", "perhaps", "'perhaps': one of"),
        ("Decisions", "sash", "W99 upper", "'W99 upper': "),
        ("Decisions", "weight", "Z", "'Z': "),
        ("Decisions", "on", date(2026, 3, 9), "a text: the program of tables made a date"),
        ("Decisions", "added", "1 lb", '1 lb: nothing, unless what is "hung"'),
        ("Crew", "rate", "a lot", "'a lot': an amount in figures"),
        ("Crew", "who", None, "(absent): required: what they are"),
        ("Options", "operation", "rehnag", "'rehnag': an operation: one of"),
        ("Options", "price", "12.00", "12.00: either a price or an operation"),
        ("Own hours", "operation", "rehnag", "'rehnag': an operation: one of"),
        ("Own hours", "hours", "two", "'two': number, 0.01 to 1000, in figures"),
        ("Own hours", "hours.most", 9999, "9999: at most 1000"),
        ("Material prices", "per", "yard", "'yard': one of"),
        ("Material prices", "price", 2.4, "2.4: an amount in figures, such as 2.40, as text"),
        ("Booked hours", "window", "W99", "'W99': "),
        ("Booked hours", "on", "9.3.2026", "'9.3.2026': a day, year first"),
        ("Rooms needed", "last", "2020-01-01", "'2020-01-01': a day not before the first"),
        ("Rooms needed", "window", "W99", "'W99': the tag of a window of the sheet Windows"),
    ],
)
def test_a_wrong_cell_is_named(filled, sheet, cell, value, says):
    heads = {head.value: head.coordinate.rstrip("1") for head in filled[sheet][1]}
    where = f"{heads[cell]}{FIRST}"
    filled[sheet][where].value = value
    found = [line for line in refusals(filled) if line.startswith(f"{sheet}!{where}")]
    assert found
    assert says in found[0]


def test_a_field_that_is_wanting_is_named_by_its_cell(filled):
    heads = {head.value: head.coordinate.rstrip("1") for head in filled["Sashes"][1]}
    where = f"{heads['height']}{FIRST}"
    filled["Sashes"][where].value = None
    assert refusals(filled) == [
        f"Sashes!{where} (height): (absent): required: overall, horns left out (window W1)"
    ]


@pytest.mark.parametrize("name", ["Sashes", "Findings", "Symptoms", "Rooms needed"])
def test_a_space_that_nobody_sees_tells_no_windows_apart(filled, name):
    """A no-break space comes with a tag that was pasted."""
    cell = filled[name].cell(FIRST, 1)
    whole = read(filled)
    cell.value = f"{cell.value}\N{NO-BREAK SPACE}"
    assert read(filled) == whole


def test_a_sash_is_not_taken_twice(filled):
    filled["Sashes"].cell(FIRST + 1, 2).value = "upper"
    assert any("each sash of a window once" in line for line in refusals(filled))


def test_a_range_beside_a_single_value_is_refused(filled):
    heads = {head.value: head.column for head in filled["Sashes"][1]}
    filled["Sashes"].cell(FIRST, heads["slide_friction"]).value = "10 N"
    assert any("only one of the two can stand" in line for line in refusals(filled))


def test_an_unknown_column_is_refused_with_the_nearest(filled):
    sheet = filled["Windows"]
    sheet.cell(1, sheet.max_column + 1).value = "box.clear_widht"
    (line,) = refusals(filled)
    assert line.endswith("'box.clear_widht': the name of a field; nearest is 'box.clear_width'")


def test_what_is_typed_under_no_name_is_not_lost_in_silence(filled):
    sheet = filled["Windows"]
    sheet.cell(FIRST, sheet.max_column + 1).value = "half a thought"
    assert any("the name of a field above what is filled in" in line for line in refusals(filled))


def test_a_sheet_that_is_wanting_is_named(filled):
    del filled["Sashes"]
    assert any(line.startswith("Sashes: ") for line in refusals(filled))


@pytest.mark.slow
@pytest.mark.parametrize("name", [*LISTS, *OF_WINDOWS, "Price", "Programme"])
def test_a_workbook_from_before_a_sheet_was_added_is_still_read(filled, name):
    survey = tollgate()
    for gone in {name, "Decisions"}:  # decisions name weights that may be gone
        del filled[gone]
    if name in OF_WINDOWS:
        for window in survey["window"]:
            window.pop(OF_WINDOWS[name], None)
    elif name == "Price":
        survey["house"]["price"] = {part: survey["house"]["price"][part] for part in PARTS_OF_PRICE}
    else:
        taken(survey, (LISTS | UPRIGHT)[name])
    survey.pop("decision", None)
    assert read(filled) == survey_from(survey)


PARTS_OF_PRICE = ("crew", "option")
"""What a price has on sheets of their own."""


def test_what_a_decision_wants_is_named_by_its_cell(filled):
    heads = {head.value: head.coordinate.rstrip("1") for head in filled["Decisions"][1]}
    where = f"{heads['side']}{FIRST}"
    filled["Decisions"][where].value = None
    (line,) = refusals(filled)
    assert line.startswith(
        f'Decisions!{where} (side): (absent): left or right, where what is "hang"'
    )


def test_all_faults_are_told_at_once(filled):
    heads = {head.value: head.column for head in filled["Sashes"][1]}
    for row in (FIRST, FIRST + 1):
        filled["Sashes"].cell(row, heads["width"]).value = "wide"
    assert len(refusals(filled)) == 2


@pytest.mark.parametrize("data", [b"", b"not a workbook", b"PK\x05\x06" + bytes(18)])
def test_what_is_no_workbook_is_one_line(data):
    with pytest.raises(InvalidSurvey, match=r"^file: \(no workbook\): a workbook") as refused:
        read_workbook(data)
    assert len(refused.value.faults) == 1


def test_another_workbook_is_told_what_is_wanting():
    other = Workbook()
    said = refusals(other)
    assert any(line.startswith("Windows: ") for line in said)


@pytest.mark.slow
def test_the_commands(tmp_path, filled, capsys):
    assert run(["blank", "-o", str(tmp_path / "forms")]) == 0
    assert (tmp_path / "forms" / "survey.xlsx").read_bytes() == blank_workbook()
    assert (tmp_path / "forms" / "survey-forms.pdf").read_bytes().startswith(b"%PDF")
    assert run(["blank", "-o", str(tmp_path / "forms")]) == 2
    filled.save(tmp_path / "house.xlsx")
    out = tmp_path / "house.toml"
    assert run(["read", str(tmp_path / "house.xlsx"), "-o", str(out)]) == 0
    assert survey_from(tomllib.loads(out.read_text())) == survey_from(tollgate())
    assert run(["read", str(tmp_path / "house.xlsx"), "-o", str(out)]) == 2
    capsys.readouterr()
    assert run(["read", str(tmp_path / "house.xlsx"), "--json"]) == 0
    assert '"form": 1' in capsys.readouterr().out
    assert run(["read", str(tmp_path / "no.xlsx")]) == 2
    assert "a workbook that can be read" in capsys.readouterr().err
