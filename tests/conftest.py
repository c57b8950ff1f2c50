"""What tests of several kinds share: the app as a server, a real PostgreSQL, a real browser."""

from __future__ import annotations

import http.client
import os
import re
import shutil
import signal
import subprocess
import sys
import urllib.parse
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[1]


@dataclass
class Answer:
    """What a server answered."""

    status: int
    headers: dict
    text: str


@dataclass
class Server:
    """The app as a process of its own, and a browser of the plainest kind."""

    data: Path
    variables: dict = field(default_factory=dict)
    process: subprocess.Popen = None
    address: str = ""
    cookies: dict = field(default_factory=dict)

    def start(self, *arguments, program=("-m", "evenhung")):
        variables = {**os.environ, "PYTHONPATH": str(ROOT / "src"), **self.variables}
        command = [sys.executable, *program, "serve", "--data", str(self.data), *arguments]
        self.process = subprocess.Popen(
            command,
            env=variables,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            start_new_session=True,
        )
        line = self.process.stdout.readline()
        found = re.search(r"https?://\S+", line)
        if not found:
            raise RuntimeError(f"it did not start: {line}{self.process.communicate()[1]}")
        self.address = found[0].rstrip("/")
        return self

    def kill(self):
        """End the server and all that it started, as a loss of power would."""
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.communicate()

    def stop(self):
        """End the server as Ctrl-C does; give what it said."""
        self.process.send_signal(signal.SIGINT)
        return self.process.communicate(timeout=20)

    def get(self, path):
        return self._ask("GET", path)

    @cached_property
    def token(self):
        """What every form must send back, or it is not ours."""
        return re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', self.get("/").text)[1]

    def post(self, path, **typed):
        body = urllib.parse.urlencode({"csrfmiddlewaretoken": self.token, **typed})
        headers = {"Content-Type": "application/x-www-form-urlencoded", "Origin": self.address}
        return self._ask("POST", path, body, headers)

    def _ask(self, method, path, body=None, headers=None):
        connection = http.client.HTTPConnection(self.address.partition("//")[2], timeout=30)
        try:
            cookie = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
            connection.request(method, path, body, {**(headers or {}), "Cookie": cookie})
            answer = connection.getresponse()
            for name, value in answer.getheaders():
                if name.lower() == "set-cookie":
                    key, _, rest = value.strip().partition("=")
                    self.cookies[key] = rest.partition(";")[0]
            text = answer.read().decode()
            return Answer(answer.status, dict(answer.getheaders()), text)
        finally:
            connection.close()


@pytest.fixture(scope="session")
def small_window():
    """Gives ``small_window(*findings, box=, sash=, **window)``: a window of two sashes, alike.

    It is plain data for a survey, with six panes in each sash and no more sizes than it must have;
    ``box`` and ``sash`` state more of both boxes and of both sashes.
    """

    def make(*findings, box=None, sash=None, **window):
        both = {
            "height": "850 mm",
            "width": "857 mm",
            "cord_end": "260 mm",
            "panes": {"across": 3, "up": 2},
            **(sash or {}),
        }
        return {
            "tag": "W1",
            "box": {
                "clear_width": "860 mm",
                "clear_height": "1650 mm",
                "weight_space": "1545 mm",
                "pulley_drop": "90 mm",
                **(box or {}),
            },
            "pulley": {"wheel": "44 mm"},
            "upper": dict(both),
            "lower": dict(both),
            "finding": list(findings),
            **window,
        }

    return make


@pytest.fixture
def server(tmp_path):
    """Give a server that has not been started; what is still running at the end is killed."""
    one = Server(tmp_path / "data", {"EVENHUNG_DATABASE_URL": ""})
    yield one
    if one.process is not None and one.process.poll() is None:
        one.kill()


@pytest.fixture(scope="session")
def throwaway_postgresql():
    """Give the tool that runs a PostgreSQL; skip where this machine has none."""
    sys.path.insert(0, str(ROOT))
    try:
        from tools import throwaway_postgresql as tool
    finally:
        sys.path.remove(str(ROOT))
    if not tool.is_there():
        pytest.skip("this machine has no PostgreSQL")
    return tool


@pytest.fixture(scope="session")
def server_on():
    """Gives ``server_on(folder)``: a server on a data folder, not yet started."""
    return lambda folder, **variables: Server(folder, {"EVENHUNG_DATABASE_URL": "", **variables})


@pytest.fixture(scope="session")
def chromium():
    """Start Debian's Chromium, once for all tests of pages: there can be one driver at a time."""
    path = shutil.which("chromium")
    if path is None:
        pytest.skip("Chromium is not installed (Debian: apt-get install chromium)")
    options = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"]
    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=path, args=options)
        yield started
        started.close()
