"""The lists as tables of plain values: what the workbook and the text files both hold."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.pack.buying import buying_of, makings_of
from evenhung.sheets.pack.cords import PER_SASH, cords_of, hanks_of

if TYPE_CHECKING:
    from decimal import Decimal

    from evenhung.sheets.pack.house import PackHouse

Cell = str | int | float | None

UNSAFE = ("=", "+", "-", "@", "\t", "\r")
"""What a program of tables takes for the beginning of a formula."""


class Table(NamedTuple):
    """One list."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def cords_table(house: PackHouse) -> Table:
    """Give the cords to cut, a row for each sash."""
    rows = tuple(
        (
            one.window,
            one.place,
            one.line,
            _places(one.across_mm, 1),
            PER_SASH,
            _places(one.cut_mm, 0),
            house.words.length(one.cut_mm),
            "if renewed" if one.is_optional else "",
        )
        for one in cords_of(house)
    )
    columns = ("window", "sash", "line", "thick mm", "number", "cut to mm", "cut to", "remark")
    return Table("Cords", columns, rows)


def weights_table(house: PackHouse) -> Table:
    """Give the weights to make, move or change, a row for each side."""
    rows = tuple(
        (
            one.window,
            one.place,
            one.side.side,
            one.side.source,
            one.side.change,
            _places(one.side.hung.mass_kg, 3),
            house.words.mass(one.side.hung.mass_kg),
            _places(one.side.hung.length_mm, 0),
            _places(one.side.hung.across_mm, 1),
            "estimated: weigh the sash first" if one.is_estimated else "",
        )
        for one in makings_of(house)
    )
    columns = (
        "window",
        "sash",
        "side",
        "from",
        "what is done",
        "hangs at kg",
        "hangs at",
        "whole length mm",
        "across mm",
        "remark",
    )
    return Table("Weights", columns, rows)


def buying_table(house: PackHouse, hank_mm: float) -> Table:
    """Give what to buy; prices are the survey's own, and empty where it states none."""
    hanks = hanks_of(cords_of(house), hank_mm)
    rows = tuple(
        (one.number, one.what, _money(one.each), _money(one.making))
        for one in buying_of(house, hanks)
    )
    return Table("Buying", ("number", "what", "price each", "making"), rows)


def csv_of(table: Table) -> bytes:
    r"""Write a table as text, commas between (RFC 4180), in UTF-8 with its mark.

    Examples
    --------
    >>> csv_of(Table("T", ("a", "b"), ((1, "two, three"),)))
    b'\xef\xbb\xbfa,b\r\n1,"two, three"\r\n'
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(table.columns)
    for row in table.rows:
        writer.writerow(["" if cell is None else harmless(cell) for cell in row])
    return b"\xef\xbb\xbf" + text.getvalue().encode()


def harmless(cell: Cell) -> Cell:
    """Give a text that no program of tables takes for a formula.

    Examples
    --------
    >>> harmless("=1+1"), harmless(-1.5)
    ("'=1+1", -1.5)
    """
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(UNSAFE) else cell


def _places(value: float, places: int) -> float | None:
    if math.isnan(value):
        return None
    return round(value, places) if places else round(value)


def _money(amount: Decimal | None) -> float | None:
    return None if amount is None else float(amount)
