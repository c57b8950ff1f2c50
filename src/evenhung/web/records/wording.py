"""Changes in words: ``W3 lower: weighed 11 lb 4 oz, was 11 lb``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from evenhung.store.parts import WHOLE
from evenhung.web.records.fields import changed, flat

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from evenhung.store.parts import Key

MOST_LINES = 3
"""Lines of a summary; how many more there are is said, and the history shows them all."""

_DECIDED = {
    "hang": gettext_lazy("weight held"),
    "never": gettext_lazy("weight forbidden"),
    "hung": gettext_lazy("side hung"),
}
"""What a decision is called; the ids in it say nothing to a reader."""

_UNSAID = {"id"}
"""Fields that nobody typed."""


def differences(
    key: Key, before: Mapping[str, Any] | None, after: Mapping[str, Any] | None
) -> Iterator[str]:
    """Say how a part differs from what it was, a line for each field.

    Examples
    --------
    >>> from evenhung.store.parts import Key
    >>> old = {"tag": "W3", "lower": {"weighed": "11 lb"}}
    >>> new = {"tag": "W3", "lower": {"weighed": "11 lb 4 oz"}}
    >>> list(differences(Key("window", "a"), old, new))
    ['W3 lower: weighed 11 lb 4 oz, was 11 lb']
    """
    if before is None or after is None:
        said = _("%(part)s added") if before is None else _("%(part)s removed")
        yield said % {"part": name_of(key, before or after or {})}
        return
    name, old = name_of(key, before), flat(before)
    for path, value in changed(before, after).items():
        if path.rpartition(".")[2] not in _UNSAID:
            yield f"{_where(name, path)} {_told(value, old.get(path))}"


def name_of(key: Key, body: Mapping[str, Any]) -> str:
    """Give what a part is called: a window by its tag, others by what they have for a name."""
    if key.kind == "decision":
        return ", ".join(str(one) for one in (_DECIDED[body["what"]], body.get("side")) if one)
    for field in ("tag", "name", "mark", "marked"):
        if isinstance(body.get(field), str):
            return str(body[field])
    return f"{key.kind} {key.ident}".strip()


def in_short(lines: list[str]) -> str:
    """Give a summary of some lines: the first of them, and how many more there are."""
    more = len(lines) - MOST_LINES
    if more <= 1:
        return "; ".join(lines)
    return _("%(lines)s; and %(more)d more") % {
        "lines": "; ".join(lines[:MOST_LINES]),
        "more": more,
    }


def field_name(path: str) -> str:
    """Give the name of a field in words: the last step of its path."""
    return path.rpartition(".")[2].replace("_", " ")


def _where(name: str, path: str) -> str:
    *tables, field = path.split(".")
    place = " ".join([name, *(table.replace("_", " ") for table in tables)])
    return place if field == WHOLE else f"{place}: {field.replace('_', ' ')}"


def _told(value: Any, before: Any) -> str:
    if value is None:
        return _("cleared, was %(before)s") % {"before": spoken(before)}
    if before is None:
        return spoken(value)
    return _("%(value)s, was %(before)s") % {"value": spoken(value), "before": spoken(before)}


def spoken(value: Any) -> str:
    """Give a value of the survey as a person would read it out."""
    if isinstance(value, list):
        return "; ".join(spoken(one) for one in value)
    if isinstance(value, dict):
        return ", ".join(f"{name.replace('_', ' ')} {spoken(one)}" for name, one in value.items())
    return str(value)
