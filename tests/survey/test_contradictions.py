"""Sizes that cannot be together are refused, each where it stands; what is merely odd is not."""

from __future__ import annotations

import pytest

from evenhung.survey import survey_from

IMPOSSIBLE = [
    ("box.pulley_drop", {"box.pulley_drop": "600 mm", "box.clear_height": "600 mm",
     "upper": ..., "lower": ...}, "600 mm: less than the clear height, 600 mm"),
    ("box.right.pulley_drop", {"box.right.pulley_drop": "1 m", "box.clear_height": "999 mm"},
     "1 m: less than the clear height, 999 mm"),
    ("upper.box.left.pulley_drop",
     {"upper.box.left.pulley_drop": "1 m", "box.clear_height": "1 m"},
     "1 m: less than the clear height, 1 m"),
    ("pulley.axle", {"pulley.axle": "40 mm", "pulley.wheel": "40 mm"}, "40 mm: less than the"),
    ("pulley.left.axle", {"pulley.left.axle": "1 in", "pulley.wheel": "1 in"},
     "1 in: less than the wheel, 1 in"),
    ("pulley.axle", {"pulley.axle": "20 mm", "lower.pulley.right.wheel": "15 mm"},
     "20 mm: less than the wheel, 15 mm"),
    ("upper.pulley.axle", {"upper.pulley.axle": "40 mm", "upper.pulley.wheel": "39 mm"},
     "40 mm: less than the wheel, 39 mm"),
    ("upper.height", {"upper.height": "1651 mm"}, "1651 mm: at most the clear height, 1650 mm"),
    ("lower.width", {"lower.width": "861 mm"}, "861 mm: at most the clear width, 860 mm"),
    ("upper.travel", {"upper.travel": "811 mm"}, "811 mm: at most the clear height less the he"),
    ("upper.height", {"upper.height": "1650 mm"}, "1650 mm: less than the clear height, for a"),
    ("upper.horn", {"upper.height": "1600 mm", "upper.horn": "50 mm"},
     "50 mm: less than the clear height less the height of the sash"),
    ("upper.cord_end", {"upper.cord_end": "841 mm"}, "841 mm: at most the height of the sash, 840"),
    ("upper.cord_end", {"upper.cord_end": ...}, "(absent): required of a sash that runs"),
    ("upper.top_nail", {"upper.top_nail": "261 mm"}, "261 mm: at most the end of the cord, 260 mm"),
    ("upper.stile", {"upper.stile": "300 mm", "upper.width": "600 mm"},
     "300 mm: stiles that leave glass in the width, 600 mm"),
    ("upper.bar", {"upper.bar": "86 mm", "upper.panes": {"across": 11, "up": 1}},
     "86 mm: bars that leave glass in the width, 857 mm"),
    ("upper.top_rail", {"upper.top_rail": "400 mm", "upper.bottom_rail": "400 mm",
     "upper.bar": "20 mm", "upper.panes": {"across": 1, "up": 3}},
     "400 mm: top rails and bottom rails and bars that leave glass in the height, 840 mm"),
    ("upper.bottom_rail", {"upper.bottom_rail": "400 mm", "upper.height": "400 mm"},
     "400 mm: bottom rails that leave glass in the height, 400 mm"),
    ("upper.rebate_depth", {"upper.rebate_depth": "45 mm", "upper.thickness": "45 mm"},
     "45 mm: less than the thickness, 45 mm"),
    ("upper.groove.width", {"upper.groove.width": "20 mm", "upper.thickness": "20 mm"},
     "20 mm: less than the thickness, 20 mm"),
    ("upper.groove.depth", {"upper.groove.depth": "40 mm", "upper.stile": "40 mm"},
     "40 mm: less than the stile, 40 mm"),
    ("upper.rebate_width", {"upper.rebate_width": "40 mm", "upper.stile": "40 mm"},
     "40 mm: less than the stile, 40 mm"),
    ("upper.rebate_width", {"upper.rebate_width": "40 mm", "upper.top_rail": "38 mm"},
     "40 mm: less than the top rail, 38 mm"),
    ("upper.rebate_width", {"upper.rebate_width": "40 mm", "upper.bottom_rail": "40 mm"},
     "40 mm: less than the bottom rail, 40 mm"),
    ("upper.rebate_width", {"upper.rebate_width": "11 mm", "upper.bar": "22 mm"},
     "11 mm: less than half a bar, for it has two rebates, 22 mm"),
    ("upper.left.length", {"upper.left.length": "1500 mm", "box.weight_space": "1499 mm"},
     "1500 mm: at most the weight space, 1499 mm"),
    ("lower.right.length",
     {"lower.right.length": "1400 mm", "lower.box.right.weight_space": "1399 mm"},
     "1400 mm: at most the weight space, 1399 mm"),
    ("lower.right.length", {"lower.right.length": "1400 mm", "lower.box.weight_space": "1399 mm"},
     "1400 mm: at most the weight space, 1399 mm"),
    ("lower.right.length", {"lower.right.length": "1400 mm", "box.right.weight_space": "1399 mm"},
     "1400 mm: at most the weight space, 1399 mm"),
    ("upper.left.eye_depth", {"upper.left.eye_depth": "60 mm", "upper.left.length": "60 mm"},
     "60 mm: less than the length, 60 mm"),
]  # fmt: skip

POSSIBLE = [
    {"upper.height": "1650 mm", "upper.width": "860 mm", "upper.runs": "no", "lower": ...},
    {"upper.height": "1640 mm", "upper.travel": "10 mm", "upper.horn": "60 mm"},
    {"upper.height": "1600 mm", "upper.horn": "49 mm"},
    {"upper.travel": "810 mm"},
    {"upper.cord_end": "840 mm", "upper.top_nail": "840 mm"},
    {"upper.cord_end": ..., "upper.runs": "no"},
    {"upper.left.length": "1500 mm", "box.weight_space": "1500 mm"},
    {"upper.left.length": "1500 mm", "box.weight_space": "1 m", "box.left.weight_space": "1.5 m"},
    {"upper.left.eye_depth": "60 mm"},
    {"pulley.axle": "40 mm", "pulley.wheel": "41 mm"},
    {"upper.rebate_width": "10 mm", "upper.bar": "21 mm", "upper.stile": "15 mm"},
    {"upper.stile": "48 mm", "upper.rebate_width": "8 mm", "upper.groove.depth": "40 mm"},
    {"upper.weighed": "0.5 kg"},
    {"upper.meeting_overlap": "150 mm"},
]


def change(house, changes):
    """Set, or take out, sizes of the one window of a house by their paths."""
    (window,) = house["window"]
    for path, value in changes.items():
        *way, last = path.split(".")
        part = window
        for step in way:
            part = part.setdefault(step, {})
        if value is ...:
            del part[last]
        else:
            part[last] = value
    return house


@pytest.mark.parametrize(("path", "changes", "line"), IMPOSSIBLE, ids=range(len(IMPOSSIBLE)))
def test_what_cannot_be_is_refused_where_it_stands(house, refused, path, changes, line):
    (fault,) = refused(change(house, changes))
    assert fault.startswith(f"window[0].{path}: {line}"), fault


@pytest.mark.parametrize("changes", POSSIBLE, ids=range(len(POSSIBLE)))
def test_what_can_just_be_is_accepted(house, changes):
    survey_from(change(house, changes))


def test_contradictions_of_several_windows_are_reported_together(house, refused):
    house["window"].append({**house["window"][0], "tag": "W2"})
    for window in house["window"]:
        window["upper"] = {**window["upper"], "height": "2 m", "width": "900 mm"}
    assert [line.partition(": ")[0] for line in refused(house)] == [
        "window[0].upper.height",
        "window[0].upper.width",
        "window[1].upper.height",
        "window[1].upper.width",
    ]


def test_a_size_of_the_whole_window_is_one_fault_however_many_sashes_it_has(house, refused):
    assert len(refused(change(house, {"pulley.axle": "40 mm", "pulley.wheel": "30 mm"}))) == 1


@pytest.mark.parametrize("band", ["lower_excess", "upper_deficit"])
def test_a_band_rises(house, refused, band):
    house["house"]["policy"] = {band: {"least": "2 lb", "best": "1 lb", "most": "3 lb"}}
    assert refused(house) == [
        f"house.policy.{band}.best: 2 lb, 1 lb, 3 lb: least, best and most in rising order"
    ]


def test_a_band_may_be_a_point(house):
    house["house"]["policy"] = {"lower_excess": dict.fromkeys(("least", "best", "most"), "1 lb")}
    survey_from(house)
