"""The lists as tables of plain values: what the workbook and the text files both hold."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.takeoff.cords import PER_SASH
from evenhung.plan.takeoff.cutting import sawn_section
from evenhung.plan.takeoff.hanks import hanks_of
from evenhung.sheets.pack.buying import buying_of, makings_of
from evenhung.sheets.pack.cords import cords_of
from evenhung.sheets.pack.materials import cord_nails_of, cuts_of, orders_of, takeoff_of

if TYPE_CHECKING:
    from decimal import Decimal

    from evenhung.plan.takeoff.glass import Said
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


def timber_table(house: PackHouse) -> Table:
    """Give the new timber, a row for each piece."""
    takeoff = takeoff_of(house)
    rows = tuple(
        (
            piece.window,
            piece.part,
            piece.what,
            _places(piece.face_mm, 1),
            _places(piece.thick_mm, 1),
            *sawn_section(piece),
            _places(piece.length_mm, 0),
            house.words.length(piece.length_mm),
        )
        for piece in (takeoff.timber if takeoff is not None else ())
    )
    finished, sawn = ("face mm", "thick mm"), ("sawn face mm", "sawn thick mm")
    columns = ("window", "part", "what is done", *finished, *sawn, "cut to mm", "cut to")
    return Table("Timber", columns, rows)


def lengths_table(house: PackHouse) -> Table:
    """Give the lengths of timber to buy and how each is cut, a row for lengths cut alike."""
    rows = tuple(
        (
            one.what,
            each.number,
            one.stock_mm,
            one.kerf_mm,
            "; ".join(str(mm) for mm in each.cuts_mm),
            len(each.cuts_mm),
            sum(each.cuts_mm),
        )
        for one in cuts_of(house)
        for each in one.lengths
    )
    columns = ("timber", "lengths", "length mm", "saw mm", "cut from each mm", "pieces", "cut mm")
    return Table("Lengths", columns, rows)


def glass_table(house: PackHouse) -> Table:
    """Give the panes to order, a row for panes alike."""
    rows = tuple(
        (
            one.line.number,
            _places(one.line.width_mm, 0),
            _places(one.line.height_mm, 0),
            _places(one.line.sheet_mm, 2),
            one.line.sheets,
            "old" if one.line.is_historic else "",
            "; ".join(one.panes),
            "; ".join(_rule(said) for said in one.said),
        )
        for one in orders_of(house)
    )
    columns = ("number", "width mm", "height mm", "thick mm", "sheets", "glass", "where", "caution")
    return Table("Glass", columns, rows)


def _rule(said: Said) -> str:
    """Say in one line what a rule says, or what it would have to know."""
    answer = said.answer
    if answer.applies:
        return f"{answer.rule}: {answer.says}: safety glass may be asked for"
    return f"{answer.rule}: not known: {answer.missing}"


def nails_table(house: PackHouse) -> Table:
    """Give the cord nails, a row for each sash of which the survey states some."""
    rows = tuple(
        (
            one.window,
            one.place,
            one.number,
            None if one.length_mm is None else _places(one.length_mm, 0),
            "; ".join(
                filter(
                    None,
                    (
                        "number assumed" if one.is_number_assumed else "",
                        "length not stated" if one.length_mm is None else "",
                        "if the cord is renewed" if one.is_optional else "",
                    ),
                )
            ),
        )
        for one in cord_nails_of(house).lines
    )
    return Table("Nails", ("window", "sash", "number", "length mm", "remark"), rows)


def finishes_table(house: PackHouse) -> Table:
    """Give putty and paint: what they cover and how far a unit goes."""
    takeoff = takeoff_of(house)
    rows: list[tuple[Cell, ...]] = []
    if takeoff is not None and takeoff.putty.mass_kg > 0.0:
        putty = takeoff.putty
        metres = putty.length_mm / 1000.0
        rows.append(("linseed putty", "m", _fine(metres), 1, _fine(metres / putty.mass_kg), "kg"))
    if takeoff is not None and takeoff.paint.area_m2 > 0.0:
        paint = takeoff.paint
        for which, litres in (("best", paint.least_l), ("worst", paint.most_l)):
            what = f"paint, by the {which} coverage in print"
            coverage = _fine(paint.area_m2 * paint.coats / litres)
            rows.append((what, "m2", _fine(paint.area_m2), paint.coats, coverage, "L"))
    columns = ("what", "of", "how much", "times", "goes as far as", "unit")
    return Table("Finishes", columns, tuple(rows))


def _fine(value: float) -> float:
    return round(value, 3)


def buying_table(house: PackHouse, hank_mm: float) -> Table:
    """Give what to buy; prices are the survey's own, and empty where it states none."""
    hanks = hanks_of(cords_of(house), hank_mm)
    rows = tuple(
        (one.number, one.what, _money(one.each), _money(one.making))
        for one in buying_of(house, hanks)
    )
    return Table("Buying", ("number", "what", "price each", "making in all"), rows)


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
