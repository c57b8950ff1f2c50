"""The ways in which a weight can serve: as it is, with pieces added, trimmed; or a new one.

All ways of a problem lie in one table of columns, so that whole houses are priced at once.
The weights that are there come first, each with its ways side by side; the new ones, which belong
to nobody and never run out, come last and share the number after the last weight.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from evenhung.allot.problem import NewMetal, Problem, Rules


class Way(NamedTuple):
    """One way for a side of a sash to be served."""

    weight: int
    """Number of the weight; the number of weights, for a new one."""
    mass: int
    length: int
    cost: int
    """Without that of a move."""
    detail: int
    """A row of the menu of pieces; ticks taken off, negative; which of the new, for a new one."""


@dataclass(frozen=True, slots=True)
class Ways:
    """The table of all ways; a way is known by its row."""

    weight: NDArray[np.int32]
    mass: NDArray[np.int32]
    length: NDArray[np.int32]
    cost: NDArray[np.int32]
    detail: NDArray[np.int32]
    menu: tuple[tuple[int, ...], ...]
    """Numbers of pieces of each size; the first row has none."""

    def row(self, way: int) -> Way:
        """Give one way in plain numbers."""
        columns = (self.weight, self.mass, self.length, self.cost, self.detail)
        return Way(*(int(column[way]) for column in columns))

    def sources(self, nobody: int) -> NDArray[np.int32]:
        """Give the source of each way, where so many weights are there."""
        return np.where(self.weight == nobody, nobody + self.detail, self.weight)


def ways_of(problem: Problem) -> Ways:
    """Give every way to serve that no other way of the same weight to the same mass beats.

    Masses that no pair of the problem can have are left out. Ways lie by weight, then mass, then
    cost.
    """
    rules, nobody = problem.rules, len(problem.weights)
    menu = _menu(rules)
    least, most = _masses_wanted(problem)
    weighs = np.array([weight.mass for weight in problem.weights], dtype=np.int64)
    measures = np.array([weight.length for weight in problem.weights], dtype=np.int64)
    costs = np.array([weight.cost for weight in problem.weights], dtype=np.int64)
    parts = [_made_up(weighs, measures, rules, menu), _trimmed(weighs, measures, rules)]
    for part in parts:
        part[:, 3] += costs[part[:, 0]]
    new = [
        _new(metal, which, ticks, number=nobody)
        for which, metal in enumerate(rules.metals)
        for ticks in range(least, most if metal.most is None else min(most, metal.most + 1))
    ]
    ready = [
        Way(nobody, one.mass, one.length, one.cost, which)
        for which, one in enumerate(rules.ready, len(rules.metals))
    ]
    parts.append(np.array(new + ready, dtype=np.int64).reshape(-1, len(Way._fields)))
    table = np.concatenate(parts)
    final = np.array([*(weight.is_final for weight in problem.weights), False])
    table = table[~final[table[:, 0]] | (table[:, 4] == 0)]
    table = table[(least <= table[:, 1]) & (table[:, 1] < most)]
    table = table[np.lexsort((table[:, 3], table[:, 1], table[:, 0]))]
    number, mass, length, cost, detail = table.T.astype(np.int32)
    return Ways(number, mass, length, cost, detail, menu)


def _masses_wanted(problem: Problem) -> tuple[int, int]:
    """Give the least mass that some side may have, and the first that is too much for all."""
    apart = problem.rules.most_difference
    least = min((sash.mass + sash.accept.least - apart) // 2 for sash in problem.sashes)
    most = max((sash.mass + sash.accept.most + apart) // 2 for sash in problem.sashes)
    return max(1, least), most + 1


def _menu(rules: Rules) -> tuple[tuple[int, ...], ...]:
    sizes = range(len(rules.pieces))
    return tuple(
        tuple(chosen.count(size) for size in sizes)
        for count in range(rules.most_pieces + 1)
        for chosen in combinations_with_replacement(sizes, count)
    )


def _made_up(
    weighs: NDArray[np.int64],
    measures: NDArray[np.int64],
    rules: Rules,
    menu: tuple[tuple[int, ...], ...],
) -> NDArray[np.int64]:
    """Add each row of the menu that is not beaten by another to each weight."""
    sizes = [(piece.mass, piece.length, piece.cost) for piece in rules.pieces]
    added = np.array(menu, dtype=np.int64) @ np.array(sizes, dtype=np.int64).reshape(-1, 3)
    totals = (
        Way(-1, mass, length, cost, row) for row, (mass, length, cost) in enumerate(added.tolist())
    )
    rows = np.array([way.detail for way in _unbeaten(totals)], dtype=np.int64)
    more_mass, more_length, cost = added[rows].T
    shape = (len(weighs), len(rows))
    columns = (
        np.broadcast_to(np.arange(len(weighs))[:, None], shape),
        weighs[:, None] + more_mass,
        measures[:, None] + more_length,
        np.broadcast_to(cost, shape),
        np.broadcast_to(rows, shape),
    )
    return np.stack([column.reshape(-1) for column in columns], axis=1)


def _trimmed(mass: NDArray[np.int64], length: NDArray[np.int64], rules: Rules) -> NDArray[np.int64]:
    """Take off each weight every number of ticks that may come off."""
    if rules.trim is None:
        return np.empty((0, len(Way._fields)), dtype=np.int64)
    numerator, denominator = rules.trim.most
    most = mass * numerator // denominator
    number = np.repeat(np.arange(len(mass)), most)
    off = np.arange(len(number)) - np.repeat(np.cumsum(most) - most, most) + 1
    left = mass[number] - off
    shorter = -(-length[number] * left // mass[number])
    cost = rules.trim.fixed + rules.trim.per_tick * off
    return np.stack([number, left, shorter, cost, -off], axis=1)


def _new(metal: NewMetal, which: int, mass: int, *, number: int) -> Way:
    numerator, denominator = metal.length
    length = -(-mass * numerator // denominator) + metal.length_more
    return Way(number, mass, length, metal.fixed + metal.per_tick * mass, which)


def _unbeaten(ways: Iterator[Way]) -> list[Way]:
    """Keep, of each mass, the ways that are shorter than all cheaper ones; cheapest first."""
    kept: list[Way] = []
    for way in sorted(ways, key=lambda way: (way.mass, way.cost, way.length)):
        if not kept or kept[-1].mass != way.mass or way.length < kept[-1].length:
            kept.append(way)
    return kept
