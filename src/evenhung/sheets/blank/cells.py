"""The cells of a filled-in workbook: the rows that hold something, every value as it was typed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple

from openpyxl.utils import get_column_letter

from evenhung.errors import SurveyFault
from evenhung.sheets.blank.columns import forms
from evenhung.sheets.blank.workbook import HEAD_ROWS
from evenhung.survey.faults import shown
from evenhung.survey.nearest import nearest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

    from evenhung.sheets.blank.columns import Column, Form

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


def rows_of(reader: Reader, book: Any, form: Form) -> Iterator[Entered]:  # noqa: ANN401 - untyped
    """Give the rows of a table that were filled in; what is wrong with a cell is kept."""
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
        if name in given:
            reader.refuse(f"{form.name}!A{row}", name, "each field once")
        elif name in known:
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
    return _listed(value) if column.holds == "list" else _unescaped(value)


def _listed(value: str) -> list[str]:
    """Take a list apart: at line breaks, keeping each as it stands, or else at semicolons."""
    if "\n" in value:
        return [_unescaped(one) for one in value.split("\n") if one.strip()]
    return [_unescaped(one.strip()) for one in value.split(";") if one.strip()]


def _unescaped(value: str) -> str:
    """Give a text as it was typed, from how a workbook writes what its files cannot hold."""
    return re.sub("_x([0-9A-Fa-f]{4})_", lambda found: chr(int(found[1], 16)), value)


def _number(reader: Reader, where: str, value: object, column: Column) -> float | None:
    """Give a number, also where the cell holds its figures as text."""
    if isinstance(value, str) and re.fullmatch(r"\s*[0-9]+(\.[0-9]+)?\s*", value, re.ASCII):
        value = float(value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        reader.refuse(where, value, f"{column.allowed}, in figures, such as 0.15")
        return None
    return int(value) if column.holds == "count" and value == int(value) else value
