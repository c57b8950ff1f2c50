"""The section through a box: held against the positions, and honest about what is not known."""

import copy
import tomllib

import pytest

from evenhung.errors import DrawingDomainError
from evenhung.plan import plan_house
from evenhung.plan.positions import Run, positions_of
from evenhung.quantities import print_length
from evenhung.sheets.scene import Drawing, Group, Line, Rect, Stretch, Words
from evenhung.sheets.scene.opening import opened
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import svg_of
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from


def part(drawing, path):
    """Give the room of a part, the sash shut."""
    (found,) = (group for group in drawing.every_group() if group.part == path)
    return found.room(0.0)


def changed(place="lower", **changes):
    """Give the plan of the first window's sash with some of its fields set or taken out."""
    survey = copy.deepcopy(tomllib.loads(SURVEY.read_text(encoding="utf-8")))
    sash = survey["window"][0][place]
    for name, value in changes.items():
        if value is None:
            sash.pop(name)
        else:
            sash[name] = value
    return getattr(plan_house(survey_from(survey)).windows[0], place)


@pytest.mark.parametrize("side", ["left", "right"])
def test_weight_and_sash_stand_where_the_positions_have_them(house, side):
    plan = house.windows[1].lower
    positions, drawing = positions_of(plan), section_of(plan, side=side)
    at = getattr(positions.hung, side)
    weight = part(drawing, f"lower.{side}")
    assert (weight.bottom, weight.top) == pytest.approx(
        (at.weight_foot.shut_mm, at.knot_top.shut_mm)
    )
    sash = part(drawing, "lower.stile")
    assert (sash.bottom, sash.top) == pytest.approx((0.0, 850.0))
    way = 1.0 if side == "right" else -1.0
    assert way * sash.right <= 0.0 if side == "right" else way * sash.left <= 0.0
    assert min(way * weight.left, way * weight.right) > 0.0


def test_the_cord_hangs_plumb_from_groove_to_wheel_to_weight(house):
    plan = house.windows[0].lower
    drawing, inputs = section_of(plan), plan.found.inputs
    runs = [g for g in drawing.every_group() if g.layer == "cord" and g.motion]
    (sash_run, weight_run) = (next(iter(group.shapes())) for group in runs)
    assert sash_run.start[0] == sash_run.end[0] == pytest.approx(-1.5 - 3.0)
    assert weight_run.start[0] == pytest.approx(-1.5 - 3.0 + 2.0 * inputs.right.radius_mm)
    assert sash_run.width == inputs.cord_mm == 6.0


def test_a_make_weight_is_drawn_at_the_foot_as_long_as_the_plan_has_it(house):
    plan = house.windows[1].lower
    (made,) = (g for g in section_of(plan).every_group() if g.layer == "make-weight")
    at = positions_of(plan).hung.right
    assert made.room(0.0).bottom == pytest.approx(at.weight_foot.shut_mm)
    assert made.room(0.0).top - made.room(0.0).bottom == pytest.approx(plan.proposal.right.added_mm)
    found = section_of(plan, as_found=True)
    assert not [g for g in found.every_group() if g.layer == "make-weight"]


def test_the_pocket_is_where_the_survey_has_it_or_marked_as_assumed(house):
    (pocket,) = (g for g in section_of(house.windows[0].lower).every_group() if g.layer == "pocket")
    assert pocket.is_assumed  # its height above the sill is not surveyed
    room = pocket.room(0.0)
    assert room.top - room.bottom == pytest.approx(420.0 + 25.0)  # its ends are cut on a slope


def test_a_missing_weight_and_a_loose_one_are_drawn_as_hidden_and_said(house):
    gone = section_of(house.windows[2].lower, as_found=True)
    assert "The right weight as found: missing." in gone.description
    loose = section_of(house.windows[5].lower, side="left", as_found=True)
    assert "The left weight as found: loose." in loose.description
    for drawing in (gone, loose):
        layers = {group.layer for group in drawing.every_group()}
        assert "hidden" in layers
        assert not layers & {"weight", "knot"}
        assert not [g for g in drawing.every_group() if g.facts]


def test_a_weight_of_unknown_length_is_not_drawn_and_the_reason_is_given():
    plan = changed("upper", right={"weighed": "9 lb 12 oz"})
    drawing = section_of(plan, as_found=True)
    assert "Weight top not drawn: an upper sash's cord is set by its weights" in drawing.description
    assert "no weight can be placed" in "".join(svg_of(drawing))
    lower = section_of(changed(right={"weighed": "8 lb 14 oz"}), as_found=True)
    assert "Weight foot not drawn: the length of the weight is not known." in lower.description
    assert [g.facts["clearance"] for g in lower.every_group() if g.facts] == ["top"]


def test_an_empty_band_is_drawn_on_the_shortest_cord_and_says_so(house):
    drawing = section_of(house.windows[3].lower, as_found=True)
    assert "no cord serves: drawn on the shortest" in svg_of(drawing)
    assert "the weight stands on the box bottom" in drawing.description


def test_clearances_say_what_they_are_and_what_is_wanted(house):
    drawing = section_of(house.windows[1].lower)
    hang = house.windows[1].lower.proposal.hang
    top, bottom = (group.facts for group in drawing.every_group() if group.facts)
    assert float(top["shut-mm"]) == pytest.approx(hang.top_clear_mm, abs=1e-4)
    assert float(bottom["shut-mm"]) - 780.0 == pytest.approx(hang.bottom_clear_mm, abs=1.0)
    assert (top["per-mm"], bottom["per-mm"]) == ("1", "-1")
    assert (top["state"], bottom["state"]) == ("clear", "clear")
    assert top["close"] == "closer than the 1 9/16 in (40 mm) wanted"


def test_a_knotted_cord_has_no_nails_to_draw():
    nailed, knotted = (
        {g.layer for g in section_of(changed(anchorage=how)).every_group()}
        for how in ("nailed", "knotted")
    )
    assert "nail" in nailed
    assert "nail" not in knotted


def test_three_nails_stand_between_the_top_nail_and_the_cords_end(house):
    (nails,) = (g for g in section_of(house.windows[0].lower).every_group() if g.layer == "nail")
    heights = [line.start[1] for line in nails.members]
    assert heights == pytest.approx([850 - 110, 850 - 140, 850 - 170])


def test_a_fixed_sash_has_no_section(house):
    assert section_of(house.windows[3].upper) is None


@pytest.mark.parametrize(("window", "place"), [(0, "upper"), (1, "lower")])
def test_a_section_for_paper_stands_opened_where_the_positions_have_it(house, window, place):
    plan = getattr(house.windows[window], place)
    positions = positions_of(plan)
    at = positions.hung.right
    for travel_mm in (0.0, 250.0, positions.travel_mm):
        drawing = section_of(plan, opened_mm=travel_mm)
        assert not [group for group in drawing.every_group() if group.motion]
        assert part(drawing, f"{place}.stile").top == pytest.approx(
            positions.sash_top.at_mm(travel_mm)
        )
        assert part(drawing, f"{place}.right").bottom == pytest.approx(
            at.weight_foot.at_mm(travel_mm)
        )
        runs = [
            next(iter(group.shapes()))
            for group in drawing.every_group()
            if group.layer == "cord" and isinstance(group.members[0], Line)
        ]
        assert [run.end[1] for run in runs] == pytest.approx(
            [positions.cord_end.at_mm(travel_mm), at.weight_top.at_mm(travel_mm)]
        )
        words = [
            text.text for g in drawing.groups for text in g.shapes() if isinstance(text, Words)
        ]
        for room in (at.top_clear, at.bottom_clear):
            for system in ("imperial", "metric"):
                assert print_length(room.at_mm(travel_mm), system) in words


def test_a_sash_opens_no_further_than_it_runs(house):
    with pytest.raises(DrawingDomainError, match="opened_mm: 781: from 0 to 780, the travel"):
        section_of(house.windows[0].lower, opened_mm=781.0)


def test_only_lines_stretch():
    bent = Group("cord", (Rect(0.0, 0.0, 1.0, 1.0),), motion=Stretch(0.0, 1.0, Run(1.0, 1.0)))
    drawing = Drawing("section", "", "", (bent,), margin_mm=0.0, travel_mm=5.0)
    with pytest.raises(TypeError, match="Rect cannot stretch; only a line can"):
        opened(drawing, 1.0, {})


def test_a_section_for_paper_shows_where_a_weight_strikes(house):
    plan = house.windows[3].lower
    states = []
    for travel_mm in (0.0, 740.0, 800.0):
        drawing = section_of(plan, as_found=True, opened_mm=travel_mm)
        states += [g.facts["state"] for g in drawing.every_group() if g.facts][1:]
    assert states == ["clear", "close", "struck"]


@pytest.mark.parametrize("part_of_travel", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("text_mm", [None, 25.0, 33.0])
def test_no_leader_runs_through_a_figure(house, collisions, text_mm, part_of_travel):
    for plan in house.sashes():
        positions = positions_of(plan)
        for side in ("left", "right"):
            if positions is not None:
                opened_mm = part_of_travel * positions.travel_mm
                drawing = section_of(plan, side=side, opened_mm=opened_mm, text_mm=text_mm)
                assert collisions(drawing) == [], (drawing.title, opened_mm)


@pytest.mark.parametrize("part_of_travel", [0.0, 0.25, 0.5, 0.75, 1.0])
def test_no_figure_passes_under_a_leader_while_it_moves(house, collisions, part_of_travel):
    """What must cross a leader passes over it: a weight hides it, a figure has a rim of paper."""
    count = 0
    for plan in house.sashes():
        positions = positions_of(plan)
        for side in ("left", "right") if positions is not None else ():
            opened_mm = part_of_travel * positions.travel_mm
            moving = section_of(plan, side=side)
            still = section_of(plan, side=side, opened_mm=opened_mm)
            figures = {one.figure: one.text for one in words_in(still) if one.figure}
            there = opened(moving, opened_mm, figures)
            crossed = {text for text, what, *_ in collisions(there) if what == "leader"}
            under = [text for text in crossed if not passes_over_leaders(there, text)]
            assert under == [], (there.title, opened_mm)
            count += len(crossed)
    assert count == 0 or part_of_travel > 0.0


def passes_over_leaders(drawing, text):
    """Tell whether words are drawn after the leaders."""
    groups = list(drawing.groups)
    (leaders,) = (
        number
        for number, group in enumerate(groups)
        if group.layer == "label" and any(isinstance(one, Line) for one in group.members)
    )
    return all(
        not any(isinstance(one, Words) and one.text == text for one in group.shapes())
        for group in groups[:leaders]
    )


def words_in(drawing):
    return [
        one for group in drawing.every_group() for one in group.members if isinstance(one, Words)
    ]


def test_a_leader_is_drawn_to_the_part_that_it_names(house):
    for plan in house.sashes():
        drawing = section_of(plan, opened_mm=0.0) if plan.found else None
        if drawing is None:
            continue
        (names,) = (g for g in drawing.groups if g.layer == "label" and len(g.members) > 12)
        words = [one.text for one in names.members if isinstance(one, Words)]
        begins = dict(zip(words, [one.start for one in names.members[::4]], strict=True))
        rooms = {g.title: g.room(0.0) for g in drawing.every_group() if g.title}
        for name in ("pulley stile", "back lining", "pocket", "box bottom", "head"):
            if name in begins:
                x, y = begins[name]
                room = rooms[name].widened(0.01)
                assert room.left <= x <= room.right, (drawing.title, name)
                assert room.bottom <= y <= room.top, (drawing.title, name)
