"""A survey cut into the parts that are saved one by one, and put together again.

A part is the house, one window, one loose weight, or any other table of the form: what two people
can work on without being in each other's way. Parts of which there are several carry an id.
"""

from __future__ import annotations

import base64
import re
import secrets
from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.survey import FORM, Survey

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from evenhung.survey.fields import Record

WHOLE = "all"
"""The key that holds a list of the form whose items carry no ids: it is one part as it stands."""


IDENT = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}", re.ASCII)
"""An id that can stand in an address; those made here are shorter."""


class Key(NamedTuple):
    """What names a part: its kind, and its id where there are several of its kind."""

    kind: str
    ident: str = ""


class Part(NamedTuple):
    """One part of a survey as plain data."""

    key: Key
    body: dict[str, Any]


def parts_of(document: Mapping[str, Any]) -> list[Part]:
    """Cut a survey into its parts, in its order.

    Parameters
    ----------
    document
        A sound survey as plain data, every part of which there are several with its id.

    Returns
    -------
    list of Part
        The parts; `document_of` puts them together again.

    Examples
    --------
    >>> house = {"form": 1, "house": {"name": "Alder Row"}, "window": [{"id": "a", "tag": "W1"}]}
    >>> [part.key.kind for part in parts_of(house)]
    ['house', 'window']
    """
    found = []
    for kind, value in document.items():
        if kind == "form":
            continue
        if isinstance(value, dict):
            found.append(Part(Key(kind), value))
        elif has_ids(kind):
            found.extend(Part(Key(kind, item["id"]), item) for item in value)
        else:
            found.append(Part(Key(kind), {WHOLE: value}))
    return found


def document_of(parts: Iterable[Part]) -> dict[str, Any]:
    """Put parts together to a survey as plain data, in the newest form.

    Parameters
    ----------
    parts
        The parts, those of one kind in the order they are to have.

    Returns
    -------
    dict
        The survey, not yet checked.
    """
    tables: dict[str, Any] = {}
    for (kind, _), body in parts:
        if has_ids(kind):
            tables.setdefault(kind, []).append(body)
        else:
            tables[kind] = body[WHOLE] if set(body) == {WHOLE} else body
    return {"form": FORM, **{kind: tables[kind] for kind in Survey.entries if kind in tables}}


def record_of(kind: str) -> type[Record] | None:
    """Give the record that a kind of part is; None for a kind that the form does not know."""
    entry = Survey.entries.get(kind)
    return entry.part if entry else None


def has_ids(kind: str) -> bool:
    """Tell whether there can be several parts of a kind, told apart by their ids."""
    record = record_of(kind)
    return record is not None and Survey.entries[kind].default == () and "id" in record.entries


def new_id() -> str:
    """Make an id: 80 random bits in 16 letters and figures, short enough for a label.

    It says nothing of the time, so a clock that is wrong does no harm.
    """
    return base64.b32encode(secrets.token_bytes(10)).decode().lower()


def with_ids(document: Mapping[str, Any]) -> dict[str, Any]:
    """Give every record that may carry an id and has none an id of its own.

    Parameters
    ----------
    document
        A sound survey as plain data.

    Returns
    -------
    dict
        The same survey; an id that was there is never changed.
    """
    return _with_ids(document, Survey)


def part_with_ids(part: Part) -> Part:
    """Give a part, and every record in it, the ids that they lack."""
    record = record_of(part.key.kind)
    if record is None or WHOLE in part.body:
        return part
    body = _with_ids(part.body, record)
    return Part(Key(part.key.kind, body["id"]) if has_ids(part.key.kind) else part.key, body)


def _with_ids(body: Mapping[str, Any], record: type[Record]) -> dict[str, Any]:
    given = dict(body)
    if "id" in record.entries:
        given.setdefault("id", new_id())
    for name, entry in record.entries.items():
        value = given.get(name)
        if entry.part is None:
            continue
        if isinstance(value, dict):
            given[name] = _with_ids(value, entry.part)
        elif isinstance(value, list):
            part = entry.part
            given[name] = [_with_ids(one, part) if isinstance(one, dict) else one for one in value]
    return given
