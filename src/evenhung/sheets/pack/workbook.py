"""The lists as a workbook: real formulas, headers that stay, set up to be printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from openpyxl import Workbook

from evenhung.sheets.pack.tables import (
    buying_table,
    cords_table,
    finishes_table,
    glass_table,
    lengths_table,
    nails_table,
    timber_table,
    weights_table,
)
from evenhung.sheets.spreadsheet import (
    dress,
    heighten,
    print_landscape,
    put,
    saved,
    set_bold,
    widen,
)

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.pack.tables import Table


def lists_workbook(house: PackHouse, hank_mm: float) -> bytes:
    """Give the cutting and buying lists as a workbook.

    Parameters
    ----------
    house
        The house.
    hank_mm
        Length of a hank of cord [mm].
    """
    book = Workbook()
    book.remove(book.active)
    cords, weights = cords_table(house), weights_table(house)
    buying = buying_table(house, hank_mm)
    sheet = _sheet(book, cords, house)
    _total(sheet, len(cords.rows), "E", "=SUM(E2:E{last})", "in all")
    _column(sheet, len(cords.rows), "I", "in all mm", "=E{row}*F{row}")
    _total(sheet, len(cords.rows), "I", "=SUM(I2:I{last})", "in all")
    _sheet(book, weights, house)
    _materials(book, house)
    sheet = _sheet(book, buying, house)
    _column(sheet, len(buying.rows), "E", "in all", '=IF(C{row}="","",A{row}*C{row}+N(D{row}))')
    _total(sheet, len(buying.rows), "E", "=SUM(E2:E{last})", "in all")
    for column in "CDE":
        for cell in sheet[column]:
            cell.number_format = "0.00"
    return saved(book, house.edition.on)


def _materials(book: Workbook, house: PackHouse) -> None:
    """Add what the repair takes; a list that is empty has no sheet."""
    timber, lengths, glass = timber_table(house), lengths_table(house), glass_table(house)
    nails, finishes = nails_table(house), finishes_table(house)
    if timber.rows:
        _total(_sheet(book, timber, house), len(timber.rows), "H", "=SUM(H2:H{last})", "in all")
    if lengths.rows:
        sheet = _sheet(book, lengths, house)
        left = "=MAX(0,C{row}-G{row}-D{row}*F{row})"
        _column(sheet, len(lengths.rows), "H", "left over mm", left)
        _total(sheet, len(lengths.rows), "B", "=SUM(B2:B{last})", "in all")
    if glass.rows:
        sheet = _sheet(book, glass, house)
        _column(sheet, len(glass.rows), "I", "in all m2", "=A{row}*B{row}*C{row}*E{row}/1000000")
        _total(sheet, len(glass.rows), "I", "=SUM(I2:I{last})", "in all")
        for cell in sheet["I"][1:]:
            cell.number_format = "0.000"
    if nails.rows:
        _total(_sheet(book, nails, house), len(nails.rows), "C", "=SUM(C2:C{last})", "in all")
    if finishes.rows:
        sheet = _sheet(book, finishes, house)
        _column(sheet, len(finishes.rows), "G", "to have by", "=C{row}*D{row}/E{row}")
        for cell in sheet["G"][1:]:
            cell.number_format = "0.00"


def _sheet(book: Workbook, table: Table, house: PackHouse) -> Worksheet:
    sheet: Worksheet = book.create_sheet(table.name)
    for number, row in enumerate((table.columns, *table.rows), 1):
        for place, value in enumerate(row, 1):
            put(sheet.cell(number, place), value)
    for cell in sheet[1]:
        dress(cell)
    widen(sheet)
    heighten(sheet)
    sheet.freeze_panes = "A2"
    edition = house.edition
    footer = f"{house.name[:80]}, survey {edition.revision}"
    print_landscape(sheet, footer, rows="1:1", paper=edition.paper)
    return sheet


def _column(sheet: Worksheet, rows: int, letter: str, head: str, formula: str) -> None:
    """Add a column that is reckoned from the others of its row."""
    put(sheet[f"{letter}1"], head)
    dress(sheet[f"{letter}1"])
    sheet.column_dimensions[letter].width = len(head) + 4
    for row in range(2, rows + 2):
        put(sheet[f"{letter}{row}"], formula.format(row=row), is_formula=True)


def _total(sheet: Worksheet, rows: int, letter: str, formula: str, head: str) -> None:
    """Add the sum of a column below it."""
    if not rows:
        return
    last = rows + 1
    put(sheet[f"A{last + 1}"], head)
    put(sheet[f"{letter}{last + 1}"], formula.format(last=last), is_formula=True)
    for cell in (sheet[f"A{last + 1}"], sheet[f"{letter}{last + 1}"]):
        set_bold(cell)
