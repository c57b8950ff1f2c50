"""What a careful overhaul keeps of a window; common practice, no source: about nine tenths."""

from __future__ import annotations

from evenhung.plan import plan_house
from evenhung.plan.overhaul import overhaul_of
from evenhung.survey import survey_from

SASH = {
    "height": "850 mm",
    "width": "857 mm",
    "cord_end": "260 mm",
    "thickness": "44 mm",
    "panes": {"across": 2, "up": 2},
}
FOOT = {"seen": "rot", "measured_from": "bottom", "length": "80 mm", "depth": "30 mm"}
END = {"seen": "rot", "measured_from": "left", "length": "150 mm", "depth": "25 mm"}
CAREFUL = [
    {"part": "lower left stile", **FOOT},
    {"part": "lower right stile", **FOOT},
    {"part": "lower bottom rail", "seen": "rot", "grade": "gone"},
    {"part": "sill", **END},
    {"part": "left outer lining", **FOOT, "depth": "20 mm"},
    {"part": "left parting bead", "seen": "broken"},
    {"part": "right parting bead", "seen": "broken"},
    {"part": "left staff bead", "seen": "worn"},
    {"part": "lower glass", "seen": "broken", "column": 1, "row": 2},
]
"""A window with the usual rot at its foot, mended as proposed."""


def test_a_careful_overhaul_keeps_about_nine_tenths():
    window = {
        "tag": "W1",
        "box": {
            "clear_width": "860 mm",
            "clear_height": "1650 mm",
            "weight_space": "1545 mm",
            "pulley_drop": "90 mm",
        },
        "pulley": {"wheel": "44 mm"},
        "upper": SASH,
        "lower": SASH,
        "finding": CAREFUL,
    }
    survey = survey_from({"form": 1, "house": {"name": "Alder Row"}, "window": [window]})
    (repair,) = overhaul_of(plan_house(survey)).repair.windows
    assert {one.what for one in repair.treatments} >= {"splice", "renew part", "renew pane"}
    assert not repair.fabric.not_reckoned
    assert 85.0 < repair.fabric.timber.kept_pct < 95.0
    assert 85.0 < repair.fabric.glass.kept_pct < 95.0
