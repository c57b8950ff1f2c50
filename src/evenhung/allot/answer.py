"""The answer: which weight serves each side and how, what that costs, and what is proved."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from evenhung.allot.problem import penalty

if TYPE_CHECKING:
    from evenhung.allot.problem import Problem
    from evenhung.allot.ways import Ways

Status: TypeAlias = Literal["optimal", "feasible"]
"""`optimal`: no answer costs less, proved. `feasible`: none costs less than the bound."""


@dataclass(frozen=True, slots=True)
class Serving:
    """What hangs at one side of a sash."""

    weight: int | None
    """Number of the weight; None for a new one."""
    mass: int
    """As it hangs [tick]."""
    length: int
    """As it hangs [step]."""
    cost: int
    """Of pieces, trimming and the weight itself, without that of a move [cent]."""
    pieces: tuple[int, ...] = ()
    """Number of pieces of each size; empty where none is added."""
    trimmed: int = 0
    """What is taken off [tick]."""
    new: str | None = None
    """What a new weight is, by name: a metal or a ready-made one."""

    def source(self, problem: Problem) -> int:
        """Give the source it comes from."""
        if self.new is not None:
            return problem.source_named(self.new)
        return len(problem.weights) if self.weight is None else self.weight


Pair: TypeAlias = tuple[Serving, Serving]
"""Left and right."""


@dataclass(frozen=True, slots=True)
class Effort:
    """What an answer took."""

    epochs: int
    """Steps of the prices."""
    neighbourhoods: int
    """Neighbourhoods solved."""
    seconds: float


@dataclass(frozen=True, slots=True)
class Answer:
    """An allotment of a problem, with its proof."""

    pairs: tuple[Pair | None, ...]
    """For each sash; None where it is left unserved."""
    cost: int
    """Reckoned again from the pairs [cent]."""
    status: Status
    bound: int
    """No answer costs less [cent]."""
    prices: tuple[int, ...]
    """Of each weight: they prove `price_bound` to anyone [cent]."""
    price_bound: int
    """What the prices alone prove [cent]."""
    effort: Effort


def serving_of(problem: Problem, ways: Ways, way: int) -> Serving:
    """Give a way in plain words."""
    row = ways.row(way)
    if row.weight == len(problem.weights):
        name = problem.news()[row.detail].name
        return Serving(None, row.mass, row.length, row.cost, new=name)
    if row.detail < 0:
        return Serving(row.weight, row.mass, row.length, row.cost, trimmed=-row.detail)
    pieces = ways.menu[row.detail] if row.detail else ()
    return Serving(row.weight, row.mass, row.length, row.cost, pieces)


def cost_of(problem: Problem, pairs: tuple[Pair | None, ...]) -> int:
    """Reckon what pairs cost [cent], from the pairs and the rules alone.

    Raises
    ------
    ValueError
        If a pair is not accepted, is too long, or a weight hangs twice: a fault of ours.
    """
    rules, used, total = problem.rules, set(), 0
    for number, (sash, pair) in enumerate(zip(problem.sashes, pairs, strict=True)):
        if pair is None:
            total += rules.unserved
            continue
        off = penalty(rules, sash, pair[0].mass, pair[1].mass)
        if off is None:
            raise ValueError(f"sash {number}: its pair is not accepted")
        total += off
        for side, serving in enumerate(pair):
            total += serving.cost
            if serving.length > sash.longest[side]:
                raise ValueError(f"sash {number}, side {side}: too long")
            if serving.source(problem) in sash.barred[side]:
                raise ValueError(f"sash {number}, side {side}: barred")
            if serving.weight is None:
                continue
            if serving.weight in used:
                raise ValueError(f"sash {number}: weight {serving.weight} hangs twice")
            used.add(serving.weight)
            if problem.weights[serving.weight].home != (number, side):
                total += rules.move
    return total
