"""From the bytes of a file to a survey, or to every fault in it at once."""

from __future__ import annotations

from typing import Any, Literal, TypeAlias

from pydantic_core import ValidationError

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.survey.document import Survey, validated
from evenhung.survey.faults import faults_of, shown
from evenhung.survey.forms import brought_up_to_date

Notation: TypeAlias = Literal["toml", "json"]

MOST_BYTES = 20_000_000
"""Larger than a survey of ten thousand windows; anything larger is not a survey."""


def read_survey(data: bytes, notation: Notation = "toml") -> Survey:
    r"""Read a survey from the bytes of a file.

    Parameters
    ----------
    data
        What the file holds.
    notation
        How it is written.

    Returns
    -------
    Survey
        The survey, every quantity as typed.

    Raises
    ------
    InvalidSurvey
        With every fault found: where it is, what was found, what is allowed.

    Examples
    --------
    >>> read_survey(b'form = 1\n[house]\nname = "Alder Row"\nshown_in = "metric"\n').house.name
    'Alder Row'
    """
    return survey_from(_parsed(data, notation))


def survey_from(document: Any) -> Survey:
    """Make a survey of plain data, as TOML or JSON gives it.

    Raises
    ------
    InvalidSurvey
        With every fault found.
    """
    if not isinstance(document, dict):
        raise InvalidSurvey(
            (SurveyFault("survey", shown(document), "a table of keys, beginning with form = 1"),)
        )
    document = brought_up_to_date(document)
    repeated = list(_repeated_tags(document))
    try:
        survey = validated(document)
    except ValidationError as error:
        raise InvalidSurvey((*faults_of(error, Survey), *repeated)) from None
    if repeated:
        raise InvalidSurvey(tuple(repeated))
    return survey


def _parsed(data: bytes, notation: Notation) -> Any:
    if len(data) > MOST_BYTES:
        raise _unreadable(f"{len(data)} bytes", f"at most {MOST_BYTES} bytes")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _unreadable(
            f"byte {data[error.start]:#04x} at {error.start}", "a text in UTF-8"
        ) from None
    if not text.strip():
        raise _unreadable("(empty)", "a survey, beginning with form = 1")
    try:
        return _json(text) if notation == "json" else _toml(text)
    except RecursionError:
        raise _unreadable(
            "(nested too deeply)", "tables nested no deeper than the form's"
        ) from None
    except ValueError as error:
        raise _unreadable(f"(not {notation.upper()})", str(error).splitlines()[0]) from None


def _unreadable(value: str, allowed: str) -> InvalidSurvey:
    return InvalidSurvey((SurveyFault("file", value, allowed),))


def _toml(text: str) -> Any:
    import tomllib

    return tomllib.loads(text)


def _json(text: str) -> Any:
    import json

    def constant(name: str) -> None:
        raise ValueError(f"{name} is not a number that JSON has")

    return json.loads(text, parse_constant=constant, object_pairs_hook=_without_repeats)


def _without_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in table if keys.count(key) > 1)
        raise ValueError(f"the key {shown(twice)} stands twice in one table")
    return table


def _repeated_tags(document: dict[str, Any]) -> list[SurveyFault]:
    windows = document.get("window")
    first: dict[str, int] = {}
    faults = []
    for place, window in enumerate(windows if isinstance(windows, list) else []):
        tag = window.get("tag") if isinstance(window, dict) else None
        if not isinstance(tag, str):
            continue
        if tag in first:
            allowed = f"a tag of its own; window[{first[tag]}] has this one"
            faults.append(SurveyFault(f"window[{place}].tag", shown(tag), allowed))
        first.setdefault(tag, place)
    return faults
