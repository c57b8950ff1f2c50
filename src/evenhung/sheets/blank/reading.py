"""From a filled-in workbook to a survey, or to every fault in it by its cell."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.sheets.blank.cells import Reader, rows_of
from evenhung.sheets.blank.columns import forms
from evenhung.survey import survey_from
from evenhung.survey.document import FORM

if TYPE_CHECKING:
    from evenhung.sheets.blank.cells import Entered
    from evenhung.sheets.blank.columns import TableName
    from evenhung.survey import Survey

MOST_BYTES = 20_000_000
MOST_UNPACKED = 100_000_000


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
        form.name: list(rows_of(reader, book, form)) for form in forms()
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


def _document(reader: Reader, tables: dict[TableName, list[Entered]]) -> dict[str, Any]:
    """Put the rows together as the survey has them."""
    document: dict[str, Any] = {"form": FORM, "house": {}}
    for form in forms():
        if form.upright_path:
            _put_upright(reader, document, tables[form.name])
        elif form.list_path:
            _put_list(reader, document, form.list_path, tables[form.name])
    windows: dict[str, dict[str, Any]] = {}
    places: dict[str, int] = {}
    for number, record in enumerate(document.get("window", ())):
        tag = record.get("tag")
        if isinstance(tag, str) and tag not in windows:
            windows[tag], places[tag] = record, number
    for form in forms():
        if form.upright_path or form.list_path:
            continue
        put = _put_in_window if form.in_window else _put_sash
        for entered in tables[form.name]:
            put(reader, entered, windows, places)
    return document


def _put_upright(reader: Reader, document: dict[str, Any], rows: list[Entered]) -> None:
    """Put the only record of its kind where the survey has it; none where nothing is filled in."""
    for entered in rows:
        path = entered.form.upright_path
        reader.records[path] = entered
        record = _record(reader, entered)
        if record:
            _table(document, path.split(".")).update(record)


def _put_list(reader: Reader, document: dict[str, Any], path: str, rows: list[Entered]) -> None:
    """Put the rows of a table where the survey has a list of them; none where it has none."""
    if not rows:
        return
    *parts, last = path.split(".")
    _table(document, parts)[last] = [_record(reader, entered) for entered in rows]
    for number, entered in enumerate(rows):
        reader.records[f"{path}[{number}]"] = entered


def _table(document: dict[str, Any], parts: list[str]) -> dict[str, Any]:
    """Give a table within tables, made where it is not there yet."""
    for part in parts:
        document = document.setdefault(part, {})
    return document


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
    found = windows[tag].setdefault(field, [])
    reader.records[f"window[{places[tag]}].{field}[{len(found)}]"] = entered
    found.append(_record(reader, entered, without=("window",)))


def _window_of(reader: Reader, entered: Entered, windows: dict[str, dict[str, Any]]) -> str | None:
    """Give the tag of the window that a row names; None where there is none, which is refused.

    A space before or behind it, which nobody sees, tells no two windows apart.
    """
    tag = entered.values.get("window")
    named = {one.strip(): one for one in windows}
    if isinstance(tag, str) and tag.strip() in named:
        return named[tag.strip()]
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
    windows[tag][place] = _record(reader, entered, without=("window", "place"))
    reader.records[f"window[{places[tag]}].{place}"] = entered


def _record(reader: Reader, entered: Entered, without: tuple[str, ...] = ()) -> dict[str, Any]:
    """Put the fields of a row by their paths into tables within tables."""
    fields = {path: value for path, value in entered.values.items() if path not in without}
    for path in [one for one in fields if any(other.startswith(f"{one}.") for other in fields)]:
        allowed = "empty: it is stated in parts as well, and only one of the two can stand"
        reader.refuse(entered.cells[path], fields.pop(path), allowed)
    record: dict[str, Any] = {}
    for path, value in fields.items():
        *parts, last = path.split(".")
        _table(record, parts)[last] = value
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
