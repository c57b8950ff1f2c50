"""The app's settings for mypy's Django plugin: on a folder of the build, not on anybody's data."""

from __future__ import annotations

import os
from pathlib import Path

os.environ["EVENHUNG_DATA"] = str(Path(__file__).resolve().parent.parent / "build" / "mypy-data")

from evenhung.web.settings import *  # noqa: F403 Django wants them all
