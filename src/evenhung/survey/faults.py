"""From what the validator says to what a person can act on: path, value, what is allowed."""

from __future__ import annotations

import re
from itertools import islice
from typing import TYPE_CHECKING, Any

from evenhung.errors import SurveyFault
from evenhung.survey.nearest import did_you_mean, nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pydantic_core import ErrorDetails, ValidationError

    from evenhung.survey.fields import Record

_LONGEST_VALUE = 60
_LARGEST_SHOWN = 10**18
"""A whole number as large is not written out; Python will not even write the largest."""
_MOST_SHOWN = 3
"""Tables and lists are shown so deep; deeper ones can be too deep to write out."""


def faults_of(error: ValidationError, form: type[Record]) -> Iterator[SurveyFault]:
    """Give the faults that a validation found, in the order of the survey.

    Parameters
    ----------
    error
        What the validator raised.
    form
        The record that was being read, for the names of its keys.
    """
    for details in error.errors(include_url=False):
        path = _path(details["loc"])
        if details["type"] == "contradiction":
            for where, value, allowed in details["ctx"]["refusals"]:
                yield SurveyFault(f"{path}.{where}".lstrip("."), value, allowed)
        else:
            yield SurveyFault(path or "survey", _value(details), _allowed(details, form))


def shown(value: Any) -> str:
    """Write a value found in a survey on one line as it is typed, shortened if it is long."""
    text = _written(value, _MOST_SHOWN)
    return text if len(text) <= _LONGEST_VALUE else f"{text[: _LONGEST_VALUE - 3]}..."


def _written(value: Any, depth: int) -> str:
    if isinstance(value, str):
        start = value[:_LONGEST_VALUE]
        return repr(start) if start.isprintable() else ascii(start)
    if value is None or isinstance(value, bool):
        return "null" if value is None else str(value).lower()
    if isinstance(value, int) and abs(value) >= _LARGEST_SHOWN:
        return "(a huge number)"
    if isinstance(value, dict | list):
        left, right = "{}" if isinstance(value, dict) else "[]"
        parts = _parts(value, depth - 1) if depth else ["..."]
        return f"{left}{', '.join(parts)}{right}"
    return str(value)


def _parts(value: dict[str, Any] | list[Any], depth: int) -> list[str]:
    """Write the parts of a table or a list, no more of them than are shown."""
    first = list(islice(value, _LONGEST_VALUE))
    if isinstance(value, dict):
        return [f"{_named(key)} = {_written(value[key], depth)}" for key in first]
    return [_written(one, depth) for one in first]


def _named(key: str) -> str:
    return key if _BARE.fullmatch(key) else shown(key)


_BARE = re.compile(f"[A-Za-z0-9_-]{{1,{_LONGEST_VALUE}}}")
"""A key that needs no quotes."""


def _path(location: Sequence[int | str]) -> str:
    path = ""
    for step in location:
        if isinstance(step, int):
            path += f"[{step}]"
        elif not step.startswith("<"):
            path += f".{_named(step)}" if path else _named(step)
    return path


def _value(details: ErrorDetails) -> str:
    if details["type"] == "missing":
        return "(absent)"
    return shown(details["input"])


def _allowed(details: ErrorDetails, form: type[Record]) -> str:
    context = details.get("ctx", {})
    kind = details["type"]
    if kind == "refused":
        return str(context["allowed"])
    if kind == "missing":
        return f"required: {_description(details['loc'], form)}"
    if kind == "extra_forbidden":
        return _unknown_key(details["loc"], form)
    if kind == "list_type" and len(details["loc"]) == 1:
        (part,) = details["loc"]
        return f"a list of {part}s: begin each with [[{part}]]"
    if kind == "literal_error":
        return _one_of(details["input"], str(context["expected"]))
    return _PLAIN[kind].format(**context) if kind in _PLAIN else details["msg"]


_PLAIN = {
    "dict_type": "a table of keys",
    "greater_than_equal": "at least {ge:g}",
    "less_than_equal": "at most {le:g}",
    "string_too_short": "a text of {min_length} character or more",
    "string_too_long": "a text of at most {max_length} characters",
    "too_short": "at least {min_length} in the list",
    "too_long": "at most {max_length} in the list",
    "finite_number": "an ordinary number, not nan or inf",
    "float_type": "a plain number, without a unit",
    "int_type": "a whole number",
    "list_type": "a list",
    "string_type": "a text in quotes",
    "string_unicode": "a text of whole characters",
}


def _one_of(given: Any, expected: str) -> str:
    """Say what can be chosen, as the validator lists it in quotes; the nearest first."""
    words = re.findall(r"'([^']*)'", expected)
    return f"{did_you_mean(given, words)}one of {expected}"


def _unknown_key(location: Sequence[int | str], form: type[Record]) -> str:
    kind = _record_at(location[:-1], form)
    known = sorted(kind.entries) if kind else []
    near = nearest(str(location[-1]), known)
    return (
        f"no such key; nearest is {near!r}"
        if near
        else f"no such key; known are {', '.join(known)}"
    )


def _description(location: Sequence[int | str], form: type[Record]) -> str:
    kind = _record_at(location[:-1], form)
    entry = kind.entries.get(str(location[-1])) if kind else None
    return entry.says if entry else ""


def _record_at(location: Sequence[int | str], form: type[Record]) -> type[Record] | None:
    """Follow a location down the records, through lists and alternatives."""
    kind: type[Record] | None = form
    for step in location:
        if isinstance(step, int) or step.startswith("<"):
            continue
        entry = kind.entries.get(step) if kind else None
        kind = entry.part if entry else None
    return kind
