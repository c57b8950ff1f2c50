"""The workbook with a survey in it, as a person would fill it in; `reading` takes it back."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.sheets.blank.columns import forms
from evenhung.sheets.blank.workbook import HEAD_ROWS, VERSION_DAY, blank_book, format_of
from evenhung.sheets.spreadsheet import heighten, put, saved

if TYPE_CHECKING:
    from collections.abc import Iterator

    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

    from evenhung.sheets.blank.columns import Column, Form
    from evenhung.survey import Survey

LONGEST_TEXT = 32_767
"""Letters that a cell may hold, as the programs of tables have it (from memory)."""


def filled_workbook(survey: Survey) -> bytes:
    """Give the workbook with a survey in it.

    Parameters
    ----------
    survey
        The survey.

    Returns
    -------
    bytes
        What a file should hold; `read_workbook` gives the same survey back, but for tables and
        lists that are there and empty, notes of nothing but blanks, and what a number has beyond
        fifteen figures.

    Raises
    ------
    InvalidSurvey
        Where a list of it is longer than one cell can hold.
    """
    document = survey.as_typed()
    book = blank_book()
    for form in forms():
        for number, (path, record) in enumerate(_records(form, document)):
            _fill(book[form.name], form, number, path, record)
        heighten(book[form.name])
    return saved(book, VERSION_DAY)


def _records(form: Form, document: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Give the records of a table with their paths, in the order of the survey."""
    path = form.upright_path or form.list_path
    if path:
        yield from _of(path, _at(document, path))
        return
    for number, window in enumerate(document.get("window", ())):
        for field in (form.in_window,) if form.in_window else ("upper", "lower"):
            ours = {"window": window["tag"], "place": field}
            for at, record in _of(f"window[{number}].{field}", window.get(field)):
                yield at, {**ours, **record}


def _of(path: str, found: Any) -> Iterator[tuple[str, dict[str, Any]]]:  # noqa: ANN401 - plain data
    """Give what stands at a path, one by one: a table, a list of them, nothing."""
    if isinstance(found, list):
        yield from ((f"{path}[{number}]", record) for number, record in enumerate(found))
    elif found is not None:
        yield path, found


def _at(record: dict[str, Any], path: str) -> Any:  # noqa: ANN401 - plain data
    """Give what a record states at a path; None where it states nothing."""
    found: Any = record
    for step in path.split("."):
        found = found.get(step) if isinstance(found, dict) else None
    return found


def _fill(sheet: Worksheet, form: Form, row: int, path: str, record: dict[str, Any]) -> None:
    for number, column in enumerate(form.columns):
        value = _at(record, column.path)
        if value is None or isinstance(value, dict):
            continue  # a table in place of a single value has columns of its own
        held = _held(value, column, f"{path}.{column.path}")
        if form.is_upright:
            _put(sheet.cell(number + 2, 2), held, column)
        else:
            _put(sheet.cell(row + HEAD_ROWS + 1, number + 1), held, column)


def _held(value: Any, column: Column, path: str) -> Any:  # noqa: ANN401 - plain data
    """Give what a cell holds for a value."""
    if column.holds in ("count", "number"):
        return value
    held = _list(value) if column.holds == "list" else _escaped(value)
    if len(held) > LONGEST_TEXT:
        allowed = f"at most {LONGEST_TEXT} letters in all, for a cell of a workbook holds no more"
        raise InvalidSurvey((SurveyFault(path, f"({len(held)} letters)", allowed),))
    return held


def _list(items: list[str]) -> str:
    """Put a list into one text: with semicolons, or where one holds them, each to a line."""
    held = [_escaped(one) for one in items]
    if any(";" in one or one != one.strip() for one in held):
        return "\n".join((*held, ""))
    return "; ".join(held)


def _escaped(text: str) -> str:
    """Write what the files of a workbook cannot hold by its number.

    That is a carriage return, and whatever looks like such a number (ISO/IEC 29500-1, 22.9.2.19).
    """
    text = re.sub("_(?=x[0-9A-Fa-f]{4}_)", "_x005F_", text)
    return re.sub("[\r\ufffe\uffff]", lambda found: f"_x{ord(found[0]):04X}_", text)


def _put(cell: Cell, value: Any, column: Column) -> None:  # noqa: ANN401 - plain data
    put(cell, value)
    cell.number_format = format_of(column)
