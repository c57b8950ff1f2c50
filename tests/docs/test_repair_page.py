"""The survey on the page about repair is a survey, and is answered in the lines printed there."""

from __future__ import annotations

import re

from evenhung.cli.lines import plan_lines
from evenhung.plan import plan_house
from evenhung.reference import look_up
from evenhung.survey import read_survey


def page(root, name):
    return (root / f"docs/{name}.md").read_text(encoding="utf-8")


def test_the_survey_is_answered_as_the_page_says(root):
    text = page(root, "repair")
    survey = read_survey(re.search(r"```toml\n(.*?)```", text, re.DOTALL).group(1).encode())
    told = set(plan_lines(plan_house(survey)))
    promised = re.search(r"```text\n(.*?)```", text, re.DOTALL).group(1).splitlines()
    assert len(promised) == 2
    assert set(promised) <= told


def test_the_table_of_strengths_is_the_reference(root):
    rows = re.findall(r"^\| 1 in (\d+) \| (\d+) % \| (.*?) \|$", page(root, "repair"), re.MULTILINE)
    assert len(rows) == 6
    for slope, strength, known in rows:
        row = look_up("repair", f"scarf 1 in {slope}", "strength_pct")
        assert row.value == strength
        assert known.startswith(row.known)
