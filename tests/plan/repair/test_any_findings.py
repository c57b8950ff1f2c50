"""Whatever is found of a window, its plan is sound: nothing more is kept than was there."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenhung.cli.lines import plan_lines
from evenhung.errors import InvalidSurvey
from evenhung.plan import document_of, plan_house
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.work import UNITS
from evenhung.survey import survey_from
from evenhung.survey.finding import GRADES
from evenhung.survey.members import PARTS, SEEN, TREATMENTS


@st.composite
def findings(draw):
    """A finding that its part can have, though its window may refuse it."""
    part = draw(st.sampled_from(sorted(PARTS)))
    member = PARTS[part]
    finding = {"part": part, "seen": draw(st.sampled_from(SEEN[member.kind]))}
    optional = {
        "length": st.integers(1, 860).map("{} mm".format),
        "depth": st.integers(1, 120).map("{} mm".format),
        "treatment": st.sampled_from(TREATMENTS[member.kind]),
        "grade": st.sampled_from(GRADES),
        "moisture_pct": st.integers(0, 60),
    }
    if member.ends:
        optional["measured_from"] = st.sampled_from(member.ends)
    if member.kind in ("stile", "rail", "sill", "head"):
        optional["slope"] = st.integers(2, 30)
    if member.kind in ("glass", "putty"):
        optional |= {"column": st.integers(1, 3), "row": st.integers(1, 2)}
    stated = draw(st.lists(st.sampled_from(sorted(optional)), unique=True))
    finding |= {name: draw(optional[name]) for name in stated}
    if "measured_from" in finding and draw(st.booleans()):
        finding["begins"] = f"{draw(st.integers(0, 800))} mm"
    return finding


def survey_with(window):
    """Give the survey; None where the window refuses what was found."""
    try:
        return survey_from({"form": 1, "house": {"name": "Alder Row"}, "window": [window]})
    except InvalidSurvey:
        return None


@settings(deadline=None, max_examples=150)
@given(st.lists(findings(), min_size=1, max_size=6))
def test_any_findings_make_a_sound_plan(small_window, found):
    survey = survey_with(small_window(*found))
    if survey is None:
        return
    plan = plan_house(survey)
    json.dumps(document_of(plan), allow_nan=False)
    assert list(plan_lines(plan))
    overhaul = overhaul_of(plan)
    (window,) = overhaul.windows
    for name, kept in window.repair.fabric.parts.items():
        assert -1e-6 <= kept.kept_mm3 <= kept.whole_mm3 + 1e-6, name
        if name in window.repair.sorts.pieces and not kept.renewed_mm3:
            parts = kept.kept_mm3 + kept.filled_mm3 + kept.spliced_mm3
            assert parts == pytest.approx(kept.whole_mm3)
    for one in window.repair.treatments:
        if one.splice is not None:
            piece = window.repair.sorts.pieces[one.finding.part]
            assert one.splice.piece_mm <= piece.length_mm + 1e-6
            assert one.splice.starts_mm >= 0.0
            assert one.splice.joint_ratio == pytest.approx((1 + one.splice.slope**2) ** 0.5)
    assert all(work.operation in UNITS and work.quantity > 0.0 for work in window.work)
    assert len({(work.operation, work.part) for work in window.work}) == len(window.work)
