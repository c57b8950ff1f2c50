"""What runs in a process of its own: a survey comes in, a zip of sheets is made of it."""

from __future__ import annotations

import zipfile
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

from evenhung.store.files import written_aside
from evenhung.web.errand.running import Stopped, run
from evenhung.web.errand.standing import READY, ErrandFolder, Standing

if TYPE_CHECKING:
    from evenhung.sheets.pack.files import PackFile
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.survey.window import Window

PLACE = "{window}"
ZIP = "pack.zip"
"""The file that the last pack lies in."""


def main() -> None:
    """Make what is asked."""
    run(_make)


def _make(folder: ErrandFolder, standing: Standing, asked: dict[str, Any]) -> Standing:
    """Make every file and zip them; the zip takes its name when it is whole."""
    from evenhung.sheets.pack.beside import pack_in_making
    from evenhung.sheets.pack.files import Wish

    house = _house(standing, asked)
    with pack_in_making(house, Wish(is_drawn=standing.wanted["is_drawn"])) as files:
        standing = _zipped(folder, standing, files, asked["name"], house.edition.on)
    return replace(standing, state=READY, done=len(files), says="")


def _zipped(
    folder: ErrandFolder, standing: Standing, files: list[PackFile], name: str, on: date
) -> Standing:
    day = (on.year, on.month, on.day, 0, 0, 0)
    with written_aside(folder.path / ZIP) as zipped, zipfile.ZipFile(zipped, "w") as packed:
        for number, one in enumerate(files):
            standing = _told(folder, standing, files, number)
            entry = zipfile.ZipInfo(f"{name}/{one.name}", date_time=day)
            entry.external_attr = 0o644 << 16
            entry.compress_type = zipfile.ZIP_DEFLATED
            packed.writestr(entry, one.make())
    return standing


def _told(folder: ErrandFolder, standing: Standing, files: list[PackFile], number: int) -> Standing:
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

    survey, wanted = survey_from(asked["survey"]), standing.wanted
    on = date.fromisoformat(asked["on"])
    plan = plan_house(survey)
    edition = Edition(revision_of(survey), on, wanted["paper"], address_of)
    return pack_house(plan, edition, allot_house(plan) if wanted["is_allotted"] else None)


if __name__ == "__main__":
    main()
