"""The README says first what it is for, and what it shows is what the program prints."""

import os
import re

import pytest

from evenhung.cli.lines import plan_lines

FIRST_SCREEN = 20


@pytest.fixture
def readme(root):
    return (root / "README.md").read_text(encoding="utf-8")


def block(page, language):
    """Give the lines of the first block of a language."""
    found = re.search(rf"^```{language}\n(.*?)^```$", page, re.MULTILINE | re.DOTALL)
    return found.group(1).splitlines()


def test_the_survey_shown_is_a_sash_of_the_demo_house(readme, demo_survey):
    window = demo_survey.partition('tag = "W2"')[2].partition("[[window]]")[0]
    heading, *stated = block(readme, "toml")
    assert heading == "[window.lower]"
    lines = window.partition(heading + "\n")[2].splitlines()
    assert len(stated) == 3
    assert [line for line in lines if line in stated] == stated


def test_the_answer_shown_is_what_the_plan_says(readme, demo_plan):
    said = [line for line in plan_lines(demo_plan) if line.startswith("W2 lower: ")]
    assert block(readme, "text") == said[:5]


def test_picture_and_answer_are_on_the_first_screen(readme):
    title, blank, *first = readme.splitlines()[:FIRST_SCREEN]
    assert (title, blank) == ("# Evenhung", "")
    assert first[0].startswith("A joiner who overhauls box-framed sliding sash windows")
    assert any("](docs/pictures/hang.svg)" in line for line in first)
    assert any(line.startswith("W2 lower: adjust: ") for line in first)


def test_the_two_commands_come_next_and_are_there(readme, root):
    commands = [line.split() for line in block(readme, "sh")]
    assert [words[0:2] for words in commands] == [["./evenhung", "demo"], ["./check", "#"]]
    assert all(os.access(root / words[0], os.X_OK) for words in commands)
    assert readme.index("```sh") > readme.index("```text")


def test_it_is_plainly_guidance(readme):
    assert "What Evenhung says is guidance" in readme
    assert "Local codes, and whoever is licensed to do the work, come before" in readme
