"""The details: every size where the survey has it, what nobody measured marked, words clear."""

import copy
import io
import tomllib

import ezdxf
import pytest

from evenhung.plan import plan_house
from evenhung.sheets.details import jamb_of, meeting_of, sides_of
from evenhung.sheets.dxf import dxf_of
from evenhung.sheets.scene import Circle, Dimension
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from


def changed(number=0, **changes):
    """Give the plan of a window of the demo house with fields set by their paths, or taken out."""
    survey = copy.deepcopy(tomllib.loads(SURVEY.read_text(encoding="utf-8")))
    for path, value in changes.items():
        *parts, last = path.split("__")
        table = survey["window"][number]
        for part in parts:
            table = table.setdefault(part, {})
        if value is None:
            table.pop(last)
        else:
            table[last] = value
    return plan_house(survey_from(survey)).windows[number]


def dimensions(drawing):
    """Give how long each dimension is, and its words, with whether it is marked as usual."""
    return [
        (abs(one.end - one.start), one.words, one.under, group.is_assumed)
        for group in drawing.every_group()
        for one in group.members
        if isinstance(one, Dimension)
    ]


def test_a_horizontal_section_is_as_long_as_the_survey_says():
    window = changed(
        box__stile_thickness="27 mm",
        box__compartment_depth="63 mm",
        box__compartment_width="52 mm",
        upper__thickness="41 mm",
        lower__thickness="46 mm",
        lower__stile="51 mm",
        upper__stile="51 mm",
    )
    found = dimensions(jamb_of(window))
    lengths = [mm for mm, *_ in found]
    assert sorted(lengths) == pytest.approx(sorted([27.0, 63.0, 52.0, 52.0, 41.0, 46.0, 51.0]))
    assert not any(is_assumed for *_, is_assumed in found)
    for mm, own, other, _ in found:
        assert other == f"{mm:g} mm"
        assert own.endswith(" in")


def test_what_nobody_measured_is_dashed_marked_and_listed(house):
    drawing = jamb_of(house.windows[0])
    usual = [one for one in dimensions(drawing) if one[3]]
    assert sorted(mm for mm, *_ in usual) == pytest.approx([44.0, 44.0, 48.0])
    assert all(other.endswith(" *") for _, _, other, _ in usual)
    assert {"thickness of the sashes", "stiles", "linings", "parting beads"} <= set(drawing.assumed)
    assert "meeting rails" not in drawing.assumed


def test_each_sash_runs_in_its_own_plane_clear_of_beads_and_linings(house):
    drawing = jamb_of(house.windows[4])
    room = {g.part: g.room(0.0) for g in drawing.every_group() if g.part.endswith(".stile")}
    bead = next(g.room(0.0) for g in drawing.every_group() if g.title == "parting bead")
    outer = next(g.room(0.0) for g in drawing.every_group() if g.title == "outer lining")
    staff = next(g.room(0.0) for g in drawing.every_group() if g.title == "staff bead")
    assert room["upper.stile"].bottom > bead.top
    assert room["upper.stile"].top < outer.bottom
    assert room["lower.stile"].top < bead.bottom
    assert room["lower.stile"].bottom > staff.top
    assert outer.left < room["upper.stile"].right < 0.0


def test_each_weight_hangs_on_its_cord_in_its_compartment(house):
    plan = house.windows[0]
    drawing = jamb_of(plan)
    circles = {
        g.part: g.members[0]
        for g in drawing.every_group()
        if g.layer == "weight" and isinstance(g.members[0], Circle)
    }
    assert {part: circle.radius for part, circle in circles.items()} == {
        "upper.right": 19.0,
        "lower.right": 19.0,
    }
    side = plan.lower.found.inputs.right
    for circle in circles.values():
        # edge of the sash 1.5 mm within the stile, half the cord, over the wheel and down
        assert circle.centre[0] == pytest.approx(-1.5 - 3.0 + 2.0 * side.radius_mm)
    assert circles["upper.right"].centre[1] > 0.0 > circles["lower.right"].centre[1]


def test_a_square_weight_is_square_and_a_missing_one_is_not_drawn():
    square = changed(0, lower__right__section="square")
    (body,) = (
        g for g in jamb_of(square).every_group() if g.part == "lower.right" and g.layer == "weight"
    )
    room = body.room(0.0)
    assert room.right - room.left == pytest.approx(room.top - room.bottom) == pytest.approx(38.0)
    assert not isinstance(body.members[0], Circle)
    bare = changed(0, lower__left=None, lower__right=None)
    drawing = jamb_of(bare, side="left")
    assert not [g for g in drawing.every_group() if g.part == "lower.left" and g.layer == "weight"]
    hung = bare.lower.proposal
    assert (
        hung
        or "The left weight of the lower sash is not drawn: not recorded." in drawing.description
    )


def test_the_left_side_is_the_right_one_in_a_mirror_and_drawn_where_it_differs(house):
    right, left = (jamb_of(house.windows[0], side=side) for side in ("right", "left"))
    assert left.room() == pytest.approx(right.mirrored().room())
    assert sides_of(house.windows[0]) == ("right",)
    assert sides_of(changed(0, box__left__compartment_depth="48 mm")) == ("right", "left")


def test_the_meeting_rails_stand_where_they_are_when_shut():
    window = changed(
        upper__bottom_rail="39 mm",
        lower__top_rail="41 mm",
        upper__thickness="44 mm",
        lower__thickness="45 mm",
    )
    drawing = meeting_of(window)
    found = dimensions(drawing)
    assert sorted(mm for mm, *_ in found) == pytest.approx([39.0, 40.0, 41.0, 44.0, 45.0])
    upper, lower = (
        next(g.room(0.0) for g in drawing.every_group() if g.part == part)
        for part in ("upper.bottom_rail", "lower.top_rail")
    )
    assert (upper.bottom, upper.top) == pytest.approx((810.0, 849.0))
    assert (lower.bottom, lower.top) == pytest.approx((809.0, 850.0))
    assert "The rails share 1 9/16 in (39 mm)" in drawing.description
    assert "meeting rails" not in drawing.assumed


def test_rails_that_do_not_meet_are_said_to_be_open():
    window = changed(
        upper__height="790 mm", upper__meeting_overlap=None, upper__bottom_rail="30 mm"
    )
    drawing = meeting_of(window)
    assert "As surveyed the rails do not meet: " in drawing.description


def test_one_sash_alone_has_no_meeting_rails():
    assert meeting_of(changed(0, upper=None)) is None
    assert "Cut are the lower sash," in jamb_of(changed(0, upper=None)).description


@pytest.mark.slow
def test_every_detail_of_the_demo_house_is_audited_clean(house):
    for window in house.windows:
        for drawing in (jamb_of(window), jamb_of(window, side="left"), meeting_of(window)):
            audit = ezdxf.read(io.StringIO(dxf_of(drawing))).audit()
            assert not audit.errors
            assert not audit.fixes


@pytest.mark.parametrize("text_mm", [None, 5.0, 8.0, 11.0])
def test_no_words_lie_over_others_and_no_leader_crosses_them(house, collisions, text_mm):
    for window in house.windows:
        for drawing in (jamb_of(window, text_mm=text_mm), meeting_of(window, text_mm=text_mm)):
            assert collisions(drawing) == []
