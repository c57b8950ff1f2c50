"""The app as a person meets it: Debian's Chromium, driven through a real server."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

AXE = Path(__file__).parent / "axe/axe-4.14.1.min.js"
PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 900}


def pytest_collection_modifyitems(items):
    """Mark every test here as slow: a browser takes seconds."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.slow)


@pytest.fixture(scope="session")
def app(server_on, tmp_path_factory):
    """Give the address of a server that all tests share; each begins houses of its own."""
    server = server_on(tmp_path_factory.mktemp("app") / "data").start()
    yield server.address
    server.kill()


@pytest.fixture
def open_page(chromium, app):
    """Gives ``open_page(size)``: a page of a new browser; what it complains of fails the test."""
    contexts, complaints = [], []

    def opened(size=DESK, **options):
        context = chromium.new_context(viewport=size, base_url=app, **options)
        context.set_default_timeout(10_000)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda fault: complaints.append(str(fault)))
        page.on("console", lambda said: complaints.append(said.text) if _is_bad(said) else None)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert complaints == []


def _is_bad(said):
    """Tell a complaint from the note that a page was refused or a connection lost."""
    refused = re.search(r"status of (404|409|422|503)|ERR_(CONNECTION|INTERNET|EMPTY)", said.text)
    return said.type in ("error", "warning") and not refused


@pytest.fixture
def demo():
    """Gives ``demo(page)``: open the demo house on a page; give its address."""

    def begun(page):
        page.goto("/")
        page.get_by_role("button", name="Open the demo house").click()
        page.wait_for_url("**/house/*/")
        return page.url

    return begun


@pytest.fixture
def faults_of_access():
    """Gives ``faults_of_access(page)``: what axe finds against WCAG 2.2 AA, and where."""

    def found(page):
        page.evaluate(AXE.read_text())
        tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
        result = page.evaluate("tags => axe.run({runOnly: tags})", tags)
        return [
            f"{one['id']}: {node['target']}"
            for one in result["violations"]
            for node in one["nodes"]
        ]

    return found
