"""The take-off: what is bought for what is done, and how it is cut."""

from __future__ import annotations

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.takeoff.cords import cords_of
from evenhung.plan.takeoff.cutting import cuts_of
from evenhung.plan.takeoff.glass import glass_orders
from evenhung.plan.takeoff.nails import Nails, nails_of
from evenhung.survey import survey_from

WEIGHT = {"weighed": "9 lb", "length": "500 mm", "diameter": "38 mm", "metal": "cast iron"}
SASH = {
    "height": "850 mm",
    "width": "857 mm",
    "travel": "780 mm",
    "cord_end": "260 mm",
    "weighed": "20 lb",
    "stile": "48 mm",
    "bottom_rail": "75 mm",
    "left": WEIGHT,
    "right": WEIGHT,
}
WINDOW = {
    "box": {
        "clear_width": "860 mm",
        "clear_height": "1650 mm",
        "weight_space": "1545 mm",
        "pulley_drop": "90 mm",
    },
    "pulley": {"wheel": "44 mm"},
    "upper": SASH,
    "lower": SASH,
}
STILE = {
    "part": "lower left stile",
    "seen": "rot",
    "measured_from": "bottom",
    "length": "95 mm",
    "depth": "30 mm",
}
RAIL = {"part": "lower bottom rail", "seen": "rot", "grade": "gone"}
PANE = {"part": "lower glass", "seen": "broken"}


def overhaul(*windows, stock=None):
    house = {"name": "Alder Row", **({"stock": stock} if stock else {})}
    survey = {
        "form": 1,
        "house": house,
        "window": [
            {**WINDOW, "tag": f"W{number}", "finding": list(findings)}
            for number, findings in enumerate(windows, 1)
        ],
    }
    return overhaul_of(plan_house(survey_from(survey)))


def test_timber_is_taken_off_with_what_is_trimmed_and_planed():
    splice, rail = overhaul([STILE, RAIL]).takeoff.timber
    assert (splice.part, splice.what) == ("lower left stile", "splice")
    assert splice.length_mm == pytest.approx(95 + 50 + 440 + 20)
    assert (splice.face_mm, splice.thick_mm, splice.sawn_mm) == (48.0, 44.0, (52.0, 48.0))
    assert (rail.length_mm, rail.face_mm) == (877.0, 75.0)


def test_a_part_is_made_new_once_and_is_not_spliced_besides():
    also = {**STILE, "measured_from": "top", "treatment": "renew part"}
    assert [
        one.what for one in overhaul([STILE, also, also | {"seen": "split"}]).takeoff.timber
    ] == ["renew part"]
    sash = {"part": "lower sash", "seen": "broken"}
    found = overhaul([STILE, sash]).takeoff.timber
    assert {one.what for one in found} == {"renew sash"}
    assert len(found) == 4


def test_panes_alike_are_grouped_over_the_house():
    old = {**PANE, "historic": "yes"}
    found = overhaul([PANE], [PANE], [old]).takeoff.glass
    assert [(one.number, one.windows, one.is_historic) for one in found] == [
        (2, ("W1", "W2"), False),
        (1, ("W3",), True),
    ]


def test_putty_and_paint_are_of_all_that_is_worked_on():
    one, two = overhaul([PANE]).takeoff, overhaul([PANE], [PANE]).takeoff
    assert two.putty.mass_kg == pytest.approx(2 * one.putty.mass_kg)
    assert two.paint.area_m2 == pytest.approx(2 * one.paint.area_m2)
    assert one.paint.least_l == pytest.approx(one.paint.area_m2 * 3 / 11)
    assert one.paint.most_l == pytest.approx(
        one.paint.area_m2 * 3 / (350 * 0.3048**2 / 3.785411784)
    )


def test_cords_and_make_weights_come_from_the_hang():
    takeoff = overhaul([STILE]).takeoff
    assert [(one.window, one.place) for one in takeoff.cord] == [("W1", "upper"), ("W1", "lower")]
    assert all(one.cut_mm > 900.0 for one in takeoff.cord)
    assert {(one.place, one.metal) for one in takeoff.weights} == {
        ("upper", "mild steel"),
        ("lower", "mild steel"),
    }


def test_a_chain_is_no_cord():
    chain = {**WEIGHT, "hung": "chain"}
    window = {**WINDOW, "tag": "W1", "finding": [STILE]}
    window["upper"] = {**SASH, "left": chain, "right": chain}
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
    takeoff = overhaul_of(plan_house(survey_from(survey))).takeoff
    assert [one.place for one in takeoff.cord] == ["lower"]


def test_a_weight_that_is_missing_is_taken_off_as_a_new_one():
    window = {**WINDOW, "tag": "W1", "finding": [STILE]}
    window["lower"] = {**SASH, "right": {"hung": "none"}}
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
    takeoff = overhaul_of(plan_house(survey_from(survey))).takeoff
    new = [one for one in takeoff.weights if one.place == "lower" and one.side == "right"]
    assert len(new) == 1
    assert new[0].mass_kg > 3.0
    assert not any("cast iron" in one.what for one in cuts_of(takeoff, None))


def test_a_make_weight_whose_length_is_not_known_is_left_out():
    window = {**WINDOW, "tag": "W1", "finding": [STILE]}
    bare = {"weighed": "9 lb", "length": "500 mm"}
    window["lower"] = {**SASH, "left": bare, "right": bare}
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
    takeoff = overhaul_of(plan_house(survey_from(survey))).takeoff
    assert {one.place for one in takeoff.weights} == {"upper"}


def cut_lengths(cuts):
    return sorted(
        length for one in cuts.lengths for _ in range(one.number) for length in one.cuts_mm
    )


def test_everything_is_cut_and_fits_what_it_is_cut_from():
    found = overhaul([STILE, RAIL, PANE], [STILE, {"part": "sill", "seen": "missing"}])
    cuts = {one.what: one for one in cuts_of(found.takeoff, None)}
    assert cut_lengths(cuts["timber 52 x 48 mm sawn"]) == [605, 605]
    assert cuts["timber 52 x 48 mm sawn"].number == 1
    assert len(cut_lengths(cuts["cord 6 mm"])) == 8
    assert "mild steel 38 mm" in cuts
    for one in cuts.values():
        assert one.is_fewest
        assert not one.too_long_mm
        for length in one.lengths:
            used = sum(length.cuts_mm) + one.kerf_mm * len(length.cuts_mm)
            assert used - one.kerf_mm <= one.stock_mm
            assert length.left_mm <= one.stock_mm - used + one.kerf_mm


def test_what_is_longer_than_it_is_sold_is_named():
    window = {**WINDOW, "tag": "W1", "box": {**WINDOW["box"], "clear_width": "2.9 m"}}
    window["finding"] = [{"part": "sill", "seen": "missing"}]
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
    takeoff = overhaul_of(plan_house(survey_from(survey))).takeoff
    (sill,) = [one for one in cuts_of(takeoff, None) if one.what.startswith("timber")]
    assert (sill.number, len(sill.too_long_mm)) == (0, 1)


def test_bars_are_as_long_as_the_stock_says():
    stock = {
        "kerf": "3 mm",
        "bar": [{"metal": "mild steel", "diameter": "38 mm", "length": "2 m"}],
    }
    found = overhaul([STILE], stock=stock)
    survey_stock = survey_from(
        {"form": 1, "house": {"name": "A", "stock": stock}, "window": []}
    ).house.stock
    (steel,) = [one for one in cuts_of(found.takeoff, survey_stock) if "steel" in one.what]
    assert (steel.stock_mm, steel.kerf_mm) == (2000, 3)


def test_the_document_has_all_of_it():
    survey = {
        "form": 1,
        "house": {"name": "Alder Row"},
        "window": [{**WINDOW, "tag": "W1", "finding": [STILE, PANE]}],
    }
    takeoff = document_of(plan_house(survey_from(survey)))["takeoff"]
    assert set(takeoff) == {"timber", "glass", "putty", "paint", "cord", "weights"}
    assert takeoff["glass"][0]["windows"] == ["W1"]
    assert takeoff["glass"][0]["historic"] is False
    assert set(takeoff["paint"]) == {"area_m2", "coats", "least_l", "most_l"}


def test_panes_of_which_a_rule_may_ask_safety_glass_are_ordered_apart():
    low = {"sill_above_floor": "400 mm"}
    high = {"sill_above_floor": "1500 mm"}
    windows = [
        {**WINDOW, "tag": tag, "place": place, "finding": [PANE]}
        for tag, place in (("W1", low), ("W2", high), ("W3", low))
    ]
    house = {"name": "Alder Row", "glass_rules": "england"}
    plan = plan_house(survey_from({"form": 1, "house": house, "window": windows}))
    orders = glass_orders([one.glazing for one in overhaul_of(plan).windows])
    assert {(one.line.is_safety, one.line.windows) for one in orders} >= {(True, ("W1", "W3"))}
    (asked,) = [one for one in orders if one.line.is_safety]
    assert len(asked.panes) == asked.line.number == 2
    assert any(one.answer.applies and len(one.panes) == 2 for one in asked.said)


NAILS = {"count": 4, "length": "25 mm"}


@pytest.mark.parametrize(
    ("nails", "number", "is_assumed", "long"),
    [
        (NAILS, 8, False, 25.0),
        ({"count": 4}, 8, False, None),
        ({"length": "25 mm"}, 6, True, 25.0),
    ],
)
def test_nails_are_both_sides_as_far_as_they_are_stated(nails, number, is_assumed, long):
    window = {**WINDOW, "tag": "W1", "lower": {**SASH, "nails": nails}}
    plan = plan_house(survey_from({"form": 1, "house": {"name": "A"}, "window": [window]}))
    found = nails_of(plan, cords_of(plan))
    (line,) = found.lines
    assert (line.place, line.number, line.is_number_assumed) == ("lower", number, is_assumed)
    assert line.length_mm == long
    assert found.left_out == ("W1 upper",)


def test_a_knotted_cord_and_a_chain_take_no_nails():
    chain = {**WEIGHT, "hung": "chain"}
    window = {
        **WINDOW,
        "tag": "W1",
        "upper": {**SASH, "anchorage": "knotted", "nails": NAILS},
        "lower": {**SASH, "left": chain, "right": chain, "nails": NAILS},
    }
    plan = plan_house(survey_from({"form": 1, "house": {"name": "A"}, "window": [window]}))
    assert [one.line for one in cords_of(plan)] == ["cord", "chain"]
    assert nails_of(plan, cords_of(plan)) == Nails((), ())


def test_a_frayed_cord_may_not_stay():
    frayed = {**WEIGHT, "state": "frayed"}
    sound = {**SASH, "left": WEIGHT, "right": WEIGHT}
    window = {**WINDOW, "tag": "W1", "lower": {**sound, "left": frayed}}
    plan = plan_house(survey_from({"form": 1, "house": {"name": "A"}, "window": [window]}))
    assert not {one.place: one.is_optional for one in cords_of(plan)}["lower"]
