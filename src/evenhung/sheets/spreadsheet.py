"""What every workbook of ours shares: its face, room for what it says, how it prints, its bytes."""

from __future__ import annotations

import io
import textwrap
import zipfile
from datetime import datetime
from typing import TYPE_CHECKING

from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.styles.fonts import DEFAULT_FONT
from openpyxl.utils import get_column_letter

if TYPE_CHECKING:
    from datetime import date

    from openpyxl import Workbook
    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

WIDEST = 26
"""Letters a column is widened for; what is longer is wrapped."""

LINE_PT = 15.0
"""Height of a line in the face that programs of tables begin with [pt] (from memory)."""

LETTERS_TO_WIDTH = 1.05
"""Letters of plain words to one unit of a column's width, which is that of a figure; few, for where
the face is missing a wider one stands in."""

PAPER_SIZE = {"a4": 9, "letter": 1}
"""Numbers of ECMA-376 part 1, 18.3.1.63, from memory."""

HEAD_SHADE, RULE = "FFEEEEEE", "FF9A9A9A"

_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest time that an archive can hold; no workbook tells when it was written."""


def put(cell: Cell, value: object, *, is_formula: bool = False) -> None:
    """Put a value into a cell; a text stays a text, whatever it begins with."""
    cell.value = value
    is_text = isinstance(value, str) and not is_formula
    if is_text:
        cell.data_type = "s"
    # a text stands off its left edge: a number before it ends at that edge
    side = {"horizontal": "left", "indent": 1} if is_text else {}
    cell.alignment = Alignment(wrap_text=True, vertical="top", **side)


def set_bold(cell: Cell, *, is_bold: bool = True, is_italic: bool = False) -> None:
    """Set the letters of a cell bold or italic, in the face of the others."""
    face, size = DEFAULT_FONT.name, DEFAULT_FONT.sz
    cell.font = Font(name=face, sz=size, b=is_bold, i=is_italic)


def dress(cell: Cell, shade: str = HEAD_SHADE) -> None:
    """Set the look of a head that holds its words already."""
    set_bold(cell)
    cell.fill = PatternFill("solid", fgColor=shade)
    cell.border = Border(bottom=Side("thin", color=RULE), right=Side("thin", color=RULE))


def widen(sheet: Worksheet) -> None:
    """Give each column room for what stands in it, and for each word of its head."""
    for column in sheet.iter_cols():
        head, *rows = ("" if cell.value is None else str(cell.value) for cell in column)
        longest = max((len(text) for text in rows), default=0)
        words = max(map(len, head.split()), default=0)
        letters = max(words, min(len(head), 12), min(longest, WIDEST))
        sheet.column_dimensions[get_column_letter(column[0].column)].width = letters + 4


def heighten(sheet: Worksheet) -> None:
    """Give each row that wraps room for its lines: not every program of tables does so itself."""
    for row in sheet.iter_rows():
        lines = max((_lines(sheet, cell) for cell in row), default=1)
        if lines > 1:
            sheet.row_dimensions[row[0].row].height = lines * LINE_PT


def _lines(sheet: Worksheet, cell: Cell) -> int:
    if not isinstance(cell.value, str) or cell.data_type != "s" or not cell.alignment.wrap_text:
        return 1
    width = sheet.column_dimensions[get_column_letter(cell.column)].width
    letters = max(4, int((width - 1) * LETTERS_TO_WIDTH))
    return sum(max(1, len(textwrap.wrap(one, letters))) for one in cell.value.split("\n"))


def print_landscape(
    sheet: Worksheet,
    footer: str,
    *,
    rows: str = "",
    columns: str = "",
    paper: str = "a4",
    scale_pct: int | None = None,
) -> None:
    """Set how a sheet is printed: heads on every page, one page wide unless scaled."""
    if rows:
        sheet.print_title_rows = rows
    if columns:
        sheet.print_title_cols = columns
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = PAPER_SIZE[paper]
    if scale_pct is None:
        sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
        sheet.sheet_properties.pageSetUpPr.fitToPage = True
    else:
        sheet.page_setup.scale = scale_pct
    for edge in ("left", "right", "top"):
        setattr(sheet.page_margins, edge, 0.4)
    sheet.oddFooter.left.text = footer.replace("&", "&&")
    sheet.oddFooter.right.text = "page &P of &N"


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
