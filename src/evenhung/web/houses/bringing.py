"""A house from a file that someone hands in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings

from evenhung.errors import InvalidFile
from evenhung.store.housezip import read_house
from evenhung.survey import read_survey
from evenhung.survey.reading import MOST_BYTES
from evenhung.web.records.beginning import begin

if TYPE_CHECKING:
    from django.core.files.uploadedfile import UploadedFile

    from evenhung.web.records.models import House

ALLOWED = "a survey (.toml, .json), a filled-in workbook (.xlsx) or a house taken out (.zip)"


def brought(file: UploadedFile, name: str, *, who: str) -> House:
    """Begin a house from a file, by the ending of its name.

    Raises
    ------
    InvalidSurvey
        Where the survey in it is refused, with every fault; of a workbook, by its cell.
    InvalidFile
        Where it is neither a survey, nor a workbook, nor a house.
    """
    ending = name.rpartition(".")[2].lower()
    if ending == "zip":
        survey, photos = read_house(file, settings.CONFIG.folder.photos)
        return begin(survey, who=who, photos=photos)
    if ending == "xlsx":
        from evenhung.sheets.blank import reading  # a workbook is dear to load

        return begin(reading.read_workbook(file.read(reading.MOST_BYTES + 1)), who=who)
    if ending not in ("toml", "json"):
        raise InvalidFile("file", name[-60:], ALLOWED)
    data = file.read(MOST_BYTES + 1)
    return begin(read_survey(data, "json" if ending == "json" else "toml"), who=who)
