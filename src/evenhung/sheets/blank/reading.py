"""From a filled-in workbook to a survey, or to every fault in it by its cell."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

from openpyxl import load_workbook
from openpyxl.utils import get_column_letter
from openpyxl.utils.exceptions import InvalidFileException

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.sheets.blank.columns import forms
from evenhung.sheets.blank.workbook import HEAD_ROWS
from evenhung.survey import survey_from
from evenhung.survey.document import FORM
from evenhung.survey.faults import shown
from evenhung.survey.nearest import nearest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

    from evenhung.sheets.blank.columns import Column, Form, TableName
    from evenhung.survey import Survey

MOST_BYTES = 20_000_000
MOST_UNPACKED = 100_000_000
MOST_ROWS = 20_000
"""More than a survey of ten thousand windows has."""


class Entered(NamedTuple):
    """One row that was filled in."""

    form: Form
    row: int
    values: dict[str, Any]
    """By the path of the column."""
    cells: dict[str, str]
    """Where every column of the row stands, filled in or not."""


class Reader:
    """Reads one workbook and keeps what is wrong with it."""

    def __init__(self) -> None:
        self.faults: list[SurveyFault] = []
        self.records: dict[str, Entered] = {}
        """What was filled in, by the path of its record in the survey."""

    def refuse(self, cell: str, value: object, allowed: str) -> None:
        """Keep a fault."""
        self.faults.append(SurveyFault(cell, shown(value), allowed))


def read_workbook(data: bytes) -> Survey:
    """Read a filled-in workbook.

    Parameters
    ----------
    data
        What the file holds.

    Returns
    -------
    Survey
        The survey, every quantity as typed.

    Raises
    ------
    InvalidSurvey
        With every fault found: in which cell, what was found, what is allowed.
    """
    reader = Reader()
    book = _opened(data)
    tables: dict[TableName, list[Entered]] = {
        form.name: list(_rows(reader, book, form)) for form in forms()
    }
    document = _document(reader, tables)
    try:
        survey = survey_from(document)
    except InvalidSurvey as refusal:
        reader.faults += [_by_cell(fault, reader.records) for fault in refusal.faults]
    if reader.faults:
        raise InvalidSurvey(tuple(dict.fromkeys(reader.faults)))
    return survey


def _opened(data: bytes) -> Any:  # noqa: ANN401 - openpyxl ships no types
    """Open a workbook; anything else is refused in one line."""
    if len(data) > MOST_BYTES:
        raise _unreadable("(too large)", f"at most {MOST_BYTES} bytes")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            if sum(one.file_size for one in packed.infolist()) > MOST_UNPACKED:
                raise _unreadable("(too large)", f"at most {MOST_UNPACKED} bytes unpacked")
        return load_workbook(io.BytesIO(data))
    except (zipfile.BadZipFile, InvalidFileException, KeyError, ValueError, SyntaxError) as error:
        if isinstance(error, InvalidSurvey):
            raise
        raise _unreadable("(no workbook)", "a workbook, .xlsx, made by `evenhung blank`") from None


def _unreadable(value: str, allowed: str) -> InvalidSurvey:
    return InvalidSurvey((SurveyFault("file", value, allowed),))


def _rows(reader: Reader, book: Any, form: Form) -> Iterator[Entered]:  # noqa: ANN401 - untyped
    """Give the rows of a table that were filled in."""
    if form.name not in book.sheetnames:
        if form.is_needed:
            names = ", ".join(one.name for one in forms() if one.is_needed)
            reader.refuse(
                form.name, "(absent)", f"a sheet of this name; the sheets wanted are {names}"
            )
        return
    sheet = book[form.name]
    if sheet.max_row > MOST_ROWS:
        reader.refuse(form.name, sheet.max_row, f"at most {MOST_ROWS} rows")
        return
    if form.is_upright:
        yield _upright(reader, sheet, form)
        return
    headed = _headed(reader, sheet, form)
    for row in range(HEAD_ROWS + 1, sheet.max_row + 1):
        given = {path: sheet.cell(row, number) for path, number in headed.items()}
        entered = _entered(reader, sheet, form, row, given)
        if entered.values:
            yield entered


def _headed(reader: Reader, sheet: Worksheet, form: Form) -> dict[str, int]:
    """Find the columns by their names, whatever their order."""
    headed: dict[str, int] = {}
    known = [column.path for column in form.columns]
    for number in range(1, sheet.max_column + 1):
        name = sheet.cell(1, number).value
        where = f"{form.name}!{get_column_letter(number)}1"
        if name is None:
            filled = [sheet.cell(row, number).value for row in range(2, sheet.max_row + 1)]
            if any(value is not None for value in filled):
                reader.refuse(where, "(empty)", "the name of a field above what is filled in")
        elif name not in known:
            near = nearest(str(name), known)
            hint = f"; nearest is {near!r}" if near else ""
            reader.refuse(where, name, f"the name of a field{hint}")
        elif name in headed:
            reader.refuse(where, name, "each field once")
        else:
            headed[name] = number
    return headed


def _upright(reader: Reader, sheet: Worksheet, form: Form) -> Entered:
    given: dict[str, Cell] = {}
    known = [column.path for column in form.columns]
    for row in range(2, sheet.max_row + 1):
        name = sheet.cell(row, 1).value
        if name in known:
            given[name] = sheet.cell(row, 2)
        elif name is not None or sheet.cell(row, 2).value is not None:
            near = nearest(str(name), known)
            hint = f"; nearest is {near!r}" if near else ""
            reader.refuse(f"{form.name}!A{row}", name, f"the name of a field{hint}")
    return _entered(reader, sheet, form, 0, given)


def _entered(
    reader: Reader, sheet: Worksheet, form: Form, row: int, given: dict[str, Cell]
) -> Entered:
    values, cells = {}, {}
    for path, cell in given.items():
        cells[path] = f"{sheet.title}!{cell.coordinate}"
        column = form.column(path)
        if column is None or cell.value is None:
            continue
        value = _value(reader, cells[path], cell, column)
        if value is not None:
            values[path] = value
    return Entered(form, row, values, cells)


def _value(reader: Reader, where: str, cell: Cell, column: Column) -> Any:  # noqa: ANN401 - a cell's
    """Give what a cell holds as the form wants it; None where it is empty or refused."""
    value = cell.value
    if cell.data_type in ("f", "e") or cell.is_date:
        what = {"f": "a value, not a formula", "e": "a value, not an error"}
        date = "a text: the program of tables made a date of it; format the cell as text"
        reader.refuse(where, str(value), what.get(cell.data_type, date))
        return None
    if isinstance(value, str) and not value.strip():
        return None
    if column.holds in ("count", "number"):
        return _number(reader, where, value, column)
    if not isinstance(value, str):
        wanted = f"{column.allowed}, as text: format the cell as text and type it again"
        reader.refuse(where, value, wanted)
        return None
    if column.holds == "list":
        return [one.strip() for one in value.split(";") if one.strip()]
    return value


def _number(reader: Reader, where: str, value: object, column: Column) -> float | None:
    """Give a number, also where the cell holds its figures as text."""
    if isinstance(value, str) and re.fullmatch(r"\s*[0-9]+(\.[0-9]+)?\s*", value, re.ASCII):
        value = float(value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        reader.refuse(where, value, f"{column.allowed}, in figures, such as 0.15")
        return None
    return int(value) if column.holds == "count" and value == int(value) else value


def _document(reader: Reader, tables: dict[TableName, list[Entered]]) -> dict[str, Any]:
    """Put the rows together as the survey has them."""
    houses = tables["House"]
    document: dict[str, Any] = {"form": FORM, "house": _nested(houses[0].values) if houses else {}}
    if houses:
        reader.records["house"] = houses[0]
    windows: dict[str, dict[str, Any]] = {}
    places: dict[str, int] = {}
    document["window"] = []
    for number, entered in enumerate(tables["Windows"]):
        record = _nested(entered.values)
        document["window"].append(record)
        reader.records[f"window[{number}]"] = entered
        tag = record.get("tag")
        if isinstance(tag, str) and tag not in windows:
            windows[tag], places[tag] = record, number
    for entered in tables["Sashes"]:
        _put_sash(reader, entered, windows, places)
    for form in forms():
        for entered in tables[form.name] if form.in_window else ():
            _put_in_window(reader, entered, windows, places)
        if form.list_path:
            _put_list(reader, document, form.list_path, tables[form.name])
    return document


def _put_list(reader: Reader, document: dict[str, Any], path: str, rows: list[Entered]) -> None:
    """Put the rows of a table where the survey has a list of them; none where it has none."""
    if not rows:
        return
    *parts, last = path.split(".")
    table = document
    for part in parts:
        table = table.setdefault(part, {})
    table[last] = [_nested(entered.values) for entered in rows]
    for number, entered in enumerate(rows):
        reader.records[f"{path}[{number}]"] = entered


def _put_in_window(
    reader: Reader,
    entered: Entered,
    windows: dict[str, dict[str, Any]],
    places: dict[str, int],
) -> None:
    """Put a finding or a symptom into the list of its window, in the order of the sheet."""
    tag = _window_of(reader, entered, windows)
    if tag is None:
        return
    field = entered.form.in_window
    fields = {path: value for path, value in entered.values.items() if path != "window"}
    found = windows[tag].setdefault(field, [])
    reader.records[f"window[{places[tag]}].{field}[{len(found)}]"] = entered
    found.append(_nested(fields))


def _window_of(reader: Reader, entered: Entered, windows: dict[str, dict[str, Any]]) -> str | None:
    """Give the tag of the window that a row names; None where there is none, which is refused."""
    tag = entered.values.get("window")
    if isinstance(tag, str) and tag in windows:
        return tag
    where = entered.cells.get("window", f"{entered.form.name} row {entered.row}")
    known = ", ".join(list(windows)[:4]) or "there is none"
    reader.refuse(where, tag or "(empty)", f"the tag of a window of the sheet Windows: {known}")
    return None


def _put_sash(
    reader: Reader,
    entered: Entered,
    windows: dict[str, dict[str, Any]],
    places: dict[str, int],
) -> None:
    """Put a sash into its window."""
    tag, place = _window_of(reader, entered, windows), entered.values.get("place")
    if tag is None:
        return
    where = entered.cells["window"]
    if place not in ("upper", "lower"):
        reader.refuse(entered.cells.get("place", where), place or "(empty)", "upper or lower")
        return
    if place in windows[tag]:
        reader.refuse(where, f"{tag} {place}", "each sash of a window once")
        return
    fields = {path: value for path, value in entered.values.items() if path not in _OURS}
    for path in [one for one in fields if any(other.startswith(f"{one}.") for other in fields)]:
        allowed = "empty: it is stated in parts as well, and only one of the two can stand"
        reader.refuse(entered.cells[path], fields.pop(path), allowed)
    windows[tag][place] = _nested(fields)
    reader.records[f"window[{places[tag]}].{place}"] = entered


_OURS = ("window", "place")


def _nested(values: dict[str, Any]) -> dict[str, Any]:
    """Put fields by their paths into tables within tables."""
    record: dict[str, Any] = {}
    for path, value in values.items():
        *parts, last = path.split(".")
        table = record
        for part in parts:
            table = table.setdefault(part, {})
        table[last] = value
    return record


def _by_cell(fault: SurveyFault, records: dict[str, Entered]) -> SurveyFault:
    """Name the cell that a fault of the survey lies in; where there is none, its row."""
    inside = [path for path in records if fault.path == path or fault.path.startswith(f"{path}.")]
    if not inside:
        return fault
    record = max(inside, key=len)
    entered = records[record]
    field = re.sub(r"\[\d+\]$", "", fault.path[len(record) :].lstrip("."))
    known = [path for path in entered.cells if field == path or field.startswith(f"{path}.")]
    if known:
        cell = entered.cells[max(known, key=len)]
        return replace(fault, path=f"{cell} ({field})")
    row = f"{entered.form.name} row {entered.row}" if entered.row else entered.form.name
    return replace(fault, path=f"{row} ({field})")
