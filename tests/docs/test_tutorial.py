"""The tutorial is gone through as its reader does, and every answer is what stands on the page."""

import re
import tomllib

import pytest

TOML = re.compile(r"^```toml\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.fixture
def teller(tool):
    return tool("tell_tutorial")


@pytest.fixture
def page(teller):
    return teller.PAGE.read_text(encoding="utf-8")


@pytest.fixture
def surveys(teller):
    return {path.name: path.read_text(encoding="utf-8") for path in teller.SURVEYS.glob("*.toml")}


@pytest.mark.slow
def test_every_answer_is_what_the_page_says(teller, page):
    assert teller.retold(page) == page, "run: python -m tools.tell_tutorial, and read what changed"


def test_what_is_shown_of_the_survey_is_in_it_and_what_is_added_makes_a_survey(page, surveys):
    survey = surveys["quince-cottage.toml"]
    blocks = TOML.findall(page)
    added = [block for block in blocks if block not in survey]
    assert len(blocks) - len(added) == 3
    whole = tomllib.loads("\n".join([survey, *added]))
    assert set(whole["house"]) > {"stock", "price", "programme", "material", "policy"}
    assert len(whole["decision"]) == 5
    assert len(whole["booked"]) == 2


def test_the_house_has_the_same_frames_and_sashes_on_the_last_day(surveys):
    first, last = (tomllib.loads(surveys[name]) for name in sorted(surveys, key=len))
    measures = ("height", "width", "cord_end", "top_nail", "weighed")
    for before, after in zip(first["window"], last["window"], strict=True):
        for same in ("tag", "room", "box", "pulley", "place"):
            assert before[same] == after[same]
        for place in ("upper", "lower"):
            assert [before[place][one] for one in measures] == [
                after[place][one] for one in measures
            ]
        assert "finding" not in after


def test_a_wrong_answer_is_put_right(teller):
    page = "```console\n$ printf 'two\\n'\nthree\n$ ls *.toml | wc -l | tr -d ' '\n```\n"
    right = page.replace("three", "two").replace("tr -d ' '\n", "tr -d ' '\n2\n")
    assert teller.retold(page) == right
    assert teller.retold(right) == right


def test_a_refusal_is_told_by_what_it_says_and_a_failure_stops_it(teller):
    page = "```console\n$ echo no >&2; exit 2\n```\n"
    assert teller.retold(page) == page.replace("2\n```", "2\nno\n```")
    with pytest.raises(RuntimeError, match=r"^grep nothing quince-cottage.toml: 1: $"):
        teller.retold("```console\n$ grep nothing quince-cottage.toml\n```\n")


def test_main_writes_the_page(teller, tmp_path, monkeypatch):
    monkeypatch.setattr(teller, "PAGE", tmp_path / "page.md")
    teller.PAGE.write_text("```console\n$ echo one\n```\n")
    teller.main()
    assert teller.PAGE.read_text() == "```console\n$ echo one\none\n```\n"


def test_the_way_to_it_is_shown(root):
    assert "](docs/tutorial.md)" in (root / "README.md").read_text(encoding="utf-8")
    assert "\ntutorial\n" in (root / "docs/index.md").read_text(encoding="utf-8")
