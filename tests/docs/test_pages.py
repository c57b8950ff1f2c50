"""Every page: its links lead somewhere, the files it names are there, its lines are sentences."""

import re
from pathlib import Path
from typing import get_args

from evenhung.notes import Severity
from evenhung.plan.verdict import Verdict

LINK = re.compile(r"\]\(([^)#:]+)(?:#[^)]*)?\)")
NAMED = re.compile(r"`((?:src|tests|tools|docs|requirements|changelog\.d|benchmarks)/[^`\s<>*]*)`")
NOT_YET = Path("docs/decisions/0002-own-environment.md")
"""The one page with several sentences to a line: it is older than the test."""
TWO_SENTENCES = re.compile(r"[a-z`)*][.!?] +[A-Z*`]")


def test_links_lead_somewhere(pages, root):
    dead = [
        f"{page}: {target}"
        for page, text in pages.items()
        for target in LINK.findall(text)
        if not (root / page.parent / target).exists()
    ]
    assert dead == []


def test_files_that_are_named_are_there(pages, root):
    named = [(page, path) for page, text in pages.items() for path in NAMED.findall(text)]
    assert len(named) > 50
    assert [f"{page}: {path}" for page, path in named if not (root / path).exists()] == []


def test_one_sentence_stands_on_one_line(pages, prose):
    crowded = [
        f"{page}:{number}: {line}"
        for page, text in pages.items()
        if page != NOT_YET
        for number, line in prose(text)
        if TWO_SENTENCES.search(line)
    ]
    assert crowded == []


def test_decisions_are_numbered_without_gaps_and_give_their_cost(pages):
    decisions = sorted(page for page in pages if page.parent.name == "decisions")
    assert [int(page.name[:4]) for page in decisions] == list(range(1, len(decisions) + 1))
    for page in decisions:
        assert pages[page].startswith(f"# {int(page.name[:4])}. ")
        headings = re.findall(r"^## (.+)$", pages[page], re.MULTILINE)
        assert headings[:4] == ["Context", "Choice", "Cost", "What would change our mind"], page


def test_the_glossary_is_in_order_and_has_the_words_of_verdicts_and_notes(root):
    page = (root / "docs/glossary.md").read_text(encoding="utf-8")
    sections = re.split(r"^## .+$", page, flags=re.MULTILINE)[1:]
    for section in sections:
        terms = re.findall(r"^- \*\*(.+?)\*\*: .+\.$", section, re.MULTILINE)
        assert terms == sorted(terms)
        assert len(terms) == section.count("\n- ")
    for verdict in get_args(Verdict):
        assert f"- **{verdict}**: " in page
    for severity in get_args(Severity):
        assert f"`{severity}`" in page
