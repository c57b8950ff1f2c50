"""A part as a flat list of fields, so that two versions of it can be held against each other.

A field is named by its path: ``upper.left.weighed``. Lists are values; they are not looked into.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Mapping

Fields: TypeAlias = "dict[str, Any]"
"""Values by their paths; None for a field that is cleared."""


class Clash(NamedTuple):
    """A field that two people have set to different values since the page was made."""

    field: str
    """Its path; empty for the whole part."""
    before: Any
    theirs: Any
    ours: Any


def flat(body: Mapping[str, Any] | None) -> Fields:
    """Give every value of a part by its path.

    Examples
    --------
    >>> flat({"tag": "W1", "upper": {"weighed": "18 lb"}})
    {'tag': 'W1', 'upper.weighed': '18 lb'}
    """
    found: Fields = {}
    for name, value in (body or {}).items():
        if isinstance(value, dict):
            found |= {f"{name}.{path}": inner for path, inner in flat(value).items()}
        else:
            found[name] = value
    return found


def changed(before: Mapping[str, Any] | None, after: Mapping[str, Any] | None) -> Fields:
    """Give the fields of `after` that differ from `before`; None for those it no longer has."""
    old, new = flat(before), flat(after)
    return {path: new.get(path) for path in {**old, **new} if old.get(path) != new.get(path)}


def with_fields(body: Mapping[str, Any] | None, fields: Mapping[str, Any]) -> dict[str, Any]:
    """Give a part with some fields set or cleared; a table that is left empty goes.

    Examples
    --------
    >>> with_fields({"tag": "W1", "lower": {"note": "x"}}, {"tag": "W2", "lower.note": None})
    {'tag': 'W2'}
    """
    copy = _copied(body or {})
    for path, value in fields.items():
        _set(copy, path.split("."), value)
    return copy


def clashes(base: Mapping[str, Any] | None, theirs: Fields, ours: Fields) -> list[Clash]:
    """Give the fields that both have changed since `base`, to different values."""
    before = flat(base)
    return [
        Clash(path, before.get(path), theirs[path], value)
        for path, value in ours.items()
        if path in theirs and theirs[path] != value
    ]


def _copied(body: Mapping[str, Any]) -> dict[str, Any]:
    return {k: _copied(v) if isinstance(v, dict) else v for k, v in body.items()}


def _set(table: dict[str, Any], path: list[str], value: Any) -> None:
    name, *rest = path
    if rest:
        inner = table.get(name)
        inner = table[name] = inner if isinstance(inner, dict) else {}
        _set(inner, rest, value)
        if not inner:
            del table[name]
    elif value is None:
        table.pop(name, None)
    else:
        table[name] = value
