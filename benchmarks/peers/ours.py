"""Ours, in the dress of a peer."""

from __future__ import annotations

from evenhung.allot.form import problem_of, solution_of
from evenhung.allot.solve import allot
from evenhung.allot.watch import Watch
from peers.ground import Found, Instance


def solve(instance: Instance, seconds: float) -> Found:
    """Read the instance, solve, and write the answer out: all of it counts."""
    answer = allot(problem_of(instance), Watch(seconds), rounds=1_000_000)
    solution = solution_of(answer)
    return Found(solution["sashes"], answer.bound, answer.status, solution["prices"])
