"""The files of a pack: begin here. Each is made only when its turn comes."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed
from evenhung.plan.price import price_house
from evenhung.sheets.pack.bench import bench_cards
from evenhung.sheets.pack.drawing_files import drawing_files
from evenhung.sheets.pack.drawings import drawings
from evenhung.sheets.pack.found import house_sheet
from evenhung.sheets.pack.labels import CARD, labels_of
from evenhung.sheets.pack.lists import lists
from evenhung.sheets.pack.looks import calendar_of
from evenhung.sheets.pack.method import method_sheet
from evenhung.sheets.pack.programme import programme_sheet
from evenhung.sheets.pack.programme_calendar import programme_calendar
from evenhung.sheets.pack.quotation import quotation
from evenhung.sheets.pack.records import completion_record, owners_record
from evenhung.sheets.pack.strips import marking_strips
from evenhung.sheets.pack.tables import (
    buying_table,
    cords_table,
    csv_of,
    glass_table,
    timber_table,
    weights_table,
)
from evenhung.sheets.pack.tags import tags

if TYPE_CHECKING:
    from collections.abc import Callable

    from evenhung.plan.programme import Programme
    from evenhung.sheets.pack.house import PackHouse


class Wish(NamedTuple):
    """How a pack is wanted, besides its edition."""

    labels: str | None = None
    """Size of adhesive labels; None takes the usual one for the paper."""
    hank_mm: float | None = None
    """Length of a hank of cord; None takes the reference's."""
    is_drawn: bool = False
    """Whether the drawings come too: they are many pages, and many files."""


class PackFile(NamedTuple):
    """One file of a pack."""

    name: str
    """Its path in the pack, with slashes."""
    says: str
    """What it is, in a word or two."""
    make: Callable[[], bytes]


def _quotation(house: PackHouse) -> bytes:
    """Price a house with what its allotment buys, where it has one."""
    return quotation(house, price_house(house.plan, allotment=house.allotment))


def _workbook(house: PackHouse, hank_mm: float) -> bytes:
    from evenhung.sheets.pack.workbook import lists_workbook  # the library is dear to load

    return lists_workbook(house, hank_mm)


def pack_files(house: PackHouse, wish: Wish | None = None) -> list[PackFile]:
    """Give the files of a pack.

    Parameters
    ----------
    house
        The house they are of.
    wish
        How they are wanted.

    Returns
    -------
    list of PackFile
        What is worked by first comes first, but for the programme, which may be made beside the
        others. Nothing is made yet.

    Raises
    ------
    DrawingDomainError
        If there are no labels of the size that is wanted.
    """
    wish = wish or Wish()
    hank_mm = wish.hank_mm or assumed("cords/cord/hank").value
    labels = labels_of(wish.labels, house.edition.paper)
    card = CARD[house.edition.paper]
    on = house.edition.on

    @cache
    def programme() -> Programme:  # worked out once for the chart and the calendar
        from evenhung.plan.programme import programme_of  # the solver is dear to load

        return programme_of(house.plan, today=on)

    drawn = (
        [
            PackFile("drawings.pdf", "drawings", lambda: drawings(house)),
            *(PackFile(*one) for one in drawing_files(house)),
        ]
        if wish.is_drawn
        else []
    )
    return [
        PackFile("house-sheet.pdf", "house sheet", lambda: house_sheet(house)),
        PackFile("quotation.pdf", "quotation", lambda: _quotation(house)),
        PackFile("method-and-risks.pdf", "method and risks", lambda: method_sheet(house)),
        PackFile(
            "bench-cards.pdf", "bench cards", lambda: bench_cards(house, is_drawn=wish.is_drawn)
        ),
        PackFile("lists.pdf", "cutting and buying lists", lambda: lists(house, hank_mm)),
        PackFile("lists.xlsx", "lists as a workbook", lambda: _workbook(house, hank_mm)),
        PackFile("cords.csv", "cords as text", lambda: csv_of(cords_table(house))),
        PackFile("weights.csv", "weights as text", lambda: csv_of(weights_table(house))),
        PackFile("timber.csv", "timber as text", lambda: csv_of(timber_table(house))),
        PackFile("glass.csv", "glass as text", lambda: csv_of(glass_table(house))),
        PackFile("buying.csv", "buying as text", lambda: csv_of(buying_table(house, hank_mm))),
        PackFile("tags-adhesive.pdf", "adhesive tags", lambda: tags(house, labels)),
        PackFile("tags-cut-out.pdf", "tags to cut out", lambda: tags(house, card)),
        PackFile("marking-strips.pdf", "marking strips", lambda: marking_strips(house)),
        PackFile("completion-record.pdf", "completion record", lambda: completion_record(house)),
        PackFile("owners-record.pdf", "owner's record", lambda: owners_record(house)),
        PackFile("programme.pdf", "programme", lambda: programme_sheet(house, programme())),
        PackFile(
            "programme.ics",
            "programme as a calendar",
            lambda: programme_calendar(programme(), on=on),
        ),
        PackFile("next-looks.ics", "next looks", lambda: calendar_of(house)),
        *drawn,
    ]
