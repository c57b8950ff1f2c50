"""What runs in a process of its own: a survey comes in, a zip of sheets is made of it.

The survey is the first line of the standard input. When that input ends, the server is gone, and
nobody is left to want the pack.
"""

from __future__ import annotations

import json
import os
import sys
import threading
import traceback
import zipfile
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from evenhung.store.files import written_aside
from evenhung.web.pack.standing import FAILED, READY, STOPPED, PackFolder, Standing

if TYPE_CHECKING:
    from evenhung.sheets.pack.files import PackFile
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.survey.window import Window

PLACE = "{window}"


class Stopped(Exception):
    """Somebody wants it to stop."""


def main() -> None:
    """Read what is asked, make it, say how it goes and what came of it.

    Its last word said, the process ends at once: while it is there, no other pack can be begun.
    """
    asked = json.loads(sys.stdin.buffer.readline())
    threading.Thread(target=_end_with_the_server, daemon=True).start()
    folder = PackFolder(Path(asked["packs"]), asked["house"])
    standing = Standing(**asked["standing"])
    try:
        standing = _make(folder, standing, asked)
    except Stopped:
        standing = replace(standing, state=STOPPED)
    except Exception as fault:
        traceback.print_exc()
        standing = replace(standing, state=FAILED, reason=f"{type(fault).__name__}: {fault}")
    sys.stderr.flush()
    folder.write(standing)
    os._exit(int(standing.state == FAILED))


def _end_with_the_server() -> None:
    while os.read(sys.stdin.fileno(), 4096):
        pass
    os._exit(1)


def _make(folder: PackFolder, standing: Standing, asked: dict[str, Any]) -> Standing:
    """Make every file and zip them; the zip takes its name when it is whole."""
    from evenhung.sheets.pack.files import Wish, pack_files

    house = _house(standing, asked)
    files = pack_files(house, Wish(is_drawn=standing.is_drawn))
    day = (house.edition.on.year, house.edition.on.month, house.edition.on.day, 0, 0, 0)
    with written_aside(folder.zip) as zipped, zipfile.ZipFile(zipped, "w") as packed:
        for number, one in enumerate(files):
            standing = _told(folder, standing, files, number)
            entry = zipfile.ZipInfo(f"{asked['name']}/{one.name}", date_time=day)
            entry.external_attr = 0o644 << 16
            entry.compress_type = zipfile.ZIP_DEFLATED
            packed.writestr(entry, one.make())
    return replace(standing, state=READY, done=len(files), says="")


def _told(folder: PackFolder, standing: Standing, files: list[PackFile], number: int) -> Standing:
    """Say what is being made, where that is new; look whether it shall stop."""
    if folder.stop.exists():
        raise Stopped
    says = files[number].says
    if number and says == standing.says:
        return standing
    standing = replace(standing, done=number, of=len(files), says=says)
    folder.write(standing)
    return standing


def _house(standing: Standing, asked: dict[str, Any]) -> PackHouse:
    from evenhung.plan import plan_house
    from evenhung.plan.allotment import allot_house
    from evenhung.sheets.pack.house import Edition, pack_house, revision_of
    from evenhung.survey import survey_from

    def address_of(window: Window) -> str:
        link: str = asked["link"]
        return link.replace(PLACE, window.id or "")

    survey = survey_from(asked["survey"])
    on = date.fromisoformat(asked["on"])
    plan = plan_house(survey)
    edition = Edition(revision_of(survey), on, standing.paper, address_of)
    return pack_house(plan, edition, allot_house(plan) if standing.is_allotted else None)


if __name__ == "__main__":
    main()
