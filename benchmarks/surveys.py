"""Surveys to measure with: the demo house's windows, repeated under tags of their own."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

DEMO = Path(__file__).parent.parent / "src/evenhung/store/demo/tollgate-house.toml"


def house_of(windows: int) -> dict[str, Any]:
    """Give the demo house, its windows repeated until there are so many."""
    house = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    found = house["window"]
    house["window"] = [copy.deepcopy(found[number % len(found)]) for number in range(windows)]
    for number, window in enumerate(house["window"]):
        window["tag"] = f"W{number + 1}"
    return house
