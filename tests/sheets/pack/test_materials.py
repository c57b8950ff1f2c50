"""Timber, glass, nails, putty and paint on the lists: enough, priced, each with its caution."""

from __future__ import annotations

import csv
import io

import pytest
from openpyxl import load_workbook

from evenhung.plan.takeoff import cords as taken_off
from evenhung.sheets.pack.cords import cords_of
from evenhung.sheets.pack.materials import cord_nails_of, orders_of, takeoff_of, up


def said_on(text_of, data):
    return " ".join(" ".join(text_of(data)).split())


def test_a_pane_to_order_has_its_caution_beside_it(file, house_of, text_of):
    said = said_on(text_of, file("lists.pdf"))
    begins, ends = said.index("Glass to order"), said.rindex("Cord nails")
    glass = said[begins:ends]
    for order in orders_of(house_of("plain")):
        assert f"{order.line.width_mm:.0f} × {order.line.height_mm:.0f} mm" in glass
        for one in order.said:
            assert one.answer.rule in glass
    assert "Safety glass may be asked for." in glass
    assert "old glass: match it" in glass


def test_the_workbooks_formulas_come_to_the_plans_figures(file, house_of):
    book = load_workbook(io.BytesIO(file("lists.xlsx")))
    takeoff = takeoff_of(house_of("plain"))
    putty, best, worst = (
        [cell.value for cell in row[2:5]] for row in book["Finishes"].iter_rows(min_row=2)
    )
    for (much, times, far), wanted in (
        (putty, takeoff.putty.mass_kg),
        (best, takeoff.paint.least_l),
        (worst, takeoff.paint.most_l),
    ):
        assert much * times / far == pytest.approx(wanted, rel=2e-3)
    for row in book["Lengths"].iter_rows(min_row=2, max_row=book["Lengths"].max_row - 1):
        _, _, long, saw, cuts, pieces, cut = (cell.value for cell in row[:7])
        each = [int(mm) for mm in cuts.split("; ")]
        assert (len(each), sum(each)) == (pieces, cut)
        assert cut + saw * (pieces - 1) <= long


def test_text_files_have_every_piece_and_pane(file, house_of):
    takeoff = takeoff_of(house_of("plain"))
    timber = list(csv.DictReader(io.StringIO(file("timber.csv").decode("utf-8-sig"))))
    assert [(one["window"], one["part"], int(one["cut to mm"])) for one in timber] == [
        (piece.window, piece.part, round(piece.length_mm)) for piece in takeoff.timber
    ]
    glass = list(csv.DictReader(io.StringIO(file("glass.csv").decode("utf-8-sig"))))
    assert [int(one["number"]) for one in glass] == [line.number for line in takeoff.glass]
    assert [one["glass"] for one in glass] == ["", "old"]


def test_what_is_bought_is_enough(file, house_of):
    rows = list(csv.DictReader(io.StringIO(file("buying.csv").decode("utf-8-sig"))))
    much = {row["what"]: float(row["number"]) for row in rows}
    takeoff = takeoff_of(house_of("plain"))
    assert much["kg of linseed putty"] == up(takeoff.putty.mass_kg) >= takeoff.putty.mass_kg
    assert much["litre of paint, 3 coats in all"] >= takeoff.paint.most_l


def test_a_material_is_priced_by_the_surveys_price(file):
    rows = csv.DictReader(io.StringIO(file("buying.csv").decode("utf-8-sig")))
    each = {row["what"].partition(",")[0]: row["price each"] for row in rows}
    assert each["hank of cord"] == "10.2"  # 12 m at 0.85 a metre
    assert each["pane 674 x 608 mm"] == "15.57"  # 0.409792 m2 at 38.00


def test_nails_are_listed_where_stated_and_said_to_be_left_out_elsewhere(file, house_of, text_of):
    nails = cord_nails_of(house_of("plain"))
    assert [(one.window, one.place, one.number, one.length_mm) for one in nails.lines] == [
        ("W1", "upper", 6, 25.0),
        ("W1", "lower", 6, 25.0),
    ]
    said = said_on(text_of, file("lists.pdf"))
    assert f"left out where the survey states none: {', '.join(nails.left_out)}." in said


def test_sheets_and_take_off_have_the_same_cords(house_of):
    house = house_of("plain")
    ours, theirs = cords_of(house), taken_off.cords_of(house.plan)
    assert [one._replace(is_optional=False) for one in ours] == [
        one._replace(is_optional=False) for one in theirs
    ]
    renewed = {
        (one.window, one.part.split()[0])
        for one in house.job.work
        if one.operation == "re-cord a side"
    }
    for one in ours:
        assert not (one.is_optional and (one.window, one.place) in renewed)


def test_a_house_without_findings_says_that_nothing_is_reckoned(file, house_of, text_of):
    assert house_of("emptiest").job.overhaul is None
    said = said_on(text_of, file("lists.pdf", "emptiest"))
    assert "No finding is recorded, so no timber, glass, putty or paint is reckoned." in said
