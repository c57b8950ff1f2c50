"""In a pipe a plan is lines: each by itself says which sash it is of."""

from __future__ import annotations

import re

from evenhung.cli.lines import heading, plan_lines, urgent
from evenhung.notes import Note
from evenhung.plan import plan_house
from evenhung.survey import survey_from


def test_every_line_but_the_first_names_its_sash_its_window_or_the_house(tollgate):
    first, *lines = plan_lines(plan_house(survey_from(tollgate)))
    assert first.startswith("Tollgate House: ")
    for line in lines:
        assert re.match(r"(W[1-6]( (upper|lower))?|house): \S", line), line
        assert "\n" not in line


def test_the_heading_counts_every_sash_once(tollgate):
    plan = plan_house(survey_from(tollgate))
    counts = [int(number) for number in re.findall(r"(\d+) [a-z]", heading(plan))]
    assert sum(counts) == len(plan.sashes()) == 12


def test_a_house_without_sashes_says_so():
    plan = plan_house(survey_from({"form": 1, "house": {"name": "Alder Row"}}))
    assert heading(plan) == "Alder Row: no sashes"


def test_faults_come_before_cautions_and_the_rest_stays_out():
    notes = [Note(severity, severity, "said", "") for severity in ("info", "caution", "fault")]
    assert [note.code for note in urgent(notes)] == ["fault", "caution"]
    assert [note.code for note in urgent(tuple(notes))] == ["fault", "caution"]
