"""The lists as a workbook: real formulas, headers that stay, set up to be printed."""

from __future__ import annotations

import io
import zipfile
from datetime import datetime
from typing import TYPE_CHECKING

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter

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

if TYPE_CHECKING:
    from datetime import date

    from openpyxl.worksheet.worksheet import Worksheet

    from evenhung.sheets.pack.house import Edition, PackHouse
    from evenhung.sheets.pack.tables import Table

WIDEST = 60
"""Letters a column is widened for; what is longer is wrapped."""

PAPER_SIZE = {"a4": 9, "letter": 1}
"""Numbers of ECMA-376 part 1, 18.3.1.63, from memory."""

_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest time that an archive can hold; no workbook tells when it was written."""


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
    if nails.rows:
        _total(_sheet(book, nails, house), len(nails.rows), "C", "=SUM(C2:C{last})", "in all")
    if finishes.rows:
        sheet = _sheet(book, finishes, house)
        _column(sheet, len(finishes.rows), "G", "to have by", "=C{row}*D{row}/E{row}")
        for cell in sheet["G"][1:]:
            cell.number_format = "0.00"


def saved(book: Workbook, on: date) -> bytes:
    """Save a workbook so that the same one is the same byte for byte."""
    moment = datetime(on.year, on.month, on.day)  # noqa: DTZ001 - a workbook's times have no zone
    book.properties.creator = "Evenhung"
    book.properties.created = book.properties.modified = moment
    first = io.BytesIO()
    book.save(first)
    whole = io.BytesIO()
    with (
        zipfile.ZipFile(first) as source,
        zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as target,
    ):
        for name in source.namelist():
            data = source.read(name)
            if name == "docProps/core.xml":
                data = _stilled(data, moment)
            target.writestr(zipfile.ZipInfo(name, _EPOCH), data, zipfile.ZIP_DEFLATED)
    return whole.getvalue()


def _stilled(core: bytes, moment: datetime) -> bytes:
    """Write the day of the edition where the writer put the time of day."""
    import re

    stamp = f"{moment:%Y-%m-%dT%H:%M:%SZ}".encode()
    return re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + stamp, core)


def dressed(sheet: Worksheet, columns: int, edition: Edition, footer: str) -> None:
    """Set the look of a sheet, its headers that stay, and how it is printed."""
    for cell in sheet[1][:columns]:
        cell.font = Font(bold=True)
        cell.fill = PatternFill("solid", fgColor="FFEEEEEE")
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        cell.border = Border(bottom=Side("thin"))
    sheet.freeze_panes = "A2"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = PAPER_SIZE[edition.paper]
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.oddFooter.left.text = footer.replace("&", "&&")
    sheet.oddFooter.right.text = "page &P of &N"


def _sheet(book: Workbook, table: Table, house: PackHouse) -> Worksheet:
    sheet: Worksheet = book.create_sheet(table.name)
    for number, row in enumerate((table.columns, *table.rows), 1):
        for place, value in enumerate(row, 1):
            put(sheet.cell(number, place), value)
    for place, column in enumerate(table.columns, 1):
        longest = max([len(column), *(len(str(row[place - 1] or "")) for row in table.rows)])
        sheet.column_dimensions[get_column_letter(place)].width = min(longest, WIDEST) + 2
    edition = house.edition
    dressed(sheet, len(table.columns), edition, f"{house.name[:80]}, survey {edition.revision}")
    return sheet


def put(cell: object, value: object) -> None:
    """Put a value into a cell; a text stays a text, whatever it begins with."""
    cell.value = value  # type: ignore[attr-defined] # openpyxl ships no types
    if isinstance(value, str):
        cell.data_type = "s"  # type: ignore[attr-defined]
    cell.alignment = Alignment(wrap_text=True, vertical="top")  # type: ignore[attr-defined]


def _column(sheet: Worksheet, rows: int, letter: str, head: str, formula: str) -> None:
    """Add a column that is reckoned from the others of its row."""
    sheet[f"{letter}1"] = head
    sheet[f"{letter}1"].font = Font(bold=True)
    sheet.column_dimensions[letter].width = len(head) + 4
    for row in range(2, rows + 2):
        sheet[f"{letter}{row}"] = formula.format(row=row)


def _total(sheet: Worksheet, rows: int, letter: str, formula: str, head: str) -> None:
    """Add the sum of a column below it."""
    if not rows:
        return
    last = rows + 1
    sheet[f"A{last + 1}"] = head
    sheet[f"{letter}{last + 1}"] = formula.format(last=last)
    for cell in (sheet[f"A{last + 1}"], sheet[f"{letter}{last + 1}"]):
        cell.font = Font(bold=True)
