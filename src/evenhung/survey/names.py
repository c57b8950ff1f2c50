"""How one part of a survey speaks of another: a sash as "W3 upper", a weight as "W5 lower left".

A window may be named by its tag or by its id, a loose weight too; a weight found at a sash by its
place or by its own id.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from evenhung.survey.decision import Decision
    from evenhung.survey.fields import Refusal
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
        for number, weight in enumerate(loose):
            for name in (weight.tag, weight.id):
                if name is not None:
                    self.weights[name] = Loose(number)
        for number, window in enumerate(windows):
            for name in (window.tag, window.id):
                if name is not None:
                    self._add_window(name, number, window)

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
    """Give decisions that speak of what is not there, or go against an earlier one."""
    if not decisions:
        return
    names = Names(windows, loose)
    first: dict[object, int] = {}
    for number, decision in enumerate(decisions):
        path = f"decision[{number}]"
        sash = names.sashes.get(decision.sash)
        weight = names.weights.get(decision.weight) if decision.weight else None
        if sash is None:
            yield f"{path}.sash", repr(decision.sash), f"a sash: {_listed(names.sashes)}"
        if decision.weight is not None and weight is None:
            yield f"{path}.weight", repr(decision.weight), f"a weight: {_listed(names.weights)}"
        if decision.what == "never":
            continue
        for field, subject in (("side", (sash, decision.side)), ("weight", weight)):
            if subject is None or sash is None:
                continue
            if subject in first:
                given = repr(getattr(decision, field))
                yield f"{path}.{field}", given, f"one not taken by decision[{first[subject]}]"
            first.setdefault(subject, number)


def _listed(names: dict[str, SashName] | dict[str, FoundAt | Loose]) -> str:
    some = list(names)[:4]
    return f"{', '.join(some)}{' and so on' if len(names) > len(some) else ''}" or "there is none"
