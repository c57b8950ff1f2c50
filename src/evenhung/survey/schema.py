"""The survey form as a JSON Schema (draft 2020-12), and as rows for a table."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.survey.document import Survey
from evenhung.survey.fields import Record

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic_core import CoreSchema

    from evenhung.survey.fields import Entry

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> dict[str, Any]:
    """Give the JSON Schema of a survey; ranges of quantities are in words."""
    parts: dict[str, Any] = {}
    whole = _record_schema(Survey, parts)
    return {
        "$schema": DIALECT,
        "title": "Evenhung survey, form 1",
        **whole,
        "$defs": dict(sorted(parts.items())),
    }


def _record_schema(kind: type[Record], parts: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "description": (kind.__doc__ or "").strip().splitlines()[0],
        "properties": {name: _field_schema(entry, parts) for name, entry in kind.entries.items()},
        "required": [name for name, entry in kind.entries.items() if entry.is_required],
        "additionalProperties": False,
    }


def _field_schema(entry: Entry, parts: dict[str, Any]) -> dict[str, Any]:
    held = _held(entry.schema, entry.part, parts)
    return {**held, "description": f"{entry.says}; {absence(entry)}"}


def _held(schema: CoreSchema, part: type[Record] | None, parts: dict[str, Any]) -> dict[str, Any]:
    """Say what a field may hold, by the kind of its checking schema."""
    shape: Any = schema
    kind = shape["type"]
    if kind == "function-plain":
        facts = shape["metadata"]
        texts = {"type": "string", "minLength": 1, "maxLength": 40, "examples": facts["examples"]}
        return {**texts, "$comment": f"a {facts['kind']} from {facts['least']} to {facts['most']}"}
    if kind == "tagged-union":
        return {"anyOf": [_held(choice, part, parts) for choice in shape["choices"].values()]}
    if kind in ("function-after", "function-wrap"):
        return {**_held(shape["schema"], part, parts), **shape.get("metadata", {})}
    if kind == "typed-dict":
        return _reference(part, parts)
    if kind == "list":
        bounds = {"minItems": shape.get("min_length"), "maxItems": shape.get("max_length")}
        stated = {name: bound for name, bound in bounds.items() if bound}
        return {"type": "array", "items": _held(shape["items_schema"], part, parts), **stated}
    return _SIMPLE[kind](shape)


def _reference(part: type[Record] | None, parts: dict[str, Any]) -> dict[str, Any]:
    if part is None:
        raise LookupError("a field holds a table of keys but names no record")
    if part.__name__ not in parts:
        parts[part.__name__] = {}
        parts[part.__name__] = _record_schema(part, parts)
    return {"$ref": f"#/$defs/{part.__name__}"}


_SIMPLE = {
    "literal": lambda shape: {"enum": shape["expected"]},
    "float": lambda shape: {"type": "number", "minimum": shape["ge"], "maximum": shape["le"]},
    "int": lambda shape: {"type": "integer", "minimum": shape["ge"], "maximum": shape["le"]},
    "str": lambda shape: {
        "type": "string",
        "minLength": shape.get("min_length", 1),
        **({"maxLength": shape["max_length"]} if "max_length" in shape else {}),
    },
}


def absence(entry: Entry) -> str:
    """Say in words what the absence of a field means."""
    if entry.is_required:
        return "required"
    if entry.row:
        return f"if absent: assumed, {entry.row}"
    return f"if absent: {entry.absent}"


class FormRow(NamedTuple):
    """One field of the form, for a table."""

    record: str
    field: str
    holds: str
    says: str
    absent: str


def form_rows() -> Iterator[FormRow]:
    """Give every field of every record of the form, each record once, in the order they are met."""
    seen: list[type[Record]] = []
    yield from _rows(Survey, seen)


def _rows(kind: type[Record], seen: list[type[Record]]) -> Iterator[FormRow]:
    if kind in seen:
        return
    seen.append(kind)
    for name, entry in kind.entries.items():
        yield FormRow(kind.__name__, name, _in_words(entry), entry.says, absence(entry))
    for entry in kind.entries.values():
        if entry.part is not None:
            yield from _rows(entry.part, seen)


def holds(entry: Entry) -> dict[str, Any]:
    """Give the JSON Schema of what a field may hold; a table is a reference to its record."""
    return _held(entry.schema, entry.part, {})


def _in_words(entry: Entry) -> str:
    return _spoken(holds(entry))


def _spoken(held: dict[str, Any]) -> str:
    """Say a field's JSON Schema in words."""
    if "$comment" in held:
        return str(held["$comment"])
    if "$ref" in held:
        return f"table: {held['$ref'].rsplit('/', 1)[-1]}"
    if "anyOf" in held:
        return " or ".join(_spoken(one) for one in held["anyOf"])
    if "enum" in held:
        return " or ".join(f'"{word}"' for word in held["enum"])
    return _spoken_plain(held)


def _spoken_plain(held: dict[str, Any]) -> str:
    if held["type"] == "array":
        return f"list: {_spoken(held['items'])}"
    if "maximum" in held:
        what = "whole number" if held["type"] == "integer" else "number"
        return f"{what}, {held['minimum']:g} to {held['maximum']:g}"
    return "text"
