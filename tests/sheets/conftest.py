"""What the tests of drawings share: the demo house, random houses, a browser with one page."""

from __future__ import annotations

import itertools
import tomllib
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from evenhung.plan import plan_house
from evenhung.sheets.scene import Dimension, Line, Words
from evenhung.sheets.scene.strokes import strokes_of
from evenhung.sheets.svg import NAMESPACE
from evenhung.store.demo import SURVEY
from evenhung.survey import survey_from

CHECKOUT = Path(__file__).parents[2]
STATIC = CHECKOUT / "src/evenhung/web/static/evenhung"
ORIGIN = "http://evenhung.test"
POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; base-uri 'none'"
"""What the app's pages will be held to: nothing inline, nothing from elsewhere."""


@pytest.fixture(scope="session")
def house():
    """Give the plan of the demo house."""
    text = SURVEY.read_text(encoding="utf-8")
    return plan_house(survey_from(tomllib.loads(text)))


@pytest.fixture(scope="session")
def parsed():
    """Parse an SVG text; its tags are found with the prefix `s`."""
    return lambda text: Svg(ET.fromstring(text))  # noqa: S314 - we wrote it


class Svg:
    """A parsed drawing, asked by class and by data."""

    def __init__(self, root):
        self.root = root

    def all(self, tag="*", **data):
        wanted = {f"data-{name.replace('_', '-')}": value for name, value in data.items()}
        return [
            element
            for element in self.root.iter(f"{{{NAMESPACE}}}{tag}" if tag != "*" else None)
            if all(element.get(name) == value for name, value in wanted.items())
        ]

    def layer(self, name):
        return [each for each in self.all("g") if name in each.get("class", "").split()]

    def words(self):
        return ["".join(text.itertext()) for text in self.all("text")]


@pytest.fixture(scope="session")
def collisions():
    """Give a function that finds words over words, and leaders through words, in a drawing."""
    return _collisions


def _collisions(drawing):
    words, leaders = [], []
    quiet = [
        alarm
        for clearance in drawing.every_group()
        if clearance.facts and clearance.facts.get("state", "struck") != "struck"
        for alarm in clearance.groups()
        if alarm.layer == "alarm"
    ]
    for group in drawing.every_group():
        if group in quiet:
            continue
        for member in group.members:
            if isinstance(member, Words):
                words.append(member)
            elif isinstance(member, Dimension):
                words += [one for one in strokes_of(member) if isinstance(one, Words)]
            elif isinstance(member, Line) and group.layer == "label":
                leaders.append(member)
    # the room of words has a little air above a capital: a letter is 0.72 of its size high
    rooms = [(one.text, one.room()) for one in words]
    found = [
        (text, other)
        for (text, room), (other, beside) in itertools.combinations(rooms, 2)
        if _meet(room, beside)
    ]
    return found + [
        (text, "leader", line)
        for text, room in rooms
        for line in leaders
        if _meet(room, line.room())
    ]


def _meet(one, other):
    across = one.left < other.right and other.left < one.right
    return across and one.bottom < other.top and other.bottom < one.top


@pytest.fixture
def open_page(chromium):
    """Give a function that opens a page with drawings in it, under the app's own policy."""
    contexts = []

    def opened(body, *, width=1280, height=1000, **options):
        context = chromium.new_context(viewport={"width": width, "height": height}, **options)
        contexts.append(context)
        page = context.new_page()
        page.complaints = []
        page.on("pageerror", lambda error: page.complaints.append(str(error)))
        page.on("console", lambda line: page.complaints.append(line.text))
        page.route(f"{ORIGIN}/**", lambda route: _answer(route, body))
        page.goto(f"{ORIGIN}/")
        return page

    yield opened
    for context in contexts:
        context.close()


PAGE = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Drawings</title>
<link rel="stylesheet" href="/page.css">
<link rel="stylesheet" href="/drawing.css">
<script type="module" src="/moving-section.js"></script>
<body>{body}</body>
</html>
"""
PAGE_CSS = """
:root { color-scheme: light dark; }
body { margin: 12px; background: #fbf9f4; color: #26231f; font-family: system-ui, sans-serif; }
@media (prefers-color-scheme: dark) { body { background: #1b1a18; color: #ece7dd; } }
.side-by-side { display: grid; gap: 24px; }
@media (min-width: 900px) {
  .side-by-side { grid-template-columns: 1.15fr 1fr; max-width: 1100px; align-items: start; }
}
"""


def _answer(route, body):
    path = route.request.url.removeprefix(ORIGIN)
    if path == "/":
        headers = {"Content-Security-Policy": POLICY, "Content-Type": "text/html"}
        route.fulfill(body=PAGE.format(body=body), headers=headers)
    elif path == "/page.css":
        route.fulfill(body=PAGE_CSS, headers={"Content-Type": "text/css"})
    elif (file := STATIC / path.lstrip("/")).is_file():
        kind = {".js": "text/javascript", ".css": "text/css"}[file.suffix]
        route.fulfill(body=file.read_bytes(), headers={"Content-Type": kind})
    else:  # the browser asks for an icon by itself
        route.fulfill(status=204, body="")
