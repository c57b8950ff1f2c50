"""Panes to order, their putty, where they stand, and the notes on them."""

from __future__ import annotations

import pytest

from evenhung.plan import document_of, plan_house
from evenhung.plan.overhaul import overhaul_of
from evenhung.survey import survey_from

SASH = {
    "height": "850 mm",
    "width": "857 mm",
    "cord_end": "260 mm",
    "stile": "48 mm",
    "top_rail": "40 mm",
    "bottom_rail": "75 mm",
    "bar": "22 mm",
    "panes": {"across": 3, "up": 2},
    "rebate_width": "8 mm",
    "rebate_depth": "15 mm",
    "glass": {"thickness": "3 mm"},
}
BOX = {
    "clear_width": "860 mm",
    "clear_height": "1650 mm",
    "weight_space": "1545 mm",
    "pulley_drop": "90 mm",
}
BROKEN = {"part": "lower glass", "seen": "broken", "column": 2, "row": 2}


def overhaul(*findings, rules=None, place=None, **window):
    one = {
        "tag": "W1",
        "box": BOX,
        "pulley": {"wheel": "44 mm"},
        "upper": SASH,
        "lower": SASH,
        "finding": list(findings),
        **window,
    }
    one |= {"place": place} if place else {}
    house = {"name": "Alder Row", **({"glass_rules": rules} if rules else {})}
    return overhaul_of(plan_house(survey_from({"form": 1, "house": house, "window": [one]})))


def glazing(*findings, **changes):
    return overhaul(*findings, **changes).windows[0].glazing


def codes(*findings, **changes):
    return {note.code for note in overhaul(*findings, **changes).windows[0].notes}


def test_a_pane_is_ordered_from_its_rebate_less_its_clearances():
    """857 - 2 x 48 - 2 x 22 is 717, a third is 239; 8 of rebate less 2 of clearance, twice."""
    (pane,) = glazing(BROKEN).panes
    assert pane.width_mm == 239 + 2 * (8 - 2)
    assert pane.height_mm == int((850 - 40 - 75 - 22) / 2 + 2 * (8 - 2))
    assert (pane.sheet_mm, pane.sheets, pane.is_historic) == (3.0, 1, False)


def test_putty_goes_round_each_pane_that_is_worked_on_once():
    """Bed 2 x 8, edge 2 x 3, fillet 8 x 10 over 2: 62 mm2 at 1950 kg/m3."""
    putty = {"part": "lower putty", "seen": "perished"}
    found = glazing(BROKEN, putty).panes
    assert len(found) == 6
    assert [pane.what for pane in found].count("renew pane") == 1
    run = 2 * (251 + 368.5)
    assert found[0].putty_mm2 == pytest.approx(62)
    assert found[0].putty_mm == pytest.approx(run)
    assert found[0].putty_kg == pytest.approx(run * 62e-9 * 1950)


def test_a_double_unit_is_ordered_by_its_sheets():
    (pane,) = glazing(BROKEN, lower={**SASH, "glass": {"thickness": "4 mm", "sheets": 2}}).panes
    assert (pane.sheet_mm, pane.sheets) == (4.0, 2)


def test_members_that_leave_no_glass_leave_no_panes():
    none = {**SASH, "height": "120 mm", "cord_end": "100 mm", "top_rail": None}
    none = {name: size for name, size in none.items() if size and name != "bottom_rail"}
    assert glazing({"part": "lower glass", "seen": "broken"}, lower=none).panes == ()


STANDING = {"sill_above_floor": "600 mm", "door_away": "2 m", "walking_away": "200 mm"}


def test_the_height_of_a_pane_above_the_floor_goes_by_its_row_and_sash():
    """Lower sash: sill 600, bottom rail 75; a pane and a bar higher in the row above: over 800."""
    assert "safety-glass" in codes(BROKEN, place=STANDING)
    assert "safety-glass" not in codes({**BROKEN, "row": 1}, place=STANDING)
    assert "safety-glass" not in codes({**BROKEN, "part": "upper glass"}, place=STANDING)


def test_rules_are_told_of_new_panes_only():
    assert "safety-glass" not in codes({**BROKEN, "treatment": "re-bed"}, place=STANDING)
    assert "measure-rebates" in codes(BROKEN)
    assert "measure-rebates" not in codes({**BROKEN, "treatment": "re-bed"})


def test_what_is_not_stated_is_said_to_be_missing():
    found = overhaul(BROKEN, rules="england").windows[0]
    texts = [note.text for note in found.notes if note.code == "safety-glass-unknown"]
    assert len(texts) == 2
    assert "sill above floor not stated" in texts[0]
    assert "sill above floor, door away not stated" in texts[1]
    assert all("The local authority" in text for text in texts)


def test_the_house_says_whose_rules_are_told():
    for rules, start in (("england", "Approved"), ("united states", "I")):
        (found,) = glazing(BROKEN, rules=rules, place=STANDING).safety
        assert all(answer.rule.startswith(start) for answer in found.answers)


@pytest.mark.parametrize(
    ("rules", "said", "unsaid"),
    [
        ("england", ["Approved Document K: ", "stair", "not building work"], ["IRC"]),
        ("united states", ["IRC: ", "baths", "stairs", "rails"], ["Approved Document K"]),
        (None, ["Approved Document K: ", "IRC: "], []),
    ],
)
def test_what_no_rule_looks_at_is_a_caution_on_new_panes(rules, said, unsaid):
    found = overhaul(BROKEN, rules=rules).windows[0]
    (one,) = [note for note in found.notes if note.code == "glass-not-checked"]
    assert one.severity == "caution"
    assert all(words in one.text for words in said)
    assert not any(words in one.text for words in unsaid)
    assert "glass-not-checked" not in codes({**BROKEN, "treatment": "re-bed"}, rules=rules)


HIGH = {"sill_above_floor": "500 mm", "sill_above_ground": "4 m"}


def test_guarding_goes_by_the_lowest_sash_that_opens():
    assert "guarding" in codes(place=HIGH)
    fixed = {**SASH, "runs": "no"}
    assert "guarding" not in codes(place=HIGH, lower=fixed)
    low = {**SASH, "travel": "780 mm"}
    (answer, *_) = glazing(place=HIGH, lower=fixed, upper=low).guarding
    assert answer.applies is False  # the top comes down to 500 + 1650 - 780 mm
    assert glazing(place=HIGH, lower=fixed, upper=fixed).guarding == ()


def test_the_document_gives_every_answer():
    window = {
        "tag": "W1",
        "box": BOX,
        "pulley": {"wheel": "44 mm"},
        "lower": SASH,
        "finding": [BROKEN],
        "place": {**STANDING, "sill_above_ground": "1 m"},
    }
    survey = {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}
    repair = document_of(plan_house(survey_from(survey)))["windows"][0]["repair"]
    (safety,) = repair["glazing"]["safety"]
    assert [one["applies"] for one in safety["rules"]] == [True, False, False, False]
    assert [one["applies"] for one in repair["glazing"]["guarding"]] == [True, False, False]
    assert {note["severity"] for note in repair["notes"]} == {"caution"}
