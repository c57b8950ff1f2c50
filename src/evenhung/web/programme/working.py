"""The programme of a house worked out in a process of its own, and what came of it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.conf import settings

from evenhung.web.errand.sending import Errand, send
from evenhung.web.errand.standing import ErrandFolder
from evenhung.web.programme.solver import PROGRAMME

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from evenhung.web.records.models import House

COMMAND = ("-I", "-m", "evenhung.web.programme.solver")
"""What Python is started with; -I: no module of the folder we stand in is taken for ours."""


def programmes() -> Path:
    """Give the folder that all programmes lie in."""
    folder: Path = settings.CONFIG.folder.path / "programmes"
    return folder


def folder_of(house: House) -> ErrandFolder:
    """Give where the programme of a house lies."""
    return ErrandFolder(programmes(), house.pk)


def begin_programme(house: House, *, who: str, on: date) -> None:
    """Start to work out the programme of a house as it now stands.

    Parameters
    ----------
    house
        The house.
    who
        The name of whoever asks.
    on
        Stands in for a first day that the house does not state.

    Raises
    ------
    Busy
        Where another one is being worked out: there is one at a time.
    """
    send(house, Errand(programmes(), COMMAND, who, {}, {"on": on.isoformat()}))


def last_programme(house: House) -> dict[str, Any] | None:
    """Give the last programme that was worked out, as plain data; None where there is none."""
    try:
        told: dict[str, Any] = json.loads((folder_of(house).path / PROGRAMME).read_bytes())
    except FileNotFoundError:
        return None
    return told
