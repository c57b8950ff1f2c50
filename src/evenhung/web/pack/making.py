"""The sheets of a house made in a process of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.conf import settings

from evenhung.web.errand.sending import Errand, send
from evenhung.web.errand.standing import ErrandFolder
from evenhung.web.pack.maker import ZIP

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from evenhung.web.records.models import House

COMMAND = ("-I", "-m", "evenhung.web.pack.maker")
"""What Python is started with; -I: no module of the folder we stand in is taken for ours."""


class Wanted(NamedTuple):
    """How a pack is wanted, and by whom."""

    paper: str
    is_drawn: bool
    is_allotted: bool
    who: str
    link: str
    """What the codes on tags open; ``{window}`` stands for the window's id."""
    name: str
    """Of the folder within the zip."""
    on: date


def packs() -> Path:
    """Give the folder that all packs lie in."""
    folder: Path = settings.CONFIG.folder.path / "packs"
    return folder


def folder_of(house: House) -> ErrandFolder:
    """Give where the pack of a house lies."""
    return ErrandFolder(packs(), house.pk)


def zip_of(house: House) -> Path:
    """Give the pack of a house, there once it is ready."""
    return folder_of(house).path / ZIP


def begin_pack(house: House, wanted: Wanted) -> None:
    """Start to make the pack of a house as it now stands.

    Parameters
    ----------
    house
        The house.
    wanted
        How it is wanted.

    Raises
    ------
    Busy
        Where another one is being made: there is one at a time.
    """
    told = {name: getattr(wanted, name) for name in ("paper", "is_drawn", "is_allotted")}
    asked = {"link": wanted.link, "name": wanted.name, "on": wanted.on.isoformat()}
    send(house, Errand(packs(), COMMAND, wanted.who, told, asked))
