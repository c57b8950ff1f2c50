"""Keeps every test off anybody's data: the app's is in a folder that is gone afterwards."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

WEB = Path(__file__).parent / "src/evenhung/web"
DATA = tempfile.TemporaryDirectory(prefix="evenhung-tests-")
os.environ["EVENHUNG_DATA"] = DATA.name
# The driver of the browser tests leaves a loop running in this thread; nothing here waits on it.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"


def pytest_collect_file(file_path: Path) -> None:
    """Make Django ready before a module of the app is read for its examples."""
    if WEB in file_path.parents:
        from evenhung.web.database import make_ready

        make_ready()
