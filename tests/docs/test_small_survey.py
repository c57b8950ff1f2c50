"""The small survey that people copy is a survey, and plans as it should."""

from __future__ import annotations

import re
import tomllib

from evenhung.plan import plan_house
from evenhung.survey import read_survey


def small_survey(root):
    page = (root / "docs/how-to/survey-a-window.md").read_text(encoding="utf-8")
    return read_survey(re.search(r"```toml\n(.*?)```", page, re.DOTALL).group(1).encode())


def test_the_small_survey_is_read_and_hangs_true(root):
    (sash,) = plan_house(small_survey(root)).sashes()
    assert sash.judgement.verdict == "hangs true"
    assert not [note for note in sash.notes if note.severity != "info"]


def test_every_key_of_the_measuring_table_is_in_it(root):
    page = (root / "docs/how-to/survey-a-window.md").read_text(encoding="utf-8")
    table = page.partition("## Where to measure")[2].partition("## What more")[0]
    survey = re.search(r"```toml\n(.*?)```", page, re.DOTALL).group(1)
    for key in re.findall(r"^\| (`.*?`.*?) \|", table, re.MULTILINE):
        for name in re.findall(r"`(\w+)`", key):
            assert re.search(rf"\b{name} = ", survey), name


def test_the_house_of_the_allotment_page_is_read(root):
    """Its decisions speak of windows that the page leaves out."""
    page = (root / "docs/how-to/allot-a-house.md").read_text()
    house, decisions = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    survey = read_survey(house.encode())
    assert survey.house.stock.ready_made[0].count == 4
    assert survey.weight[0].tag == "A"
    assert len(tomllib.loads(decisions)["decision"]) == 2
