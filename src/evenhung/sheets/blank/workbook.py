"""The blank workbook: every field, what it may hold, what it means, choices to pick from."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from openpyxl import Workbook
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

from evenhung.sheets.blank.columns import WINDOW, forms, is_given
from evenhung.sheets.spreadsheet import dress, heighten, print_landscape, put, saved, set_bold

if TYPE_CHECKING:
    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

    from evenhung.sheets.blank.columns import Column, Form

HEAD_ROWS = 3
"""Name of the field, what it may hold, what it means."""

ROWS = 400
"""Rows that have hints and choices; more can be filled in."""

ON_A_PAGE = 9
"""Columns that can be read where they are printed side by side on one page."""

WIDE_SCALE_PCT = 65
"""How small a sheet of more is printed; fitting it to a number of pages hangs LibreOffice Calc."""

FOOTER = "Evenhung survey"

CHOICES = "Choices"
"""The sheet that holds the longer lists of choices."""

VERSION_DAY = date(2026, 1, 1)
"""What the file says of its making: the form's, so that it is the same whenever it is made."""

LONGEST_PROMPT = 250
"""Letters that a hint may have (ECMA-376 part 1, 18.3.1.32, from memory: 255)."""

TEXT_FORMAT = "@"
"""Keeps what is typed: 1/2 is no date and 007 no seven."""

GUIDE = (
    "Fill in the sheets House, Windows and Sashes, and the others as far as they are wanted; leave "
    "out what was not measured.",
    "Write every length, mass and force with its unit, as you would say it: 838 mm, 2 ft 9 1/2 in, "
    "11 lb 4 oz, 5,1 kg, 25 N.",
    "Write days year first, as text: 2026-03-09. Write prices as text, in the currency of the "
    "house: 2.40.",
    "Shaded columns must be filled in. Left and right are as seen from inside.",
    "Where several values go into one cell, put ; between them, or each on a line of its own.",
    "Findings are what was seen of one part, a row for each; the choices have every part and every "
    "word. Symptoms are how a standing window misbehaves. Both name their window by its tag.",
    "Make-weights, Bars and Ready-made weights are what the house can be hung with besides its own "
    "weights. Decisions are what shall hang where, what never shall, and what hangs already.",
    "Price, Crew, Options, Own hours and Material prices are what the work is priced by. Booked "
    "hours are what was worked. Programme and Rooms needed are when the work is done.",
    "Then: evenhung read survey.xlsx -o house.toml",
    "Whatever is wrong is told by its cell; nothing is guessed, and this file is not changed.",
    "Photos are not in this file: they stay with the house in the app, or in the zip that it is "
    "taken out as. A cell left empty, or with nothing but blanks in it, states nothing. "
    "A number is kept to fifteen figures.",
    "Hidden columns named id keep what the app knows a window, a weight or an entry by: leave them "
    "as they are.",
)


def blank_workbook() -> bytes:
    """Give the blank workbook."""
    return saved(blank_book(), VERSION_DAY)


def blank_book() -> Workbook:
    """Give the blank workbook, not saved yet."""
    book = Workbook()
    guide = book.active
    guide.title = "Begin here"
    guide.column_dimensions["A"].width = 110
    for number, line in enumerate(GUIDE, 1):
        put(guide.cell(number, 1), line)
    heighten(guide)
    print_landscape(guide, FOOTER)
    lists = book.create_sheet(CHOICES)
    for form in forms():
        sheet = book.create_sheet(form.name)
        (_upright if form.is_upright else _level)(sheet, form, lists)
        heighten(sheet)
    book.move_sheet(CHOICES, len(forms()))
    lists.sheet_state = "hidden"
    return book


def _level(sheet: Worksheet, form: Form, lists: Worksheet) -> None:
    """Lay fields out side by side, a row for each window or sash."""
    for number, column in enumerate(form.columns, 1):
        letter = get_column_letter(number)
        for row, words in enumerate((column.path, column.allowed, column.says), 1):
            _head(sheet.cell(row, number), words, column, is_name=row == 1)
        sheet.column_dimensions[letter].width = max(18, len(column.path) + 5)
        sheet.column_dimensions[letter].hidden = is_given(column)
        sheet.column_dimensions[letter].number_format = format_of(column)
        first = HEAD_ROWS + 1
        _help(sheet, column, f"{letter}{first}:{letter}{first + ROWS - 1}", lists)
    named = 2 if WINDOW in form.columns else 1
    sheet.freeze_panes = sheet.cell(HEAD_ROWS + 1, named + 1)
    print_landscape(
        sheet,
        FOOTER,
        rows=f"1:{HEAD_ROWS}",
        columns=f"A:{get_column_letter(named)}",
        scale_pct=None if len(form.columns) <= ON_A_PAGE else WIDE_SCALE_PCT,
    )


def _upright(sheet: Worksheet, form: Form, lists: Worksheet) -> None:
    """Lay fields out one below the other: name, value, what it may hold, what it means."""
    for letter, width in zip("ABCD", (34, 34, 40, 70), strict=True):
        sheet.column_dimensions[letter].width = width
    for number, words in enumerate(("field", "value", "may hold", "means"), 1):
        put(sheet.cell(1, number), words)
        dress(sheet.cell(1, number))
    for row, column in enumerate(form.columns, 2):
        _head(sheet.cell(row, 1), column.path, column, is_name=True)
        sheet.cell(row, 2).number_format = format_of(column)
        for number, words in ((3, column.allowed), (4, column.says)):
            put(sheet.cell(row, number), words)
        _help(sheet, column, f"B{row}", lists)
    sheet.freeze_panes = "B2"
    print_landscape(sheet, FOOTER, rows="1:1")


def _head(cell: Cell, words: str, column: Column, *, is_name: bool) -> None:
    put(cell, words)
    dress(cell, "FFD9D9D9" if column.is_required else "FFF3F3F3")
    set_bold(cell, is_bold=is_name, is_italic=not is_name)


def format_of(column: Column) -> str:
    """Give how the cells of a field show what they hold."""
    return "General" if column.holds in ("count", "number") else TEXT_FORMAT


def _help(sheet: Worksheet, column: Column, cells: str, lists: Worksheet) -> None:
    """Give a hint beside a cell, and its choices to pick from."""
    source = _choices(column, lists)
    rule = DataValidation(type="list", formula1=source, allow_blank=True) if source else None
    rule = rule or DataValidation(allow_blank=True)
    rule.showInputMessage = True
    rule.promptTitle = column.path[-32:]
    rule.prompt = f"{column.says}. {column.allowed}"[:LONGEST_PROMPT]
    rule.showErrorMessage = bool(source)
    rule.error = f"one of: {', '.join(column.choices)}"[:LONGEST_PROMPT]
    sheet.add_data_validation(rule)
    rule.add(cells)


def _choices(column: Column, lists: Worksheet) -> str:
    """Write choices on the hidden sheet, each list once, and give where they stand."""
    if not column.choices:
        return ""
    for number in range(1, lists.max_column + 1):
        held = [cell.value for cell in lists[get_column_letter(number)] if cell.value]
        if held == list(column.choices):
            return _range(number, len(held))
    free = lists.max_column + 1 if lists.cell(1, 1).value else 1
    for row, word in enumerate(column.choices, 1):
        lists.cell(row, free, word)
    return _range(free, len(column.choices))


def _range(number: int, count: int) -> str:
    letter = get_column_letter(number)
    return f"{CHOICES}!${letter}$1:${letter}${count}"
