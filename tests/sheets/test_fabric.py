"""The fabric of a window drawn: what is new is hatched where it is, and nothing else is."""

from __future__ import annotations

import pytest

from evenhung.plan import plan_house
from evenhung.plan.overhaul import overhaul_in_full
from evenhung.sheets.elevation.fabric import fabric_of
from evenhung.sheets.scene.shapes import Line, Rect, Words
from evenhung.sheets.svg import svg_of
from evenhung.survey import survey_from

SIZES = {"stile": "48 mm", "top_rail": "40 mm", "bottom_rail": "75 mm", "bar": "22 mm"}
ROT = {"seen": "rot", "measured_from": "bottom", "length": "95 mm", "depth": "30 mm"}


@pytest.fixture
def drawn(small_window):
    """Gives ``drawn(*findings, **changes)``: the drawing of one window with some findings."""

    def draw(*findings, **changes):
        window = small_window(*findings, sash=SIZES, **changes)
        survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
        plan = plan_house(survey_from(survey))
        return fabric_of(plan.windows[0], overhaul_in_full(plan).windows[0])

    return draw


def patches(drawing):
    """Give what is hatched by its title."""
    found = {}
    for group in drawing.groups:
        for inner in group.groups():
            if any(getattr(one, "layer", None) == "hatch" for one in inner.members):
                (rect,) = [one for one in inner.members if isinstance(one, Rect)]
                found.setdefault(inner.title, []).append(rect)
    return found


def test_a_splice_is_hatched_point_to_point_from_where_it_begins(drawn):
    (rect,) = patches(drawn({"part": "lower left stile", **ROT}))["lower left stile: splice"]
    assert (rect.x, rect.y) == (-428.5, 0.0)
    assert (rect.width, rect.height) == (48.0, pytest.approx(95 + 50 + 440))


def test_the_upper_sash_stands_at_the_head(drawn):
    top = {"part": "upper right stile", **ROT, "measured_from": "top"}
    (rect,) = patches(drawn(top))["upper right stile: splice"]
    assert rect.y + rect.height == pytest.approx(1650)
    assert rect.x + rect.width == pytest.approx(428.5)


def test_a_splice_of_a_rail_is_seen_between_the_stiles(drawn):
    rail = {"part": "lower bottom rail", **ROT, "measured_from": "left", "slope": 4}
    (rect,) = patches(drawn({**rail, "treatment": "splice"}))["lower bottom rail: splice"]
    assert rect.x == pytest.approx(-428.5 + 48)
    assert rect.x + rect.width == pytest.approx(-428.5 + 95 + 50 + 4 * 44)


def test_a_new_pane_is_hatched_the_other_way_in_its_place(drawn):
    pane = {"part": "lower glass", "seen": "broken", "column": 3, "row": 1}
    drawing = drawn(pane, {"part": "lower left stile", **ROT})
    (rect,) = patches(drawing)["lower glass: renew pane"]
    assert rect.x + rect.width == pytest.approx(428.5 - 48)
    assert rect.y + rect.height == pytest.approx(850 - 40)
    rising = {}
    for group in drawing.groups:
        for inner in group.groups():
            if inner.layer in ("sash", "glass") and inner.title:
                for one in inner.members:
                    if getattr(one, "layer", None) == "hatch":
                        line = next(line for line in one.shapes() if isinstance(line, Line))
                        slope = (line.end[1] - line.start[1]) * (line.end[0] - line.start[0])
                        rising[inner.layer] = slope > 0
    assert rising == {"sash": True, "glass": False}


@pytest.mark.parametrize(
    "part",
    ["sill", "head", "left inner lining", "head staff bead", "right staff bead", "sill staff bead"],
)
def test_the_frame_is_hatched_where_it_is_seen(drawn, part):
    found = patches(drawn({"part": part, "seen": "missing"}))
    assert list(found) == [f"{part}: renew part"]


def test_what_is_hidden_is_named_and_not_drawn(drawn):
    drawing = drawn(
        {"part": "left back lining", "seen": "missing"}, {"part": "sill", "seen": "rot"}
    )
    assert patches(drawing) == {}
    assert "not seen from inside, or not reckoned: left back lining, sill" in drawing.description


def test_a_new_sash_is_hatched_member_by_member(drawn):
    found = patches(drawn({"part": "lower sash", "seen": "broken"}))
    assert len(found["lower sash: renew sash"]) == 4


def test_the_share_kept_stands_below_and_is_at_most_where_not_all_is_known(drawn):
    def words(drawing):
        return [
            one.text for group in drawing.groups for one in group.shapes() if isinstance(one, Words)
        ]

    known = words(drawn({"part": "lower left stile", **ROT}))
    assert known[1] == "100 % of the old glass kept"
    assert known[0].endswith("% of the old timber kept")
    unknown = words(drawn({"part": "lower left stile", "seen": "rot"}))
    assert unknown[0].startswith("at most 100 %")


def test_nothing_found_is_nothing_hatched_and_it_is_written_as_a_picture(drawn):
    drawing = drawn()
    assert patches(drawing) == {}
    assert "<svg" in svg_of(drawing)


def test_a_window_of_one_curved_sash_is_drawn_too(small_window):
    window = small_window(sash={**SIZES, "head": "round", "weighed": "9 kg"})
    del window["lower"]
    survey = {
        "form": 1,
        "house": {"name": "Alder Row"},
        "window": [{**window, "finding": [{"part": "upper glass", "seen": "broken"}]}],
    }
    plan = plan_house(survey_from(survey))
    drawing = fabric_of(plan.windows[0], overhaul_in_full(plan).windows[0])
    assert len(patches(drawing)["upper glass: renew pane"]) == 6
