"""What the commands say of sashes that were tried once the work was done."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from rich.console import Console

from evenhung.cli.tables import print_tables
from evenhung.plan import plan_house
from evenhung.survey import read_survey

STAYS = {"shut": "stays", "half": "stays", "open": "stays"}


@pytest.fixture
def tried(tollgate, tmp_path):
    """The path of the demo house with two sashes of its first window tried, one of them proved."""
    window = tollgate["window"][0]
    window["upper"]["completion"] = {"let_go": STAYS, "on": "2026-11-27", "by": "Ann"}
    window["lower"]["completion"] = {"let_go": {**STAYS, "half": "drops"}, "lowering": ["9 N"]}
    path = tmp_path / "house.json"
    path.write_text(json.dumps(tollgate))
    return str(path)


def test_plan_says_what_is_proved_of_each_and_of_the_house(says, tried):
    code, lines, _ = says("plan", tried)
    assert code == 0
    assert lines[1].startswith("proved: 1 of 11 sashes that run; not proved: W1 lower; still to ")
    assert (
        "W1 upper: proved on 2026-11-27 by Ann: stays shut, half open and open; no pull was read"
        in lines
    )
    said = lines.index(next(line for line in lines if line.startswith("W1 lower: not proved: ")))
    assert "drops when left half open: the pair is" in lines[said]
    assert lines[said + 1].startswith("W1 lower: caution: it drops when let go, though lowering")
    assert not [line for line in lines if line.startswith("W2 ") and "prove" in line]


def test_a_house_where_nothing_was_tried_is_told_as_ever(says, demo):
    for command in ("plan", "inspect"):
        _, lines, _ = says(command, demo)
        assert not [line for line in lines if "proved" in line.split(" ")]


def test_inspect_counts_what_is_still_to_prove(says, tried):
    _, lines, _ = says("inspect", tried)
    assert lines[-1].startswith("proved: 1 of 11 sashes that run; not proved: W1 lower; still ")
    assert "W1" not in lines[-1].partition("still to prove")[2]
    _, (answer,), _ = says("inspect", tried, "--json")
    completion = json.loads(answer)["completion"]
    assert (completion["running"], completion["proved"]) == (11, 1)
    assert len(completion["to_prove"]) == 9


def test_the_tables_say_the_same(tried):
    plan = plan_house(read_survey(Path(tried).read_bytes(), "json"))
    console = Console(width=90, file=io.StringIO(), highlight=False)
    print_tables(plan, console)
    text = " ".join(console.file.getvalue().split())
    assert "Proved: 1 of 11 sashes that run" in text
    assert "Proved on 2026-11-27 by Ann: stays shut" in text
    assert "! It drops when let go, though lowering takes" in text


@pytest.mark.slow
def test_on_what_was_allotted_the_pull_is_that_of_what_was_allotted(says, tried):
    _, (answer,), _ = says("plan", tried, "--allot", "--json")
    sash = json.loads(answer)["windows"][0]["upper"]
    reckoned = sash["completion"]["raising"]["likely_n"]
    assert reckoned == pytest.approx(sash["hung"]["operation"]["raise_n"], abs=1e-5)
