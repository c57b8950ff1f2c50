"""What is proposed for a finding, what was decided instead, what it takes away, and its work."""

from __future__ import annotations

import pytest

from evenhung.physics import mass
from evenhung.plan import document_of, plan_house
from evenhung.plan.ledger import Ledger
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.parts import parts_of
from evenhung.plan.words import Words
from evenhung.survey import survey_from
from evenhung.survey.members import PARTS, SEEN, TREATMENTS

BOX = {"stile_thickness": "25 mm", "compartment_depth": "60 mm"}
STILE, SILL = "lower left stile", "sill"
ROT = {"seen": "rot", "measured_from": "bottom", "length": "95 mm", "depth": "30 mm"}


@pytest.fixture
def window_with(small_window):
    """Gives ``window_with(*findings, **window)``: a window as plain data."""
    return lambda *findings, **window: small_window(*findings, box=BOX, **window)


@pytest.fixture
def overhaul(window_with):
    """Gives ``overhaul(*findings, **window)``: that of a house of one window."""

    def make(*findings, **window):
        one = window_with(*findings, **window)
        survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [one]}
        return overhaul_of(plan_house(survey_from(survey)))

    return make


@pytest.fixture
def treated(overhaul):
    """Gives ``treated(finding, **window)``: its treatment."""

    def make(finding, **window):
        (treatment,) = overhaul(finding, **window).windows[0].repair.treatments
        return treatment

    return make


@pytest.fixture
def codes(overhaul):
    """Gives ``codes(*findings, **window)``: of the notes on that window."""

    def make(*findings, **window):
        return {note.code for note in overhaul(*findings, **window).windows[0].notes}

    return make


@pytest.fixture
def work(overhaul):
    """Gives ``work(*findings, **window)``: how much of each operation on each part."""

    def make(*findings, **window):
        asked = overhaul(*findings, **window).windows[0].work
        return {(one.operation, one.part): one.quantity for one in asked}

    return make


PROPOSED = [
    ({"part": STILE, "seen": "sound"}, "leave"),
    ({"part": STILE, "seen": "rot", "grade": "sound"}, "leave"),
    ({"part": STILE, **ROT}, "splice"),
    ({"part": STILE, "seen": "rot"}, "splice"),
    ({"part": STILE, **ROT, "length": "40 mm", "depth": "8 mm"}, "consolidate"),
    ({"part": STILE, **ROT, "length": "500 mm"}, "renew part"),
    ({"part": STILE, **ROT, "grade": "gone"}, "renew part"),
    ({"part": STILE, "seen": "missing"}, "renew part"),
    ({"part": STILE, "seen": "open joint"}, "consolidate"),
    ({"part": STILE, "seen": "painted over"}, "clean and ease"),
    ({"part": STILE, **ROT, "seen": "split", "depth": "10 mm"}, "consolidate"),
    ({"part": STILE, **ROT, "seen": "split", "length": "300 mm", "depth": "10 mm"}, "splice"),
    ({"part": "lower bars", "seen": "broken"}, "renew part"),
    ({"part": "lower bars", "seen": "split"}, "consolidate"),
    ({"part": "lower sash", "seen": "broken"}, "renew sash"),
    ({"part": SILL, "seen": "rot", "bears_load": "yes"}, "leave"),
    ({"part": "left staff bead", "seen": "rot"}, "renew part"),
    ({"part": "left staff bead", "seen": "loose"}, "clean and ease"),
    ({"part": "left staff bead", "seen": "worn"}, "renew part"),
    ({"part": "left parting slip", "seen": "worn"}, "clean and ease"),
    ({"part": "left pocket", "seen": "missing"}, "renew part"),
    ({"part": "lower glass", "seen": "cracked"}, "renew pane"),
    ({"part": "lower glass", "seen": "cracked", "historic": "yes"}, "leave"),
    ({"part": "lower glass", "seen": "broken", "historic": "yes"}, "renew pane"),
    ({"part": "lower glass", "seen": "loose"}, "re-bed"),
    ({"part": "lower putty", "seen": "perished"}, "re-bed"),
    ({"part": "lower paint", "seen": "flaking"}, "paint"),
    ({"part": "lower paint", "seen": "built up"}, "strip and paint"),
    ({"part": "upper left cord", "seen": "worn"}, "re-cord"),
    ({"part": "upper left pulley", "seen": "seized"}, "overhaul"),
    ({"part": "upper left pulley", "seen": "broken"}, "renew part"),
    ({"part": "lower fittings", "seen": "missing"}, "renew part"),
]


@pytest.mark.parametrize(("finding", "what"), PROPOSED, ids=range(len(PROPOSED)))
def test_what_is_proposed(treated, finding, what):
    treatment = treated(finding)
    assert treatment.what == treatment.proposed.what == what
    assert treatment.why


@pytest.mark.parametrize("part", sorted(PARTS))
def test_whatever_is_seen_of_a_part_has_a_treatment_of_its_kind(overhaul, treated, part):
    kind = PARTS[part].kind
    for seen in SEEN[kind]:
        found = overhaul({"part": part, "seen": seen})
        (treatment,) = found.windows[0].repair.treatments
        assert treatment.what in TREATMENTS[kind], (part, seen)
        for what in TREATMENTS[kind]:
            decided = treated({"part": part, "seen": seen, "treatment": what})
            assert decided.what == what
            assert decided.is_overridden == (what != treatment.what)


def test_a_decision_wins_and_is_noted(overhaul):
    found = overhaul({"part": STILE, **ROT, "treatment": "renew part"}).windows[0]
    assert found.repair.treatments[0].why == "as decided in the survey"
    (note,) = [note for note in found.notes if note.code == "treatment-decided"]
    assert note.text == f"{STILE}: renew part, as decided in the survey; splice was proposed"


def test_the_splice_of_a_stile_foot_by_hand(treated):
    """48 x 44 mm: the slope crosses 44, so 440 long; 95 of decay, 50 beyond; half the slope."""
    splice = treated({"part": STILE, **ROT}).splice
    assert (splice.ends, splice.scarf_mm, splice.beyond_mm) == (1, 440.0, 50.0)
    assert splice.piece_mm == pytest.approx(95 + 50 + 440)
    assert splice.replaced_mm3 == pytest.approx(48 * 44 * (95 + 50 + 220))
    assert splice.glue_mm2 == pytest.approx(48 * 44 * 101**0.5)
    assert splice.starts_mm == 0.0


def test_shallow_decay_in_the_middle_is_let_in_with_two_slopes(treated):
    """20 mm deep in a sill 120 x 70: 25 is cut away, over 120, with 250 of slope at each end."""
    finding = {"part": SILL, **ROT, "measured_from": "left", "begins": "350 mm", "depth": "20 mm"}
    splice = treated({**finding, "length": "100 mm"}).splice
    assert (splice.is_let_in, splice.ends) == (True, 2)
    assert splice.section_mm2 == pytest.approx(25 * 120)
    assert splice.replaced_mm3 == pytest.approx(25 * 120 * (100 + 2 * (50 + 125)))
    assert splice.glue_mm2 == pytest.approx(2 * 25 * 120 * 101**0.5 + 120 * (100 + 2 * 50))


def test_decay_deeper_than_the_thin_way_takes_the_whole_section(treated):
    """75 mm into a sill 120 x 70 goes in from its edge; more than half of 120 is gone."""
    finding = {"part": SILL, **ROT, "measured_from": "left", "begins": "300 mm", "depth": "75 mm"}
    splice = treated({**finding, "treatment": "splice"}).splice
    assert splice is None  # 700 of slope on either side, in a sill of 1042
    splice = treated({**finding, "slope": 4, "treatment": "splice"}).splice
    assert (splice.is_let_in, splice.across_mm) == (False, 70.0)


def test_a_length_without_a_depth_tells_short_from_long_and_no_more(treated):
    short = {"part": STILE, "seen": "split", "measured_from": "top", "length": "90 mm"}
    assert treated(short).what == "consolidate"
    assert treated({**short, "length": "400 mm"}).what == "splice"
    assert treated({**short, "seen": "rot"}).removes_mm3 is None


def test_where_a_slope_has_no_room_the_splice_runs_to_the_end(treated):
    near_end = {"part": STILE, **ROT, "begins": "30 mm"}
    assert treated(near_end).splice.ends == 1
    assert treated(near_end).splice.replaced_mm3 == pytest.approx(48 * 44 * (125 + 50 + 220))
    from_top = {"part": STILE, **ROT, "measured_from": "top"}
    assert treated(from_top).splice.starts_mm == pytest.approx(850 - 95 - 50 - 440)


def test_a_steeper_slope_is_shorter_and_a_caution(treated, codes):
    finding = {"part": STILE, **ROT, "slope": 6, "treatment": "splice"}
    assert treated(finding).splice.scarf_mm == pytest.approx(6 * 44)
    assert "scarf-steep" in codes(finding)
    assert "scarf-steep" not in codes({**finding, "slope": 10})


NOTES = {
    "treatment-decided": {"part": STILE, **ROT, "treatment": "leave"},
    "extent-unknown": {"part": STILE, "seen": "rot"},
    "no-room-to-splice": {"part": STILE, **ROT, "length": "700 mm", "treatment": "splice"},
    "deeper-than-usual": {"part": SILL, "seen": "rot", "depth": "200 mm"},
    "longer-than-usual": {"part": "left pocket", "seen": "rot", "length": "400 mm"},
    "let-in": {"part": SILL, **ROT, "measured_from": "left", "depth": "20 mm"},
    "scarf-steep": {"part": STILE, **ROT, "slope": 9},
    "may-bear-load": {"part": SILL, **ROT, "measured_from": "left"},
    "cut-under-load": {
        "part": SILL,
        **ROT,
        "measured_from": "left",
        "bears_load": "yes",
        "treatment": "splice",
    },
    "decay-wet": {"part": STILE, **ROT, "moisture_pct": 20},
    "historic-glass": {"part": "lower glass", "seen": "cracked", "historic": "yes"},
}


@pytest.mark.parametrize("code", sorted(NOTES))
def test_a_note_on_a_repair_is_made_where_it_should_be(codes, code):
    assert code in codes(NOTES[code])


def test_notes_are_not_made_just_inside_their_limits(codes):
    assert "decay-wet" not in codes({"part": STILE, **ROT, "moisture_pct": 19.9})
    no_load = {"part": SILL, **ROT, "measured_from": "left", "bears_load": "no"}
    assert not codes(no_load) & {"may-bear-load", "cut-under-load"}
    assert "may-bear-load" not in codes({"part": STILE, **ROT})
    assert codes({"part": STILE, **ROT, "moisture_pct": 12}) == set()
    assert "deeper-than-usual" not in codes({"part": SILL, "seen": "rot", "depth": "120 mm"})
    assert "longer-than-usual" not in codes(
        {"part": "left pocket", "seen": "rot", "length": "12 in"}
    )


def test_a_sash_that_would_be_mostly_new_is_told(codes):
    worn_out = [
        {"part": f"lower {part}", "seen": "rot", "grade": "gone"}
        for part in ("left stile", "right stile", "bottom rail")
    ]
    assert "sash-mostly-new" in codes(*worn_out)
    assert "sash-mostly-new" not in codes(worn_out[0])
    assert "sash-mostly-new" not in codes(
        *worn_out, {"part": "lower sash", "seen": "broken", "treatment": "renew sash"}
    )


def test_a_curved_head_is_said_to_be_reckoned_as_square(codes, window_with):
    upper = {**window_with()["upper"], "head": "round", "weighed": "9 kg"}
    assert "curved-as-square" in codes({"part": STILE, **ROT}, upper=upper)


def test_a_sash_worked_on_at_the_bench_is_taken_out_and_put_back_once(work):
    found = work({"part": STILE, **ROT}, {"part": "lower glass", "seen": "cracked", "row": 1})
    assert next(iter(found)) == ("take out a sash", "lower")
    assert found["splice", STILE] == 1.0
    assert found["renew a pane", "lower glass"] == 3.0
    assert [key for key in found if key[1] == "lower"][-3:] == [
        ("prime and paint", "lower"),
        ("refit a sash", "lower"),
        ("prove a sash", "lower"),
    ]


def test_what_is_left_makes_no_work(work):
    assert work({"part": STILE, "seen": "sound"}) == {}


def test_beads_are_counted_by_length_and_the_rest_each(work):
    found = work(
        {"part": "head staff bead", "seen": "missing"},
        {"part": "left pocket", "seen": "missing"},
        {"part": "upper left pulley", "seen": "broken"},
        {"part": "lower right cord", "seen": "worn"},
        {"part": "lower sash", "seen": "painted over"},
        {"part": "frame paint", "seen": "built up"},
        {"part": "left pulley stile", "seen": "painted over"},
        {"part": "upper right pulley", "seen": "seized"},
    )
    assert found["renew a bead", "head staff bead"] == pytest.approx(0.86)
    assert found["make a pocket", "left pocket"] == 1.0
    assert found["renew a pulley", "upper left pulley"] == 1.0
    assert found["re-cord a side", "lower right"] == 1.0
    assert found["free a sash", "lower"] == 1.0
    assert found["strip a sash", "frame"] == 1.0
    assert found["prime and paint", "frame"] > 1.0
    assert found["clean and ease a part", "left pulley stile"] == 1.0
    assert found["overhaul a pulley", "upper right pulley"] == 1.0


def test_a_worn_bead_is_renewed_by_the_metre_and_no_sash_is_eased_for_it(work):
    assert work({"part": "left staff bead", "seen": "worn"}) == {
        ("renew a bead", "left staff bead"): pytest.approx(1.65)
    }


def test_what_is_eased_is_what_was_found(work):
    loose, decided = {"seen": "loose"}, {"treatment": "clean and ease"}
    assert set(work({"part": "left staff bead", **loose})) == {
        ("clean and ease a part", "left staff bead")
    }
    assert set(work({"part": "left staff bead", "seen": "worn", **decided})) == {
        ("clean and ease a part", "left staff bead")
    }
    assert set(work({"part": "lower fittings", **loose})) == {
        ("clean and ease a part", "lower fittings")
    }
    assert set(work({"part": STILE, "seen": "worn"})) == {("clean and ease a sash", "lower")}


@pytest.mark.parametrize("place", ["upper", "lower"])
@pytest.mark.parametrize("panes", [None, {"across": 1, "up": 2}, {"across": 4, "up": 3}])
def test_the_pieces_of_a_sash_are_its_timber(overhaul, window_with, place, panes):
    """Member by member they add up to the volume that its mass is reckoned by."""
    sash = {name: value for name, value in window_with()[place].items() if name != "panes"}
    sash |= {"panes": panes} if panes else {}
    sash |= {"horn": "60 mm"} if place == "upper" else {}
    found = overhaul({"part": SILL, "seen": "sound"}, **{place: sash})
    window = found.windows[0].repair
    whole = sum(one.volume_mm3 for one in window.sorts.pieces.values() if one.place == place)
    surveyed = dict(window.window.sashes())[place]
    centre = parts_of(place, surveyed, Ledger(Words("metric"), [])).centre
    assert whole == pytest.approx(mass.timber_volume_mm3(centre))
    panes = window.sorts.panes[place]
    assert panes.number * panes.volume_mm3 == pytest.approx(mass.glass_volume_mm3(centre))


def test_fabric_adds_up_part_by_part_and_to_the_whole(overhaul):
    found = overhaul(
        {"part": STILE, **ROT},
        {"part": STILE, **ROT, "measured_from": "top", "length": "30 mm", "depth": "9 mm"},
        {"part": "lower bottom rail", "seen": "rot", "grade": "gone"},
        {"part": "head staff bead", "seen": "missing"},
        {"part": "lower glass", "seen": "missing", "column": 1, "row": 1},
        {"part": "lower glass", "seen": "broken", "column": 2, "row": 1},
    )
    fabric, sorts = found.windows[0].repair.fabric, found.windows[0].repair.sorts
    stile = fabric.parts[STILE]
    assert stile.whole_mm3 == pytest.approx(stile.kept_mm3 + stile.filled_mm3 + stile.spliced_mm3)
    assert stile.filled_mm3 == pytest.approx(30 * 9 * 48)
    assert fabric.parts["lower bottom rail"].kept_mm3 == 0.0
    bead = fabric.parts["head staff bead"]
    assert (bead.whole_mm3, bead.kept_pct) == (0.0, None)
    assert bead.renewed_mm3 == pytest.approx(860 * 20 * 16)
    untouched = sum(
        one.volume_mm3 for name, one in sorts.pieces.items() if name not in fabric.parts
    )
    kept = sum(one.kept_mm3 for name, one in fabric.parts.items() if name in sorts.pieces)
    assert fabric.timber.kept_mm3 == pytest.approx(untouched + kept)
    upper, pane = (sorts.panes[place].volume_mm3 for place in ("upper", "lower"))
    assert fabric.glass.whole_mm3 == pytest.approx(6 * upper + 5 * pane)
    assert fabric.glass.kept_mm3 == pytest.approx(6 * upper + 4 * pane)
    assert fabric.glass.renewed_mm3 == pytest.approx(2 * pane)
    assert fabric.timber.whole_kg > fabric.timber.kept_kg > 0.0


def test_treatments_that_overlap_take_no_more_than_there_is(overhaul):
    findings = [
        {"part": STILE, **ROT, "length": "300 mm", "treatment": "splice", "measured_from": end}
        for end in ("bottom", "top")
    ]
    kept = overhaul(*findings).windows[0].repair.fabric.parts[STILE]
    assert kept.kept_mm3 == 0.0
    assert kept.spliced_mm3 == pytest.approx(kept.whole_mm3)


def test_what_is_not_reckoned_is_named_so_that_nobody_takes_it_for_kept(overhaul):
    unknown = {"part": STILE, "seen": "rot"}
    assert overhaul(unknown).repair.fabric.not_reckoned == (STILE,)
    assert overhaul({"part": STILE, **ROT}).repair.fabric.not_reckoned == ()


def test_a_new_sash_keeps_its_glass_and_none_of_its_timber(overhaul):
    found = overhaul({"part": "lower sash", "seen": "broken"}).windows[0]
    parts = found.repair.fabric.parts
    lower = [kept for name, kept in parts.items() if name.startswith("lower")]
    assert len(lower) == 5
    assert all(kept.kept_mm3 == 0.0 for kept in lower)
    assert found.repair.fabric.glass.kept_pct == 100.0
    assert {pane.what for pane in found.glazing.panes} == {"re-bed"}
    assert len(found.glazing.panes) == 6


def test_the_document_has_its_keys_and_is_null_where_nothing_was_found(window_with):
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window_with()]}
    document = document_of(plan_house(survey_from(survey)))
    assert document["fabric"] is document["takeoff"] is document["windows"][0]["repair"] is None
    touched = window_with({"part": STILE, **ROT}, tag="W2")
    survey["window"] = [window_with(), touched]
    document = document_of(plan_house(survey_from(survey)))
    assert document["windows"][0]["repair"] is None
    repair = document["windows"][1]["repair"]
    assert set(repair) == {"findings", "symptoms", "fabric", "glazing", "work", "notes"}
    assert repair["findings"][0]["splice"]["slope"] == 10.0
    house, window = document["fabric"]["timber"], repair["fabric"]["timber"]
    assert house["whole_mm3"] == pytest.approx(2 * window["whole_mm3"])
    assert house["kept_pct"] > window["kept_pct"] > 90.0
