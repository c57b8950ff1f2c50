"""What the tests of the documents share: the checkout, its pages, the tools that write them."""

import importlib
import re
import tomllib
from pathlib import Path

import pytest

from evenhung.plan import plan_house
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

CHECKOUT = Path(__file__).parents[2]


@pytest.fixture
def root():
    return CHECKOUT


@pytest.fixture
def tool(monkeypatch):
    """Give one of the tools of the checkout by its name."""
    monkeypatch.syspath_prepend(str(CHECKOUT))
    return lambda name: importlib.import_module(f"tools.{name}")


@pytest.fixture
def pages():
    """Give every Markdown page of the project by its path from the root."""
    written = [*CHECKOUT.glob("*.md"), *CHECKOUT.glob("docs/**/*.md")]
    written += CHECKOUT.glob("changelog.d/*.md")
    return {file.relative_to(CHECKOUT): file.read_text(encoding="utf-8") for file in written}


@pytest.fixture
def prose():
    """Give the lines of a page that are neither code, tables nor comments, with their numbers."""
    return _prose


def _prose(page):
    is_code = False
    for number, line in enumerate(page.splitlines(), start=1):
        if line.lstrip().startswith("```"):
            is_code = not is_code
        elif not is_code and not re.match(r"\s*(\||<!--)", line):
            yield number, line


@pytest.fixture
def demo_survey():
    """Give the demo house's survey: its text, as a file holds it."""
    return SURVEY.read_text(encoding="utf-8")


@pytest.fixture
def demo_plan(demo_survey):
    return plan_house(survey_from(tomllib.loads(demo_survey)))
