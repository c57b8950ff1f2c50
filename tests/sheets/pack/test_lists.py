"""Lists, workbook, text files and calendar: read back, they hold what the plan says."""

from __future__ import annotations

import csv
import io
from datetime import date

import pytest
from icalendar import Calendar
from openpyxl import load_workbook

from evenhung.plan.takeoff.cords import PER_SASH, CordLine
from evenhung.plan.takeoff.hanks import hanks_of
from evenhung.sheets.pack.cords import cords_of
from evenhung.sheets.pack.looks import looks_of
from evenhung.sheets.spreadsheet import LINE_PT, WIDEST

HANK_MM = 12_000.0


@pytest.fixture
def book(file):
    return load_workbook(io.BytesIO(file("lists.xlsx", with_allotment=True)))


def test_hanks_give_every_cord(house_of):
    cords = cords_of(house_of("plain"))
    (hanks,) = hanks_of(cords, HANK_MM)
    cut = sorted(mm for hank in hanks.hanks for mm in hank.cuts_mm for _ in range(hank.number))
    wanted = sorted(one.cut_mm for one in cords for _ in range(PER_SASH))
    assert len(cut) == len(wanted)
    assert all(0.0 <= given - mm < 5.0 for given, mm in zip(cut, wanted, strict=True))
    for hank in hanks.hanks:
        assert sum(hank.cuts_mm) + hank.left_mm == HANK_MM


def test_a_cord_longer_than_a_hank_is_named(house_of):
    cords = cords_of(house_of("plain"))
    (hanks,) = hanks_of(cords, 1_300.0)
    assert [one.window for one in hanks.too_long]
    assert all(one.cut_mm > 1_300.0 for one in hanks.too_long)


def test_chains_are_not_cut_from_hanks():
    assert hanks_of([CordLine("W1", "upper", "chain", 6.0, 1200.0, False)], HANK_MM) == []


def test_the_workbook_holds_the_cords(book, house_of):
    sheet = book["Cords"]
    cords = cords_of(house_of("plain", with_allotment=True))
    rows = list(sheet.iter_rows(min_row=2, max_row=1 + len(cords), values_only=True))
    assert [(row[0], row[1], row[5]) for row in rows] == [
        (one.window, one.place, round(one.cut_mm)) for one in cords
    ]


def test_the_workbook_reckons_by_formulas(book):
    assert book["Cords"]["I2"].value == "=E2*F2"
    last = book["Buying"].max_row
    assert book["Lengths"]["H2"].value == "=MAX(0,C2-G2-D2*F2)"
    assert book["Glass"]["I2"].value == "=A2*B2*C2*E2/1000000"
    assert book["Finishes"]["G2"].value == "=C2*D2/E2"
    assert book["Buying"][f"E{last}"].value == f"=SUM(E2:E{last - 1})"
    assert "A2*C2" in book["Buying"]["E2"].value


def test_the_workbook_is_set_up_to_be_printed(book):
    for sheet in book:
        assert sheet.freeze_panes == "A2"
        assert sheet.print_title_rows == "$1:$1"
        assert sheet.page_setup.orientation == "landscape"
        assert sheet.sheet_properties.pageSetUpPr.fitToPage
        assert "Tollgate House" in sheet.oddFooter.left.text


def test_what_wraps_has_room_and_words_stand_off_numbers(book):
    for sheet in book:
        for row in sheet.iter_rows(min_row=2):
            for cell in row:
                if cell.data_type != "s":
                    continue
                assert cell.alignment.horizontal == "left"
                assert cell.alignment.indent == 1
                if len(cell.value) > 3 * WIDEST:  # on three lines at the least, however it breaks
                    assert sheet.row_dimensions[cell.row].height >= 3 * LINE_PT
                assert sheet.column_dimensions[cell.column_letter].width <= WIDEST + 4
    assert book["Glass"].row_dimensions[2].height >= 3 * LINE_PT


def test_no_name_becomes_a_formula():
    from evenhung.sheets.pack.tables import Table, csv_of

    made = csv_of(Table("T", ("a",), (("=cmd()",), ("-1 lb",), (-1.5,)))).decode("utf-8-sig")
    assert made.splitlines() == ["a", "'=cmd()", "'-1 lb", "-1.5"]


def test_text_files_read_back(file, house_of):
    rows = list(csv.DictReader(io.StringIO(file("cords.csv").decode("utf-8-sig"))))
    cords = cords_of(house_of("plain"))
    assert [(row["window"], row["sash"], int(row["cut to mm"])) for row in rows] == [
        (one.window, one.place, round(one.cut_mm)) for one in cords
    ]


def test_the_buying_list_agrees_with_the_basket(file, house_of, text_of):
    basket = house_of("plain", with_allotment=True).allotment.basket
    rows = list(
        csv.DictReader(io.StringIO(file("buying.csv", with_allotment=True).decode("utf-8-sig")))
    )
    hung = rows[1 : 1 + len(basket.lines)]  # after cord by the hank, before what is repaired
    assert [int(row["number"]) for row in hung] == [line.number for line in basket.lines]
    said = " ".join(" ".join(text_of(file("lists.pdf", with_allotment=True))).split())
    for line in basket.lines:
        assert f"{line.price:.2f}" in said


def test_the_calendar_reads_back(file, house_of):
    calendar = Calendar.from_ical(file("next-looks.ics"))
    assert calendar["version"] == "2.0"
    assert calendar["prodid"]
    events = calendar.walk("VEVENT")
    looks = looks_of(house_of("plain"))
    assert len(events) == len(looks) == 3
    for event, look in zip(events, looks, strict=True):
        assert event.decoded("dtstart") == look.first
        assert look.what in str(event["summary"])
        assert event["uid"]
        assert event["dtstamp"]
    assert [event.get("rrule", {}).get("INTERVAL") for event in events] == [None, [1], [5]]
    assert events[1].decoded("dtstart") == date(2027, 3, 9)


def test_a_calendar_line_is_no_longer_than_the_standard_allows(file):
    """RFC 5545, 3.1: lines of at most 75 octets, ended by CR LF."""
    for name in ("plain", "longest"):
        lines = file("next-looks.ics", name).split(b"\r\n")
        assert all(len(line) <= 75 for line in lines)
