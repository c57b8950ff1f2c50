"""Findings and symptoms: what a part of a window can have, and what contradicts the window."""

from __future__ import annotations

import pytest

from evenhung.survey import survey_from
from evenhung.survey.members import EVERY_SEEN, EVERY_TREATMENT, PARTS, SEEN, TREATMENTS

FOOT = {
    "part": "lower left stile",
    "seen": "rot",
    "measured_from": "bottom",
    "begins": "0 mm",
    "length": "120 mm",
    "depth": "30 mm",
    "moisture_pct": 27,
    "grade": "failing",
    "note": "soft to the awl",
}


TWO = {"across": 2, "up": 1}


@pytest.fixture
def refused(refused):
    """The faults of a survey that must be refused, without the tag of the window."""
    return lambda document: [line.removesuffix(" (window W1)") for line in refused(document)]


@pytest.fixture
def found(house):
    """Gives ``found(finding, ...)``: the house with those findings on its one window."""

    def make(*findings, **window):
        house["window"][0] |= {"finding": list(findings), **window}
        return house

    return make


def test_a_finding_keeps_what_was_typed(found):
    document = found(FOOT)
    survey = survey_from(document)
    (finding,) = survey.window[0].finding
    assert finding.member.kind == "stile"
    assert finding.length.mm == 120
    assert survey.as_typed() == document


def test_every_part_can_be_seen_and_treated():
    assert {member.kind for member in PARTS.values()} == set(SEEN) == set(TREATMENTS)
    assert all("sound" in words for words in SEEN.values())
    assert all(words[0] == "leave" for words in TREATMENTS.values())


def test_no_word_is_said_twice():
    assert len(EVERY_SEEN) == len(set(EVERY_SEEN))
    assert len(EVERY_TREATMENT) == len(set(EVERY_TREATMENT))


@pytest.mark.parametrize("part", sorted(PARTS))
def test_every_part_takes_a_finding(found, part):
    document = found({"part": part, "seen": "sound"})
    for place in ("upper", "lower"):
        sash = document["window"][0][place]
        document["window"][0][place] = {**sash, "panes": {"across": 2, "up": 1}}
    assert survey_from(document).window[0].finding[0].part == part


def test_a_sash_of_one_pane_has_no_bars(found, refused):
    assert refused(found({"part": "lower bars", "seen": "rot"})) == [
        "window[0].finding[0].part: lower bars: a part of a sash that is divided: state its panes"
    ]


AT_FAULT = [
    ({"part": "lower sill"}, "part: 'lower sill': did you mean 'sill'? one of "),
    (
        {"part": "upper bottom rail"},
        "part: 'upper bottom rail': did you mean 'upper top rail'? one of ",
    ),
    ({"part": "lower left style"}, "part: 'lower left style': did you mean 'lower left stile'? "),
    ({"part": 7}, "part: 7: one of 'upper left stile', "),
    ({"seen": "rott"}, "seen: 'rott': did you mean 'rot'? one of "),
    ({"seen": "grubby"}, "seen: 'grubby': one of "),
    ({"seen": "perished"}, "seen: perished: of lower left stile: one of sound, rot, split, "),
    (
        {"treatment": "renew pane"},
        "treatment: renew pane: of lower left stile: did you mean 'renew part'? one",
    ),
    ({"grade": "awful"}, "grade: 'awful': one of 'sound', 'tired', 'failing' or 'gone'"),
    ({"column": 1}, "column: 1: nothing, for lower left stile has none"),
    ({"historic": "yes"}, "historic: yes: nothing, for lower left stile has none"),
    ({"bears_load": "no"}, "bears_load: no: nothing, for lower left stile has none"),
    ({"measured_from": "left"}, "measured_from: left: bottom or top, of lower left stile"),
    ({"measured_from": None}, "measured_from: (absent): the end that where it begins is measured"),
    ({"length": "841 mm"}, "length: 841 mm: at most the lower left stile itself, 840 mm"),
    (
        {"begins": "800 mm", "length": "41 mm"},
        "length: 41 mm: what is left of the lower left stile, 840 mm long, beyond where it begins",
    ),
    ({"begins": "840 mm"}, "begins: 840 mm: less than the lower left stile itself, 840 mm"),
    ({"begins": "1.9 m", "length": None}, "begins: 1.9 m: less than the lower left stile itself,"),
    ({"length": "-1 mm"}, "length: '-1 mm': no - before it"),
    ({"moisture_pct": 101}, "moisture_pct: 101: at most 100"),
    ({"slope": 1}, "slope: 1: at least 2"),
]


@pytest.mark.parametrize(("change", "line"), AT_FAULT, ids=range(len(AT_FAULT)))
def test_a_finding_is_refused_with_what_is_allowed(found, refused, change, line):
    finding = {name: value for name, value in {**FOOT, **change}.items() if value is not None}
    (fault,) = refused(found(finding))
    assert fault.startswith(f"window[0].finding[0].{line}"), fault


def test_a_part_without_a_length_has_no_ends(found, refused):
    pane = {"part": "lower glass", "seen": "cracked", "measured_from": "left"}
    assert refused(found(pane)) == [
        "window[0].finding[0].measured_from: left: nothing, for lower glass has no length"
    ]


def test_decay_as_long_as_the_part_is_accepted(found):
    survey_from(found({**FOOT, "length": "840 mm"}))
    survey_from(found({**FOOT, "begins": "720 mm"}))


@pytest.mark.parametrize(
    ("part", "sizes", "deepest"),
    [
        ("lower left stile", {"lower": {"stile": "48 mm", "thickness": "44 mm"}}, "48 mm"),
        ("lower bars", {"lower": {"bar": "22 mm", "thickness": "44 mm", "panes": TWO}}, "44 mm"),
        (
            "lower bottom rail",
            {"lower": {"top_rail": "40 mm", "bottom_rail": "75 mm", "thickness": "44 mm"}},
            "75 mm",
        ),
        ("left pulley stile", {"box": {"stile_thickness": "25 mm"}}, "25 mm"),
        ("right pulley stile", {"box": {"right": {"stile_thickness": "20 mm"}}}, "20 mm"),
    ],
)
def test_decay_is_no_deeper_than_the_part(found, refused, part, sizes, deepest):
    document = found({"part": part, "seen": "rot", "depth": deepest})
    for table, fields in sizes.items():
        document["window"][0][table] = {**document["window"][0][table], **fields}
    survey_from(document)
    deeper = f"{int(deepest.partition(' ')[0]) + 1} mm"
    document["window"][0]["finding"][0]["depth"] = deeper
    assert refused(document) == [
        f"window[0].finding[0].depth: {deeper}: at most the {part} itself, {deepest}"
    ]


@pytest.mark.parametrize(
    ("part", "deepest"),
    [
        ("lower left stile", 120),
        ("lower bottom rail", 187),
        ("upper top rail", 120),
        ("upper meeting rail", 135),
        ("lower meeting rail", 135),
        ("lower sash", 110),
        ("left pulley stile", 50),
        ("left pocket", 125),
        ("right parting slip", 125),
        ("left staff bead", 52),
        ("head inner lining", 300),
        ("head", 285),
        ("sill", 300),
    ],
)
def test_a_part_of_unknown_size_is_held_against_what_no_such_part_is(found, refused, part, deepest):
    survey_from(found({"part": part, "seen": "rot", "depth": f"{deepest} mm"}))
    if deepest < 300:
        (fault,) = refused(found({"part": part, "seen": "rot", "depth": f"{deepest + 1} mm"}))
        assert fault.startswith(f"window[0].finding[0].depth: {deepest + 1} mm: at most {deepest}")
        assert fault.endswith(f" mm, 2.5 times what the {part} usually measures")


def test_a_stated_size_larger_than_usual_is_what_counts(found, refused):
    document = found({"part": "lower left stile", "seen": "rot", "depth": "130 mm"})
    document["window"][0]["lower"]["stile"] = "130 mm"
    survey_from(document)
    document["window"][0]["finding"][0]["depth"] = "131 mm"
    assert refused(document) == [
        "window[0].finding[0].depth: 131 mm: at most the lower left stile itself, 130 mm"
    ]


@pytest.mark.parametrize("part", ["lower bars", "upper sash", "left pocket", "left parting slip"])
def test_what_has_no_ends_is_no_longer_than_its_window(found, refused, part):
    document = found({"part": part, "seen": "rot"})
    document["window"][0]["lower"]["panes"] = TWO
    (finding,) = document["window"][0]["finding"]
    sizes = survey_from(document).window[0]
    longest = {
        "lower bars": max(sizes.lower.height.mm, sizes.lower.width.mm),
        "upper sash": max(sizes.upper.height.mm, sizes.upper.width.mm),
    }.get(part, sizes.box.clear_height.mm)
    finding["length"] = f"{longest:g} mm"
    survey_from(document)
    finding["length"] = f"{longest + 1:g} mm"
    (fault,) = refused(document)
    assert f"length: {longest + 1:g} mm: at most the {part} itself, " in fault


def test_a_stated_pocket_is_no_shorter_than_its_decay(found, refused):
    document = found({"part": "left pocket", "seen": "rot", "length": "301 mm"})
    document["window"][0]["box"] = {**document["window"][0]["box"], "pocket_height": "300 mm"}
    assert refused(document) == [
        "window[0].finding[0].length: 301 mm: at most the left pocket itself, 300 mm"
    ]


def test_overlapping_decay_on_one_part_is_refused(found, refused):
    second = {**FOOT, "begins": "119 mm"}
    assert refused(found(FOOT, second)) == [
        "window[0].finding[1].begins: 119 mm from the bottom: "
        "a stretch of lower left stile that finding[0] does not cover"
    ]


def test_overlap_is_seen_from_either_end(found, refused):
    from_top = {**FOOT, "measured_from": "top", "begins": "700 mm"}
    (fault,) = refused(found(FOOT, from_top))
    assert fault.startswith("window[0].finding[1].begins: 700 mm from the top: a stretch")
    plain = {name: value for name, value in FOOT.items() if name != "begins"}
    (fault,) = refused(found(FOOT, plain))
    assert fault.startswith("window[0].finding[1].begins: 0 from the bottom: a stretch")


def test_decay_that_touches_does_not_overlap(found):
    survey_from(found(FOOT, {**FOOT, "begins": "120 mm"}))
    survey_from(found(FOOT, {**FOOT, "measured_from": "top", "begins": "0 mm"}))


def test_a_split_may_lie_in_rot_and_other_parts_do_not_count(found):
    survey_from(found(FOOT, {**FOOT, "seen": "split"}, {**FOOT, "part": "lower right stile"}))


def test_what_is_not_placed_overlaps_nothing(found):
    unplaced = {"part": "lower left stile", "seen": "rot", "length": "100 mm"}
    survey_from(found(FOOT, unplaced, {"part": "lower left stile", "seen": "rot"}))


def test_a_finding_of_a_sash_that_is_not_there_is_refused(found, refused):
    document = found(FOOT)
    del document["window"][0]["lower"]
    assert refused(document) == [
        "window[0].finding[0].part: lower left stile: a part of a sash that this window has"
    ]


def test_a_pane_is_one_that_the_sash_has(found, refused):
    pane = {"part": "lower glass", "seen": "cracked", "column": 3, "row": 2, "historic": "yes"}
    document = found(pane)
    assert refused(document) == [
        "window[0].finding[0].column: 3: at most 1, for so many panes lie that way",
        "window[0].finding[0].row: 2: at most 1, for so many panes lie that way",
    ]
    document["window"][0]["lower"]["panes"] = {"across": 3, "up": 2}
    survey_from(document)


def test_a_symptom_is_of_a_sash_that_is_there(house, refused):
    house["window"][0]["symptom"] = [{"what": "drops", "sash": "upper"}, {"what": "sweats"}]
    survey_from(house)
    del house["window"][0]["upper"]
    assert refused(house) == ["window[0].symptom[0].sash: upper: a sash that this window has"]
    house["window"][0]["symptom"] = [{"what": "sticks"}]
    (fault,) = refused(house)
    assert fault.startswith(
        "window[0].symptom[0].what: 'sticks': did you mean 'stuck'? one of 'stuck', 'drops'"
    )


def test_where_a_window_stands_is_optional(house, refused):
    survey_from(house)
    house["window"][0]["place"] = {"sill_above_floor": "2 ft 6 in", "door_away": "1 m"}
    assert survey_from(house).window[0].place.sill_above_floor.mm == pytest.approx(762)
    house["window"][0]["place"] = {"sill_above_floor": "11 m"}
    assert refused(house) == [
        "window[0].place.sill_above_floor: '11 m': a length from 0 mm to 10 m"
    ]
