"""How one part of a survey speaks of another: a sash as "W3 upper", a weight as "W5 lower left".

A window may be named by its tag or by its id, a loose weight too; a weight found at a sash by its
place or by its own id.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeAlias

from evenhung.survey.nearest import nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.survey.decision import Decision
    from evenhung.survey.fields import Refusal
    from evenhung.survey.hours import Booked
    from evenhung.survey.loose import LooseWeight
    from evenhung.survey.window import Window

Side: TypeAlias = Literal["left", "right"]


class SashName(NamedTuple):
    """A sash of a survey."""

    window: int
    """Position of its window."""
    place: str


class FoundAt(NamedTuple):
    """A weight of a survey by where it was found."""

    window: int
    place: str
    side: str


class Loose(NamedTuple):
    """A weight of a survey that lies loose."""

    position: int


class Names:
    """The sashes and weights of a survey by all their names."""

    def __init__(self, windows: Sequence[Window], loose: Sequence[LooseWeight]) -> None:
        self.sashes: dict[str, SashName] = {}
        self.weights: dict[str, FoundAt | Loose] = {}
        self.clashes: list[Refusal] = []
        """Names of loose weights that others have, too."""
        for number, window in enumerate(windows):
            for name in (window.tag, window.id):
                if name is not None:
                    self._add_window(name, number, window)
        for number, weight in enumerate(loose):
            for field in ("tag", "id"):
                name = getattr(weight, field)
                known = self.weights.setdefault(name, Loose(number)) if name is not None else None
                if known in (None, Loose(number)):
                    continue
                twin = isinstance(known, Loose) and getattr(loose[known.position], field) == name
                if not twin:  # a tag or id that stands twice is said elsewhere
                    allowed = "a name that no other weight goes by"
                    self.clashes.append((f"weight[{number}].{field}", repr(name), allowed))

    def _add_window(self, name: str, number: int, window: Window) -> None:
        for place, sash in window.sashes():
            self.sashes[f"{name} {place}"] = SashName(number, place)
            for side, weight in sash.weights():
                if weight is None or weight.is_missing:
                    continue
                found = FoundAt(number, place, side)
                self.weights[f"{name} {place} {side}"] = found
                if weight.id is not None:
                    self.weights[weight.id] = found


def unknown_in(
    windows: Sequence[Window], loose: Sequence[LooseWeight], decisions: Sequence[Decision]
) -> Iterator[Refusal]:
    """Give names that clash, and decisions on what is not there or against an earlier one."""
    if not decisions and not loose:
        return
    names = Names(windows, loose)
    yield from names.clashes
    known = [
        (names.sashes.get(one.sash), names.weights.get(one.weight) if one.weight else None)
        for one in decisions
    ]
    for number, (decision, (sash, weight)) in enumerate(zip(decisions, known, strict=True)):
        path = f"decision[{number}]"
        if sash is None:
            yield f"{path}.sash", repr(decision.sash), _one_of("sash", decision.sash, names.sashes)
        if decision.weight is not None and weight is None:
            given = decision.weight
            yield f"{path}.weight", repr(given), _one_of("weight", given, names.weights)
    yield from _against_each_other(decisions, known)


def _against_each_other(
    decisions: Sequence[Decision],
    known: Sequence[tuple[SashName | None, FoundAt | Loose | None]],
) -> Iterator[Refusal]:
    """Give decisions that go against an earlier one."""
    first: dict[object, int] = {}
    never = [
        (sash, weight, decision.side)
        for decision, (sash, weight) in zip(decisions, known, strict=True)
        if decision.what == "never"
    ]
    for number, (decision, (sash, weight)) in enumerate(zip(decisions, known, strict=True)):
        if decision.what == "never" or sash is None:
            continue
        path = f"decision[{number}]"
        for field, subject in (("side", (sash, decision.side)), ("weight", weight)):
            if subject is None:
                continue
            if subject in first:
                given = repr(getattr(decision, field))
                yield f"{path}.{field}", given, f"one that decision[{first[subject]}] has not taken"
            first.setdefault(subject, number)
        if weight is not None and any(
            (sash, weight, side) in never for side in (decision.side, None)
        ):
            yield f"{path}.weight", repr(decision.weight), "one that is not barred there by another"


def windows_not_there(windows: Sequence[Window], booked: Sequence[Booked]) -> Iterator[Refusal]:
    """Give hours booked on a window that is not there, and windows that shall follow one.

    Hours of a window that has been taken out are history, and lead nowhere.
    """
    known = [name for window in windows for name in (window.tag, window.id) if name is not None]
    said = [
        (f"booked[{number}].window", one.window)
        for number, one in enumerate(booked)
        if one.removed != "yes"
    ]
    said += [
        (f"window[{number}].after", window.after)
        for number, window in enumerate(windows)
        if window.after is not None
    ]
    for path, name in said:
        if name not in known:
            near = nearest(name, known)
            allowed = f"a window of this survey{f'; nearest is {near!r}' if near else ''}"
            yield path, repr(name), allowed


def _one_of(what: str, given: str, names: dict[str, Any]) -> str:
    known = list(names)
    near = nearest(given, known)
    if near:
        return f"a {what} of this survey; nearest is {near!r}"
    some = known[:4]
    listed = f"{', '.join(some)}{' and so on' if len(known) > len(some) else ''}"
    return f"a {what} of this survey: {listed or 'there is none'}"
