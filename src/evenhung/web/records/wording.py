"""Changes in words: ``W3 lower: weighed 11 lb 4 oz, was 11 lb``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from evenhung.store.parts import WHOLE
from evenhung.web.records.fields import changed, flat

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from evenhung.store.parts import Key, Part
    from evenhung.web.records.latest import Standing

MOST_LINES = 3
"""Lines of a summary; how many more there are is said, and the history shows them all."""

_DECIDED = {
    "hang": gettext_lazy("%(weight)s held at %(place)s"),
    "never": gettext_lazy("%(weight)s kept from %(place)s"),
    "hung": gettext_lazy("%(weight)s hung at %(place)s"),
}
"""What a decision is called."""

_WINDOWS = {("booked", "window"), ("window", "after")}
"""Fields that name a window, which keep its id."""

_UNSAID = {"id", "what"}
"""Fields that nobody typed, or that the name of the part says."""


def called_in(parts: Iterable[Part | Standing]) -> dict[str, str]:
    """Give what the windows and weights of a house are called, by the ids that decisions keep.

    Examples
    --------
    >>> from evenhung.store.parts import Key, Part
    >>> window = {"id": "a", "tag": "W1", "upper": {"left": {"id": "b"}}}
    >>> called_in([Part(Key("window", "a"), window)])
    {'a': 'W1', 'b': 'W1 upper left'}
    """
    found = {}
    for part in parts:
        tag = part.body.get("tag")
        if part.key.kind in ("window", "weight") and tag:
            found[part.key.ident] = str(tag)
            for place in ("upper", "lower"):
                for side in ("left", "right"):
                    weight = part.body.get(place, {}).get(side, {})
                    if "id" in weight:
                        found[weight["id"]] = f"{tag} {place} {side}"
    return found


def window_names(parts: Iterable[Part | Standing]) -> list[tuple[str, str]]:
    """Give the windows of a house in its order: the id of each, and its tag and room."""
    return [
        (part.key.ident, ", ".join(filter(None, (part.body["tag"], part.body.get("room")))))
        for part in parts
        if part.key.kind == "window"
    ]


def differences(
    key: Key,
    before: Mapping[str, Any] | None,
    after: Mapping[str, Any] | None,
    called: Mapping[str, str] | None = None,
) -> Iterator[str]:
    """Say how a part differs from what it was, a line for each field.

    Parameters
    ----------
    key
        What names the part.
    before
        It as it was; None for a new one.
    after
        It as it is; None for one that is removed.
    called
        What the windows and weights are called, by their ids.

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
        body = before or after or {}
        if key.kind == "decision":
            said = "%(part)s" if before is None else _("withdrawn: %(part)s")
        elif key.kind == "booked":
            said = _("%(part)s: %(hours)s h booked")
            said = said if before is None else _("%(part)s: %(hours)s h no longer booked")
        yield said % {"part": name_of(key, body, called), "hours": body.get("hours")}
        return
    name, old = name_of(key, after if key.kind == "decision" else before, called), flat(before)
    for path, now in changed(before, after).items():
        if path.rpartition(".")[2] in _UNSAID:
            continue
        value, was = now, old.get(path)
        if called and (key.kind, path) in _WINDOWS:
            value, was = called.get(str(now), now), called.get(str(was), was)
        if _is_a_list_of_items(value) or _is_a_list_of_items(was):
            yield from _by_item(_where(name, f"{path}.{WHOLE}"), was or [], value or [])
        else:
            yield f"{_where(name, path)} {_told(value, was)}"


def _is_a_list_of_items(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _by_item(name: str, before: list[Any], after: list[Any]) -> Iterator[str]:
    """Say which items of a list are new, are gone, or say something else."""
    gone = [one for one in before if one not in after]
    new = [one for one in after if one not in before]
    if len(gone) == len(new) == 1:
        yield from _of_one_item(name, gone[0], new[0])
        return
    yield from (_("%(name)s removed: %(item)s") % _item(name, one) for one in gone)
    yield from (_("%(name)s added: %(item)s") % _item(name, one) for one in new)


def _of_one_item(name: str, old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[str]:
    """Say what differs in an item; the whole of it where it is about something else now."""
    about = next(iter(new))
    if new[about] != old.get(about):
        yield f"{name}: {_told(new, old)}"
        return
    for field in dict.fromkeys((*new, *old)):
        if new.get(field) != old.get(field):
            now, was = (_counted(field, one.get(field)) for one in (new, old))
            yield f"{name} {spoken(new[about])}: {field.replace('_', ' ')} {_told(now, was)}"


def _counted(field: str, value: Any) -> Any:
    """Give how many photos there are, which a finding names by their ids; others as they are."""
    return len(value) if field == "photo" and value is not None else value


def _item(name: str, item: Any) -> dict[str, str]:
    return {"name": name, "item": spoken(item)}


def name_of(key: Key, body: Mapping[str, Any], called: Mapping[str, str] | None = None) -> str:
    """Give what a part is called: a window by its tag, others by what they have for a name."""
    if key.kind == "decision":
        return _decision(body, called) if called else _("Decision")
    if key.kind == "booked":
        window = (called or {}).get(body["window"])
        if window is None and body.get("removed") == "yes":
            window = body["window"]
        return f"{window}, {body['operation']}" if window else str(body["operation"])
    if key.kind == "photo":
        window = (called or {}).get(str(body.get("of")))
        return _("%(window)s photo") % {"window": window} if window else _("a photo")
    for field in ("tag", "name", "mark", "marked"):
        if isinstance(body.get(field), str):
            return str(body[field])
    return f"{key.kind} {key.ident}".strip()


def _decision(body: Mapping[str, Any], called: Mapping[str, str]) -> str:
    window, _space, place = body["sash"].rpartition(" ")
    side = body.get("side")
    where = " ".join([called.get(window, window), place, *([side] if side else [])])
    weight = body.get("weight")
    what = called.get(weight, weight) if weight else _("a new weight")
    named = {"weight": _("its own weight") if what == where else what, "place": where}
    return str(_DECIDED[body["what"]]) % named


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


def _field_spoken(name: str, value: Any) -> str:
    """Say a field of a table; of photos, which it names by their ids, how many there are."""
    return f"{name.replace('_', ' ')} {spoken(_counted(name, value))}"


def spoken(value: Any) -> str:
    """Give a value of the survey as a person would read it out."""
    if isinstance(value, list):
        return "; ".join(spoken(one) for one in value)
    if isinstance(value, dict):
        return ", ".join(_field_spoken(name, one) for name, one in value.items())
    return str(value)
