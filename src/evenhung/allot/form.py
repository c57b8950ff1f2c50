"""The form of an instance and of a solution as plain data, as JSON holds them.

Masses are in ticks, lengths in steps, money in cents: see `problem`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.allot.problem import (
    Band,
    NewMetal,
    Piece,
    Problem,
    Rules,
    Sash,
    Trim,
    Weight,
)
from evenhung.errors import InvalidInstance

if TYPE_CHECKING:
    from evenhung.allot.answer import Answer, Serving

MOST = 1_000_000
"""No number of an instance is greater: sums of costs then fit the 32 bits they are reckoned in."""


def problem_of(instance: dict[str, Any]) -> Problem:
    """Read an instance.

    Parameters
    ----------
    instance
        ``{"rules": ..., "sashes": [...], "weights": [...]}``.

    Raises
    ------
    InvalidInstance
        If a key is missing or a value is not allowed; it names the first.
    """
    top = _Reader(instance, "instance")
    rules = top.inside("rules")
    windows = rules.inside("window")
    bands = {
        kind: (windows.inside(kind).band("accept"), windows.inside(kind).band("ideal"))
        for kind in windows.data
    }
    sashes = tuple(_sash(one, bands) for one in top.each("sashes"))
    if not sashes:
        raise InvalidInstance("sashes", "[]", "at least one sash")
    weights = tuple(_weight(one, len(sashes)) for one in top.each("weights"))
    homes = [weight.home for weight in weights if weight.home]
    for home in homes:
        if homes.count(home) > 1:
            raise InvalidInstance("weights", str(list(home)), "a home of one weight only")
    return Problem(_rules(rules), sashes, weights)


def solution_of(answer: Answer) -> dict[str, Any]:
    """Write an answer with its prices."""
    pairs = [
        None if pair is None else [_side(serving) for serving in pair] for pair in answer.pairs
    ]
    return {"sashes": pairs, "prices": list(answer.prices)}


def _side(serving: Serving) -> dict[str, Any]:
    if serving.weight is None:
        return {"new": serving.new, "mass": serving.mass}
    if serving.trimmed:
        return {"w": serving.weight, "trim": serving.trimmed}
    if serving.pieces:
        return {"w": serving.weight, "add": list(serving.pieces)}
    return {"w": serving.weight}


def _rules(rules: _Reader) -> Rules:
    trim, metals = rules.inside("trim"), rules.inside("new")
    return Rules(
        most_difference=rules.number("max_diff"),
        unserved=rules.number("unserved"),
        off_fixed=rules.number("off_fixed"),
        off_per_tick=rules.number("off_per_tick"),
        move=rules.number("move"),
        pieces=tuple(Piece(*rules.numbers("pieces", row, 3)) for row in rules.rows("pieces")),
        most_pieces=rules.number("max_pieces"),
        trim=Trim(
            trim.number("fixed"),
            trim.number("per_tick"),
            (trim.number("max_num"), trim.number("max_den", least=1)),
        ),
        metals=tuple(_metal(name, metals.inside(name)) for name in metals.data),
    )


def _metal(name: str, metal: _Reader) -> NewMetal:
    return NewMetal(
        name,
        metal.number("fixed"),
        metal.number("per_tick"),
        (metal.number("len_num"), metal.number("len_den", least=1)),
        metal.number("len_add"),
    )


def _sash(sash: _Reader, bands: dict[str, tuple[Band, Band]]) -> Sash:
    kind, longest = sash.value("kind"), sash.number("Lmax")
    if kind not in bands:
        raise InvalidInstance(f"{sash.path}.kind", repr(kind), f"one of {', '.join(bands)}")
    return Sash(sash.number("W", least=1), *bands[kind], (longest, longest))


def _weight(weight: _Reader, sashes: int) -> Weight:
    home = weight.value("home")
    if home is not None:
        home = weight.numbers("home", home, 2)
        if home[0] >= sashes or home[1] > 1:
            raise InvalidInstance(f"{weight.path}.home", str(home), "a sash and a side, 0 or 1")
    return Weight(weight.number("m", least=1), weight.number("len"), home)


class _Reader:
    """A part of an instance that knows where it lies."""

    def __init__(self, data: Any, path: str) -> None:  # noqa: ANN401 - not checked yet
        if not isinstance(data, dict):
            raise InvalidInstance(path, repr(data)[:40], "a table of keys and values")
        self.data, self.path = data, path

    def value(self, key: str) -> Any:  # noqa: ANN401 - not checked yet
        if key not in self.data:
            raise InvalidInstance(f"{self.path}.{key}", "nothing", "a value")
        return self.data[key]

    def inside(self, key: str) -> _Reader:
        return _Reader(self.value(key), f"{self.path}.{key}")

    def rows(self, key: str) -> list[Any]:
        rows = self.value(key)
        if not isinstance(rows, list):
            raise InvalidInstance(f"{self.path}.{key}", repr(rows)[:40], "a list")
        return rows

    def each(self, key: str) -> list[_Reader]:
        rows = enumerate(self.rows(key))
        return [_Reader(row, f"{self.path}.{key}[{number}]") for number, row in rows]

    def number(self, key: str, *, least: int = 0) -> int:
        return self._checked(key, self.value(key), least)

    def numbers(self, key: str, row: Any, count: int, least: int = 0) -> Any:  # noqa: ANN401
        if not isinstance(row, list | tuple) or len(row) != count:
            path = f"{self.path}.{key}"
            raise InvalidInstance(path, repr(row)[:40], f"a list of {count} whole numbers")
        return tuple(self._checked(key, number, least) for number in row)

    def band(self, key: str) -> Band:
        least, most = self.numbers(key, self.value(key), 2, least=-MOST)
        if least > most:
            raise InvalidInstance(f"{self.path}.{key}", f"[{least}, {most}]", "the lesser first")
        return Band(least, most)

    def _checked(self, key: str, number: Any, least: int) -> int:  # noqa: ANN401 - is checked here
        if type(number) is not int or not least <= number <= MOST:
            allowed = f"a whole number from {least} to {MOST}"
            raise InvalidInstance(f"{self.path}.{key}", repr(number)[:40], allowed)
        return number
