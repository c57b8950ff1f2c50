"""From what the validator says to what a person can act on: path, value, what is allowed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.errors import SurveyFault

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pydantic_core import ErrorDetails, ValidationError

    from evenhung.survey.fields import Record

_LONGEST_VALUE = 60


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
    """Write a value found in a survey on one line, shortened if it is long."""
    text = ascii(value) if isinstance(value, str) and not value.isprintable() else repr(value)
    return text if len(text) <= _LONGEST_VALUE else f"{text[: _LONGEST_VALUE - 3]}..."


def _path(location: Sequence[int | str]) -> str:
    path = ""
    for step in location:
        if isinstance(step, int):
            path += f"[{step}]"
        elif not step.startswith("<"):
            name = step if step.isprintable() and len(step) <= _LONGEST_VALUE else shown(step)
            path += f".{name}" if path else name
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
    if kind == "literal_error":
        return f"one of {context['expected']}"
    return _PLAIN[kind].format(**context) if kind in _PLAIN else details["msg"]


_PLAIN = {
    "dict_type": "a table of keys",
    "greater_than_equal": "at least {ge}",
    "less_than_equal": "at most {le}",
    "string_too_short": "a text of {min_length} character or more",
    "string_too_long": "a text of at most {max_length} characters",
    "too_short": "at least {min_length}",
    "too_long": "at most {max_length}",
    "finite_number": "an ordinary number, not nan or inf",
    "float_type": "a plain number, without a unit",
    "int_type": "a whole number",
    "list_type": "a list",
    "string_type": "a text in quotes",
}


def _unknown_key(location: Sequence[int | str], form: type[Record]) -> str:
    kind = _record_at(location[:-1], form)
    known = sorted(kind.entries) if kind else []
    near = nearest(str(location[-1]), known)
    return (
        f"no such key; nearest is {near!r}"
        if near
        else f"no such key; known are {', '.join(known)}"
    )


def nearest(name: str, known: Sequence[str]) -> str | None:
    """Give the known name most like `name`, or None where none is like it."""
    import difflib

    found = difflib.get_close_matches(name[:_LONGEST_VALUE], known, n=1, cutoff=0.6)
    return found[0] if found else None


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
