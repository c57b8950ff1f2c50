"""From the bytes of a file to a survey, or to every fault in it at once."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from pydantic_core import ValidationError

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.survey.document import FORM, Survey, validated
from evenhung.survey.faults import faults_of, shown
from evenhung.survey.forms import brought_up_to_date

if TYPE_CHECKING:
    from collections.abc import Iterator

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
    faults = []
    if "form" not in document:  # said with all the other faults, not instead of them
        faults.append(SurveyFault("form", "(absent)", f"form = {FORM}, above everything else"))
        document = {"form": FORM, **document}
    document = brought_up_to_date(document)
    try:
        survey = validated(document)
    except ValidationError as error:
        faults += faults_of(error, Survey)
    for part in ("window", "weight"):
        faults += [*_repeated(document, part, "tag"), *_repeated(document, part, "id")]
    if faults:
        raise InvalidSurvey(_in_order([_with_tag(fault, document) for fault in faults]))
    return survey


def _with_tag(fault: SurveyFault, document: dict[str, Any]) -> SurveyFault:
    """Name the window a fault is in by its tag: that is what people call it."""
    inside = re.match(r"window\[(\d+)\]\.(?!tag$)", fault.path)
    if inside is None:
        return fault
    tag = document["window"][int(inside[1])].get("tag")
    return replace(fault, window=tag) if isinstance(tag, str) and tag.isprintable() else fault


def _in_order(faults: list[SurveyFault]) -> tuple[SurveyFault, ...]:
    """Put faults in the order of the survey; those of one window stay as they were found."""
    parts = list(Survey.entries)

    def place(fault: SurveyFault) -> tuple[int, int]:
        part, _, rest = fault.path.partition("[")
        part = part.partition(".")[0]
        number = rest.partition("]")[0]
        at = parts.index(part) if part in parts else len(parts)
        return at, int(number) if number.isdigit() else 0

    return tuple(sorted(faults, key=place))


def _parsed(data: bytes, notation: Notation) -> Any:
    if len(data) > MOST_BYTES:
        raise _unreadable("(too large)", f"at most {MOST_BYTES} bytes")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _no_text(data, error.start) from None
    if "\0" in text:
        raise _no_text(data, data.index(0))
    if not text.strip():
        raise _unreadable("(empty)", "a survey, beginning with form = 1")
    if notation == "toml" and _ENDLESS_KEY.search(text):
        raise _too_deep()
    try:
        return _json(text) if notation == "json" else _toml(text)
    except RecursionError:
        raise _too_deep() from None
    except ValueError as error:
        raise _unreadable(f"(not {notation.upper()})", _reason(error)) from None


def _unreadable(value: str, allowed: str) -> InvalidSurvey:
    return InvalidSurvey((SurveyFault("file", value, allowed),))


def _no_text(data: bytes, place: int) -> InvalidSurvey:
    line = data.count(b"\n", 0, place) + 1
    return _unreadable(f"byte {data[place]:#04x} on line {line}", "a text in UTF-8")


def _too_deep() -> InvalidSurvey:
    return _unreadable("(nested too deeply)", "tables nested no deeper than the form's")


def _reason(error: ValueError) -> str:
    """Say what a parser says, but not what Python says of a number it will not read."""
    reason = str(error).splitlines()[0]
    for said, advice in _ADVICE.items():
        if reason.startswith(said):
            return f"{reason}: {advice}"
    return "a number has too many figures" if "set_int_max_str_digits" in reason else reason


_ADVICE = {
    "Invalid value": 'a text stands in straight quotes, as in "838 mm"',
    "Cannot overwrite": "begin each window with [[window]], and name each of its tables once",
    "Cannot declare": "begin each window with [[window]], and name each of its tables once",
}
"""What to do about what a parser says."""


MOST_PARTS = 99
"""A dotted key of more parts is refused unread: tomllib takes the square of them in time."""

_PART = r"""(?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*')[ \t]*"""
_ENDLESS_KEY = re.compile(
    rf"(?:^|[{{,])[ \t]*\[{{0,2}}[ \t]*(?>{_PART}\.[ \t]*){{{MOST_PARTS}}}", re.MULTILINE
)


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
        (twice, _), *_ = Counter(key for key, _ in pairs).most_common(1)
        raise ValueError(f"the key {shown(twice)} stands twice in one table")
    return table


def _repeated(document: dict[str, Any], part: str, key: str) -> Iterator[SurveyFault]:
    """Give a fault for each part of a kind whose tag or id an earlier one has."""
    parts = document.get(part)
    first: dict[str, int] = {}
    for place, one in enumerate(parts if isinstance(parts, list) else []):
        name = one.get(key) if isinstance(one, dict) else None
        if not isinstance(name, str):
            continue
        if name in first:
            allowed = f"one of its own; {part}[{first[name]}] has this {key}"
            yield SurveyFault(f"{part}[{place}].{key}", shown(name), allowed)
        first.setdefault(name, place)
