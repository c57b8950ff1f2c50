"""From what was typed into a form to the plain data of the survey, by what each field holds.

What cannot be read stays as it was typed: the survey then refuses it by name and nothing is lost.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from pydantic_core import CoreConfig, SchemaValidator, ValidationError

from evenhung.store.parts import record_of
from evenhung.survey import Survey
from evenhung.survey.faults import faults_of
from evenhung.survey.schema import holds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.survey.fields import Entry

_WHOLE = re.compile(r"[+-]?\d{1,15}", re.ASCII)
DAY = r"^\d{4}-\d{2}-\d{2}$"
"""The pattern by which the form declares a day."""
_NUMBER = re.compile(r"[+-]?\d{1,15}(?:[.,]\d{1,15})?", re.ASCII)


def entry_at(kind: str, path: str) -> Entry | None:
    """Give what the form declares of a field of a kind of part; None if it has no such field."""
    record = record_of(kind)
    entry = None
    for name in path.split("."):
        entry = record.entries.get(name) if record else None
        record = entry.part if entry else None
    return entry


def from_form(kind: str, typed: Mapping[str, str]) -> dict[str, Any]:
    """Read what was typed for some fields of a part.

    Parameters
    ----------
    kind
        The kind of part: ``house``, ``window``, ``weight``.
    typed
        What stands in each field, by its path; nothing in a field clears it.

    Returns
    -------
    dict
        Values for `save`, by path; None where a field is cleared.

    Examples
    --------
    >>> from_form("window", {"tag": " W1 ", "pulley.friction": "0,15", "room": ""})
    {'tag': 'W1', 'pulley.friction': 0.15, 'room': None}
    """
    return {path: _read(kind, path, text) for path, text in typed.items()}


def _read(kind: str, path: str, text: str) -> Any:
    text = text.replace("\r\n", "\n").strip()
    if not text:
        return None
    entry = entry_at(kind, path)
    held = holds(entry) if entry else {}
    if held.get("type") == "array":
        parted = r"[;,\n]" if {"enum", "pattern"} & held["items"].keys() else r"[;\n]"
        items = [one.strip() for one in re.split(parted, text) if one.strip()]
        return [_single(held["items"], one) for one in items]
    return _single(held, text)


def _single(held: Mapping[str, Any], text: str) -> Any:
    if held.get("type") == "integer" and _WHOLE.fullmatch(text):
        return int(text)
    if held.get("type") == "number" and _NUMBER.fullmatch(text):
        number = float(text.replace(",", "."))
        return int(number) if _WHOLE.fullmatch(text) else number
    return text


def refusal(kind: str, path: str, text: str) -> str:
    """Say what is wrong with one field by itself; empty where nothing is.

    Parameters
    ----------
    kind
        The kind of part.
    path
        The field.
    text
        What was typed.

    Examples
    --------
    >>> refusal("window", "box.clear_width", "86 mm")
    'a length from 150 mm to 3 m'
    """
    entry = entry_at(kind, path)
    value = _read(kind, path, text)
    if entry is None:
        return "no such field"
    if value is None:
        return f"required: {entry.says}" if entry.is_required else ""
    try:
        SchemaValidator(entry.schema, CoreConfig(strict=True)).validate_python(value)
    except ValidationError as error:
        return next(faults_of(error, Survey)).allowed
    return ""
